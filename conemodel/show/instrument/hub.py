"""What the whole view is drawn from: both sides' measures in one hub, x from its middle, right to the right."""

from dataclasses import dataclass, replace
from math import pi, sin
from typing import Literal

from conemodel.base.units import MM
from conemodel.parts.hub import SIDES, Side
from conemodel.parts.scenario import Scenario
from conemodel.show.instrument.faults import bent_side
from conemodel.show.instrument.measures import Half, half_of
from conemodel.show.instrument.paths import Place

REAR = 118.0
"""From this width over the locknuts on a hub is a rear one [mm]. Common practice, no source."""
FREEHUB = 128.0
"""From this width on a rear hub has several sprockets [mm]. Common practice, no source."""

Driven = Literal["no", "sprocket", "freehub", "freewheel"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WholeHub:
    """A hub as the whole view draws it.

    Attributes:
        scenario: the hub; halves: measures of both sides.
    """

    scenario: Scenario
    halves: dict[Side, Half]

    @property
    def adjusted(self) -> Side:
        """Side whose cone is adjusted."""
        return self.scenario.hub.adjustable_side

    @property
    def far(self) -> Side:
        """The other side."""
        return "right" if self.adjusted == "left" else "left"

    @property
    def face(self) -> float:
        """Where both locknuts' outer faces stand, from the middle [mm]."""
        return MM.from_si(self.scenario.hub.over_locknut_width) / 2

    @property
    def driven(self) -> Driven:
        """How the chain drives it."""
        if 2 * self.face < REAR:
            return "no"
        right = self.halves["right"]
        if right.nut[1] - right.cone_end > 28:
            return "freewheel"
        return "freehub" if 2 * self.face >= FREEHUB else "sprocket"

    @property
    def sprockets(self) -> list[tuple[float, float]]:
        """Where each sprocket stands and its pitch radius [mm], from inboard out. Chain pitch 12.7 mm, from memory."""
        right = self.halves["right"]
        places = {
            "no": [],
            "sprocket": [(right.plane + 5.1 * right.scale, 18)],
            "freehub": [
                (self.face - 6.5 - 4.8 * i, teeth) for i, teeth in enumerate((12, 13, 14, 16, 18, 20, 23, 26))
            ],
            "freewheel": [
                (self.face - 11.0 - 5.5 * i, teeth) for i, teeth in enumerate((14, 16, 18, 21, 24, 28))
            ],
        }[self.driven]
        return sorted((at, 6.35 / sin(pi / teeth)) for at, teeth in places)

    def row(self, side: Side, *, up: int = 1) -> Place:
        """Return where one side's own measures stand."""
        out = -1 if side == "left" else 1
        return Place(out * self.halves[side].plane, out, up)

    def stack(self, side: Side, *, up: int = 1) -> Place:
        """Return the same for what the axle carries there, which leans on a bent axle."""
        return replace(self.row(side, up=up), lean=bent_side(self.scenario).get(side, 0.0))

    def end(self, side: Side, *, up: int = 1) -> Place:
        """Return where lengths from the hub's middle out stand on one side."""
        return Place(0.0, -1 if side == "left" else 1, up, digits=1)

    def seat(self, side: Side) -> Literal["dropout", "spacer", "axle end"]:
        """Return what the clamp presses on, on one side."""
        seat = self.scenario.setting.clamp_seat
        if seat == "dropouts" or (seat == "one side in frame" and side != self.adjusted):
            return "dropout"
        return "axle end" if side == self.adjusted and seat != "spacers on locknuts" else "spacer"

    def clamp_face(self, side: Side) -> float:
        """Return where lever, nut or head of the clamp bears on one side, from the middle [mm]."""
        half = self.halves[side]
        if self.seat(side) == "axle end":
            return self.face + half.protrusion + half.dropout
        through = self.scenario.clamp.traits.held_by_ends
        return self.face + (max(half.dropout, half.protrusion) if through else half.dropout)


def hub_of(scenario: Scenario) -> WholeHub:
    """Return a scenario's hub as the whole view draws it."""
    return WholeHub(scenario=scenario, halves={side: half_of(scenario, side) for side in SIDES})
