"""Everything that a browser needs of one hub: its drawing, how that is painted, and its numbers."""

from typing import Any

import numpy as np

from conemodel.parts.scenario import Scenario
from conemodel.show.instrument.drawing_of import drawing_of
from conemodel.show.instrument.numbers import numbers_json
from conemodel.show.instrument.paints import COLOURS, PAINTS
from conemodel.show.instrument.rule_scale import PAGE, spacing_json
from conemodel.tasks.setting.travel import Travel, travel_of

BARS = {"given", "took", "assumed"}
"""Paints of what moves over the rule under the close view."""


def hub_json(scenario: Scenario) -> dict[str, Any]:
    """Return a hub for the whole range of its cone, whatever back-off it has, as plain data.

    Where riding changes nothing there is no end play under the rider: it is that of the clamped hub.

    Raises:
        NotConverged: no balance of forces was found.
    """
    travel = travel_of(scenario)
    window = travel.window
    drawing = drawing_of(scenario, good=(window.tight_edge, window.loose_edge), good_arc=good_arc(travel))
    used = {part.paint for plate in drawing.plates.values() for group in plate.groups for part in group.parts}
    paints = {key: paint for key, paint in PAINTS.items() if key in used | BARS}
    numbers = numbers_json(travel)
    if numbers["end_play"]["ridden"] == numbers["end_play"]["clamped"]:
        del numbers["end_play"]["ridden"]
    told = drawing.as_json()
    told["rule"] |= spacing_json(PAGE)
    return {**told, "paints": paints, "colours": COLOURS, "clamp": clamp_json(scenario), "numbers": numbers}


def clamp_json(scenario: Scenario) -> dict[str, Any]:
    """Return what a clamp is called: its control, itself, and its three states from open to closed."""
    kind = scenario.clamp.traits
    return {"control": kind.control, "name": kind.taker, "states": list(kind.states)}


def good_arc(travel: Travel) -> tuple[float, float] | None:
    """Return between which angles of the cone the hub is right once clamped [rad]; None where at none in its range."""
    clamped, window = travel.end_play["clamped"], travel.window
    if clamped[-1] < window.tight_edge or clamped[0] > window.loose_edge:
        return None
    tight, loose = np.interp((window.tight_edge, window.loose_edge), clamped, travel.cone_angle)
    return float(tight), float(loose)
