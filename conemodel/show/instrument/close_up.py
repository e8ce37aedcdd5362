"""What the close view of a hub's adjustable side is drawn from."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from conemodel.show.instrument.drawing import Box
from conemodel.show.instrument.measures import Half
from conemodel.show.instrument.paths import Place
from conemodel.show.instrument.thread import Thread

STANDS_OFF = 1.2
"""How far a locknut that is run back stands from its washer [mm drawn]."""
SHAPE = 2.5
"""Width of the view over its height, unless the ball needs more of it."""
LONGEST, SHORTENED = 9.0, 6.0
"""A spacer longer than the first is broken and drawn as long as the second [mm]."""
REACH = 7.4 / 6.35
"""How far the view reaches inboard of the ball's middle [ball diameters]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CloseUp:
    """What the close view is drawn from.

    Attributes:
        half: the adjustable side, its spacer as long as drawn; broken: that is shorter than it is.
        place: where it stands on the plate; thread: as drawn.
        factor: how many times larger movement is drawn; shortens: how far the clamp pulls the axle's end in [mm].
        most: furthest out the cone is ever turned [mm of end play]; force: of the clamp in words.
        dents: words for each of its races that is dented, by cone and cup.
        good: the good range, clamped, tight and loose edge [mm], or None where it may not be seen.
    """

    half: Half
    broken: bool
    place: Place
    thread: Thread
    factor: int
    shortens: float
    most: float
    force: str
    dents: Mapping[str, str]
    good: tuple[float, float] | None

    def out(self, mm: float) -> float:
        """Return what moves by `mm` outboard for each unit, as it moves along x."""
        return self.place.out * mm

    @property
    def with_cone(self) -> dict[str, float]:
        """How what the cone carries moves."""
        return {"cone": self.out(self.factor)}

    @property
    def with_wheel(self) -> dict[str, float]:
        """How what the wheel carries moves."""
        return {"rocked": self.out(self.factor)}

    @property
    def travel(self) -> tuple[float, float]:
        """How far inboard and outboard the cone may be drawn [mm]."""
        return 0.5 * self.factor, self.most * self.factor + self.thread.pitch

    @property
    def in_axle(self) -> float:
        """Middle of what is seen of the axle below its thread."""
        return (max(self.half.bore, self._bottom) + self.thread.root) / 2

    @property
    def _bottom(self) -> float:
        return self.half.thread - 2.64

    @property
    def view(self) -> Box:
        """What is seen: out to the locknut of a cone a quarter turn out, in past the ball."""
        outboard = self.half.nut[1] + 6.5
        width = outboard + REACH * self.half.ball
        bottom = self._bottom
        top = max(bottom + width / SHAPE, self.half.cup_outer + 0.4 * self.half.ball)
        return (-outboard if self.place.out < 0 else outboard - width, -top, width, top - bottom)


def shortened(half: Half) -> Half:
    """Return a side with its spacer no longer than is drawn."""
    _, middle, outer = half.stack
    less = outer - middle - SHORTENED if outer - middle > LONGEST else 0.0
    return replace(half, nut=(half.nut[0] - less, half.nut[1] - less))
