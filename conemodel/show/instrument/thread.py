"""The thread of axle, cone and locknut in section, coarser than it is, so that its slack shows beside the parts.

A screw that turns leaves its section where it is: the teeth of a cone stay among those of the axle while the cone's
body slides over them, so they are a comb that the bore cuts out.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, floor, radians, tan

from conemodel.show.instrument.drawing import Point
from conemodel.show.instrument.faults import WORN
from conemodel.show.instrument.measures import Half

COARSER = (4, 8, 16, 32)
"""How many times coarser a thread may be drawn; the first at which its slack leaves teeth between."""
MOST_SLACK = 0.64
"""Share of a drawn pitch that slack may take."""
FLANK = tan(radians(30))
"""Sideways over along a flank of a metric thread, half of 60°. Source: [ISO68-1], recalled."""
PHASE = 0.4
"""Where a tooth of the axle stands [mm outboard of the ball plane]; no scenario gives it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread:
    """A thread as drawn [mm].

    Attributes:
        pitch: from tooth to tooth; slack: axial, both as drawn.
        crest, root: radii of the axle's teeth; bore: radius of cone and nut at the root of theirs.
        tip: radius of the cone's teeth; worn: crests are rounded off.
    """

    pitch: float
    slack: float
    crest: float
    root: float
    bore: float
    tip: float
    worn: bool

    @property
    def middle(self) -> float:
        """Radius at which teeth and gaps are measured."""
        return (self.crest + self.root) / 2

    @property
    def tooth(self) -> float:
        """Thickness of a tooth there."""
        return (self.pitch - self.slack) / 2

    def half_width(self, v: float, *, of_axle: bool) -> float:
        """Return half the thickness of a tooth at a radius."""
        grows = (self.middle - v) if of_axle else (v - self.middle)
        return max(0.06, self.tooth / 2 + grows * FLANK)

    def centres(self, start: float, end: float, *, of_axle: bool) -> Iterator[float]:
        """Yield where teeth stand between two places, each whole."""
        first = PHASE + (0.0 if of_axle else self.pitch / 2)
        low, high = ceil((start - first) / self.pitch), floor((end - first) / self.pitch)
        return (first + i * self.pitch for i in range(low, high + 1))

    def axle_teeth(self, start: float, end: float) -> list[Point]:
        """Return the axle's outside from `start` to `end`, whole teeth only."""
        points = [(start, self.root)]
        foot, top = (self.half_width(v, of_axle=True) for v in (self.root, self.crest))
        for c in self.centres(start + foot, end - foot, of_axle=True):
            points += [
                (c - foot, self.root),
                *((c + u, v) for u, v in self._crest(top)),
                (c + foot, self.root),
            ]
        return [*points, (end, self.root)]

    def _crest(self, top: float) -> list[Point]:
        """Return the crest of a tooth about its middle: flat, or rounded off where the thread is worn."""
        if not self.worn:
            return [(-top, self.crest), (top, self.crest)]
        low = 0.3 * (self.crest - self.root)
        wide = self.half_width(self.crest - low, of_axle=True)
        half = [(0.55 * wide, self.crest - 0.25 * low), (wide, self.crest - low)]
        return [*((-u, v) for u, v in reversed(half)), (0.0, self.crest), *half]

    def comb(self, start: float, end: float) -> list[Point]:
        """Return the teeth of cone or nut between two places, whole ones only, from foot to foot."""
        foot, top = (self.half_width(v, of_axle=False) for v in (self.bore, self.tip))
        sides = ((-foot, self.bore), (-top, self.tip), (top, self.tip), (foot, self.bore))
        return [(c + u, v) for c in self.centres(start, end, of_axle=False) for u, v in sides]

    def flanks(self, start: float, end: float, *, outer: bool) -> list[list[Point]]:
        """Return where the comb bears on the axle's teeth when it is pushed out or in."""
        low, high = self.root + 0.18, self.crest - 0.06
        way = 1 if outer else -1
        wide = {v: way * self.half_width(v, of_axle=False) for v in (low, high)}
        return [
            [(c + wide[low], low), (c + wide[high], high)] for c in self.centres(start, end, of_axle=False)
        ]


def thread_of(half: Half, *, slack: float, factor: int) -> tuple[Thread, int]:
    """Return a side's thread as drawn, its slack [mm] enlarged by `factor`, and how many times coarser it is."""
    drawn = factor * slack
    coarser = next((c for c in COARSER if drawn <= MOST_SLACK * c * half.lead), COARSER[-1])
    pitch = coarser * half.lead
    depth = min(1.2, 0.3 * pitch, 0.48 * (half.thread - half.bore))
    root = half.thread - depth
    thread = Thread(
        pitch=pitch,
        slack=min(drawn, MOST_SLACK * pitch),
        crest=half.thread,
        root=root,
        bore=half.thread + 0.12,
        tip=root + 0.15,
        worn=slack > WORN * half.lead,
    )
    return thread, coarser
