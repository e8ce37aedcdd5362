"""Faults that can be seen, drawn where they are and far larger than they are: dents, a bent axle, cups askew."""

from math import atan2, cos, degrees, radians, sin

from conemodel.parts.hub import SIDES, Side
from conemodel.parts.scenario import Scenario
from conemodel.show.instrument.drawing import Part, Point
from conemodel.show.instrument.measures import Half
from conemodel.show.instrument.paths import Place, arc

WIDE, DEEP = 0.16, 0.05
"""Length along a track and depth of a dent as drawn [ball diameters]."""
BENT = 2.2
"""How far a bent end of an axle leans as drawn [°]."""
ASKEW = 2.0
"""How far a cup that was pressed in askew leans as drawn [°]."""
WORN = 0.16
"""Share of its pitch from which on slack is drawn as a worn thread. Judgement."""


def dents_of(scenario: Scenario, side: Side) -> dict[str, str]:
    """Return which races of one side are dented, cone or cup, with words for it."""
    condition = getattr(scenario.condition, side)
    count = getattr(scenario.hub, side).ball_count
    return {
        race: f"dented track of the {side} {race}"
        for race in ("cone", "cup")
        if getattr(condition, f"{race}_dents").places(count)
    }


def dent(half: Half, place: Place, race: str, words: str) -> Part:
    """Return a dent where the ball runs on cone or cup: a hollow in the race's metal."""
    return place.part("dent", _hollow(half, race), "dent", title=words)


def _hollow(half: Half, race: str) -> list[Point]:
    contact = half.contact if race == "cone" else half.cup_contact
    groove = half.cone_groove if race == "cone" else half.cup_groove
    along = (contact[0] / (half.ball / 2), (contact[1] - half.pitch) / (half.ball / 2))
    centre = (contact[0] - groove * along[0], contact[1] - groove * along[1])
    middle = degrees(atan2(along[1], along[0]))
    wide = degrees(WIDE * half.ball / groove)
    rim = arc(centre, groove, middle - wide, middle + wide, steps=6)
    floor = []
    for i in range(7):
        share = i / 3 - 1
        angle = radians(middle - share * wide)
        radius = groove + DEEP * half.ball * (1 - share * share)
        floor.append((centre[0] + radius * cos(angle), centre[1] + radius * sin(angle)))
    return [*rim, *floor[1:-1]]


def bent_side(scenario: Scenario) -> dict[Side, float]:
    """Return the sides whose cone stands askew, as on a bent axle, with how far that is drawn [°]."""
    leans = {side: getattr(scenario.condition, side).cone_tilt for side in SIDES}
    return {side: BENT if max(lean, key=abs) > 0 else -BENT for side, lean in leans.items() if any(lean)}
