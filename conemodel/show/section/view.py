"""What one picture of a hub in section shows."""

from dataclasses import dataclass

from conemodel.base.units import MM
from conemodel.parts.hub import Side
from conemodel.parts.scenario import Scenario
from conemodel.show.palette import Tones
from conemodel.show.section.outline import Half

CAP = 8.0
"""How far nut or lever of the clamp stand out of the dropout [mm]; schematic."""
BEYOND = 5.0
"""How far a picture of one side reaches past the hub's middle [mm]."""
LOOSE = 1.6
"""How far a locknut that is not tightened yet is drawn from its washer [mm]."""

SAME = 1e-9
"""Two end plays this close are one [m]."""

Told = tuple[str, bool, str]
"""A line of text: words, whether in bold, colour or nothing."""

Halves = dict[Side, Half]


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """What one picture shows.

    Attributes:
        scenario: the hub; stage: what has been done to it.
        end_play: now [m]; before: at the stage before, or None; preload: now [N].
        exaggeration: how many times larger the cone's movement is drawn.
        compact: the adjustable side only; tones: colours.
    """

    scenario: Scenario
    stage: str
    end_play: float
    before: float | None
    preload: float
    exaggeration: float
    compact: bool
    tones: Tones

    @property
    def clamped(self) -> bool:
        """Whether the clamp is closed."""
        return self.stage in ("clamped", "ridden")

    @property
    def nut_loose(self) -> bool:
        """Whether the locknut is not tightened yet."""
        return self.stage in ("contact", "backed_off")

    @property
    def moved(self) -> float:
        """How far the adjustable cone is drawn from just touching [mm], positive outboard."""
        return MM.from_si(self.end_play) * self.exaggeration

    @property
    def adjustable(self) -> Side:
        """Side of the cone that is turned."""
        return self.scenario.hub.adjustable_side

    @property
    def sides(self) -> tuple[Side, ...]:
        """Sides that are drawn."""
        return (self.adjustable,) if self.compact else ("left", "right")


def sign_of(side: Side) -> int:
    """Return which way outboard is on a side: left is -1."""
    return -1 if side == "left" else 1


def outer_face(half: Half) -> float:
    """Return where the clamp presses: the dropout's outer face, or the axle's end where that stands proud."""
    return half.nut[1] + max(half.dropout, half.protrusion)


def clamp_face(view: View, half: Half) -> float:
    """Return where nut or lever of the clamp begins [mm]; an axle nut slips over the axle's end."""
    return outer_face(half) if view.scenario.clamp.traits.through_axle else half.nut[1] + half.dropout
