"""The scale of the rule under the close view, drawn once: for the page, for the wall and for paper.

Across it is in mm of the drawing. Down it is in heights of letters, which alone differ from one picture to the next.
"""

from collections.abc import Iterator
from dataclasses import asdict, dataclass

from conemodel.show.instrument.drawing import Group, Label, Part, Plate, Point, Rule
from conemodel.show.instrument.paths import Place, block

GOOD = "good range"
"""Group of what may not be seen in an exercise."""
CAPITALS = 0.35
"""How far the middle of letters is above their foot [heights of letters]."""
NARROWEST = 0.08
"""Width of the narrowest block [heights of letters]."""
BESIDE = 0.5
"""How far words stand from what they belong to [heights of letters]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spacing:
    """Heights in heights of letters: of a bar's row, of the pointers, of the rule, and of what is below it.

    Attributes:
        bar: upper edge and height of a bar in its row.
        tail: how far the good range goes below the rule.
        fine: marks closer than this are left out; figures: the same of figures.
    """

    row: float
    pointer: float
    plate: float
    foot: float
    bar: tuple[float, float] = (0.28, 0.6)
    tail: float = 0.0
    fine: float = 0.1
    figures: float = 1.65

    def height(self, rows: int) -> float:
        """Return the height of rule and bars with so many rows."""
        return rows * self.row + self.pointer + self.plate + self.foot


WALL = Spacing(row=1.02, pointer=0.5, plate=1.5, foot=0.42, tail=0.42)
"""Large letters, and no words but the bars'."""
PAGE = Spacing(row=1.16, pointer=1.5, plate=2.2, foot=2.5, bar=(0.46, 0.6), fine=0.24, figures=1.9)
"""Words beside the pointers, and below the rule what is assumed and where the race should stand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleScale:
    """The scale of a hub's rule.

    Attributes:
        rule: its ends and its zero; factor: how many times larger movement is drawn; out: which way x goes outboard.
        spacing: its heights; top: its upper edge; size: of letters, 1 where heights are counted in these.
    """

    rule: Rule
    factor: int
    out: int
    spacing: Spacing
    top: float = 0.0
    size: float = 1.0

    @property
    def place(self) -> Place:
        """Where it stands on its plate."""
        return Place(0.0, self.out)

    def u(self, play: float) -> float:
        """Return where an end play [mm] stands, outboard."""
        return self.out * self.rule.zero + self.factor * play

    def block(self, ends: tuple[float, float], top: float, height: float) -> list[Point]:
        """Return the block between two end plays [mm], never too narrow to be seen."""
        low, high = sorted(map(self.u, ends))
        if high - low < NARROWEST * self.size:
            middle = (low + high) / 2
            low, high = middle - NARROWEST / 2 * self.size, middle + NARROWEST / 2 * self.size
        return block((low, -top - height), (high, -top))

    def body(self) -> Part:
        """Return the rule's body."""
        ends = (self.rule.loosest, self.rule.tightest)
        return self.place.part("plate", self.block(ends, self.top, self.spacing.plate * self.size), "ruled")

    def good(self, edges: tuple[float, float]) -> Iterator[Part]:
        """Yield what is too tight and what is good, between two end plays [mm]."""
        tight, loose = self.within(edges)
        high = self.spacing.plate * self.size
        if tight > self.rule.tightest:
            bad = self.block((tight, self.rule.tightest), self.top, 0.4 * high)
            yield self.place.part("too-tight", bad, "forbidden", title="too tight")
        yield self.place.part(
            "good-zone",
            self.block((tight, loose), self.top, high + self.spacing.tail * self.size),
            "good",
            title="good range",
        )

    def within(self, edges: tuple[float, float]) -> tuple[float, float]:
        """Return two end plays [mm], each the end of the rule that it is beyond."""
        tight, loose = (min(max(edge, self.rule.tightest), self.rule.loosest) for edge in edges)
        return tight, loose

    def marks(self, every: int) -> Part:
        """Return the marks of each tenth, each twentieth or each hundredth (10, 5, 1) that are no longer ones."""
        high = {10: 0.36, 5: 0.28, 1: 0.18}[every] * self.spacing.plate * self.size
        lines = [
            [(self.u(i / 100), -self.top), (self.u(i / 100), -self.top - high)]
            for i in range(int(self.rule.tightest * 100), int(self.rule.loosest * 100) + 1)
            if _rank(i, (10, 5, 1)) == every
        ]
        return self.place.strokes("marks", lines, "edge" if every == 10 else "thin")

    def has_room_for(self, every: int) -> bool:
        """Tell whether marks of that rank stand far enough apart."""
        return self.factor * every / 100 >= self.spacing.fine * self.size

    def figures(self) -> Iterator[Label]:
        """Yield the figures of the rule, each in a group by its rank in tenths: 10, 5, 2 or 1."""
        for i in range(int(self.rule.tightest * 10), int(self.rule.loosest * 10) + 1):
            beside = min(self.rule.loosest - i / 10, i / 10 - self.rule.tightest) * self.factor
            if beside >= 0.4:
                words = f"{abs(i) / 10:.1f}" if i else "0"
                yield self._words(
                    words, self.u(i / 10), 0.62 * self.spacing.plate, group=f"figures {_rank(i)}"
                )

    @property
    def every(self) -> int:
        """Of how many tenths each has a figure, so that they keep apart."""
        apart = self.factor * 0.1 / (self.spacing.figures * self.size)
        return next((step for step in (1, 2, 5, 10) if step * apart >= 1), 10)

    def ends(self) -> Iterator[Label]:
        """Yield what the rule's ends are."""
        middle = 0.5 * self.spacing.plate
        outer, inner = ("end", "start") if self.out < 0 else ("start", "end")
        yield self._words("loose", self.u(self.rule.loosest), middle, anchor=outer, ink="petrol")
        yield self._words(
            "too tight", self.u(self.rule.tightest), middle, anchor=inner, ink="forbidden", few="tight"
        )

    def where_good(self, edges: tuple[float, float]) -> Label:
        """Return the words of the good range, below it and below the row of what is assumed."""
        low = self.spacing.plate + self.spacing.foot - 0.75
        return self._words(
            "\N{CHECK MARK} race should stand here",
            self.u(sum(self.within(edges)) / 2),
            low,
            group=GOOD,
            ink="good",
            few="\N{CHECK MARK} good",
        )

    def _words(
        self,
        text: str,
        u: float,
        y: float,
        *,
        anchor: str = "middle",
        group: str | None = None,
        ink: str = "ink",
        few: str = "",
    ) -> Label:
        """Return words whose middle is `y` heights of letters below the rule's upper edge."""
        aside = {"start": BESIDE, "middle": 0.0, "end": -BESIDE}[anchor]
        at = (self.out * u, self.top + y * self.size)
        return Label(text=text, at=at, anchor=anchor, group=group, ink=ink, few=few, aside=aside)


def rule_plate(scale: RuleScale, good: tuple[float, float] | None) -> Plate:
    """Return the scale of a page, its letters of height 1, `good` range [mm] or None where it may not be seen."""
    groups = [Group(name="rule", parts=(scale.body(),))]
    if good is not None:
        groups.append(Group(name=GOOD, parts=tuple(scale.good(good))))
    groups += [Group(name=f"marks {every}", parts=(scale.marks(every),)) for every in (1, 5, 10)]
    groups += [Group(name=f"figures {every}") for every in (1, 2, 5, 10)]
    left, right = sorted(scale.out * scale.u(end) for end in (scale.rule.loosest, scale.rule.tightest))
    return Plate(
        view=(left, 0.0, right - left, scale.spacing.plate),
        groups=tuple(groups),
        labels=(*scale.figures(), *scale.ends(), *([] if good is None else [scale.where_good(good)])),
    )


def _rank(i: int, steps: tuple[int, ...] = (10, 5, 2, 1)) -> int:
    """Return the largest of some steps that a number is a multiple of."""
    return next(step for step in steps if i % step == 0)


def spacing_json(spacing: Spacing) -> dict[str, object]:
    """Return the heights as plain data."""
    return asdict(spacing)
