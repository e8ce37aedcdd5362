"""Where a loose cone is put, and where an eye sees it stand."""

from dataclasses import replace

from conemodel.base.units import DEG
from conemodel.parts.unknowns.hands import SEEN_TURN
from conemodel.solve.stages.terms import cone_arm, contact_end_play, pair_of
from conemodel.tasks.practice.hub_terms import end_play_of
from conemodel.tasks.practice.session import HiddenHub, HubState

EYE = {True: DEG.to_si(SEEN_TURN.low), False: DEG.to_si(SEEN_TURN.usual)}
"""How finely an eye reads the clock, with a pen line and without [rad]."""


def place_cone(secret: HiddenHub, hub: HubState, length: float, limit: float) -> tuple[HubState, bool]:
    """Return a loose cone moved by `length` along the thread [m], and whether the balls stopped it.

    `limit` is the most torque on the cone [N·m].
    """
    scenario = secret.now(hub)
    stop = contact_end_play(pair_of(scenario), limit / float(cone_arm(scenario)))
    innermost = hub.cone + stop - end_play_of(secret, hub)
    cone = hub.cone + length
    stopped = cone < innermost
    cone = max(cone, min(innermost, hub.cone))
    shown = hub.shown + (cone - hub.cone) / scenario.axle.lead_per_radian
    return replace(hub, cone=cone, shown=shown).moved(), stopped


def clock_position(secret: HiddenHub, hub: HubState, length: float) -> float:
    """Return where the cone is seen to stand after it went by `length` [m], as finely as an eye reads it [rad]."""
    step = EYE[hub.pen]
    return round((hub.shown + length / secret.now(hub).axle.lead_per_radian) / step) * step


def show_cone(secret: HiddenHub, hub: HubState, after: HubState) -> HubState:
    """Return a locked hub with its cone shown where an eye sees that it went."""
    turned = (after.lock.rotation if after.lock else 0.0) - (hub.lock.rotation if hub.lock else 0.0)
    return replace(after, shown=clock_position(secret, hub, turned))
