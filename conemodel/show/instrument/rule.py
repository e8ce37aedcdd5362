"""The rule under the close view, of the same enlargement as its gap: what was given, what was taken, what is left."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from conemodel.base.units import MM
from conemodel.show.formatting import number
from conemodel.show.instrument.drawing import Box, Drawing, Group, Label, Part, Plate, Point
from conemodel.show.instrument.paths import Place, block
from conemodel.solve.stages.terms import Term

ROW, PLATE, POINTER, FOOT = 1.02, 1.5, 0.5, 0.42
"""Heights of a bar's row, of the rule, of the pointer above it and of what is assumed below it [heights of letters]."""
WIDE = 0.54
"""Mean width of a letter over its height."""
MARKS_APART = 0.1
"""Least distance of two marks [heights of letters]."""
SEEN = 5e-4
"""What is printed as nothing [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What a stage did to the end play: before and after [mm, as printed], in words."""

    start: float
    end: float
    words: str


def changes_of(stages: Sequence[tuple[str, Sequence[Term]]], took: Mapping[str, str]) -> tuple[Change, ...]:
    """Return what each stage did in all.

    Amounts are between rounded end plays, so that what is printed adds up.

    Args:
        stages: names of stages with their terms, in order of the work.
        took: by stage, what took or gave play.
    """
    found, level = [], 0.0
    for stage, terms in stages:
        after = level + sum(float(MM.from_si(term.length)) for term in terms)
        start, end = round(level, 3), round(after, 3)
        level = after
        doer = took.get(stage, "")
        if stage == "backed_off":
            doer = f"{doer} {'in' if end < start else 'out'}"
        if abs(end - start) >= SEEN:
            about = "≈ " if any(t.assumed and abs(MM.from_si(t.length)) >= SEEN for t in terms) else ""
            found.append(Change(start=start, end=end, words=f"{doer} {about}{number(abs(end - start), 3)}"))
        elif doer and stage in ("locked", "clamped"):
            doer = doer.removesuffix(" gave").removesuffix(" took")
            found.append(Change(start=start, end=end, words=f"{doer} took nothing"))
    return tuple(found)


def rule_height(rows: int, letters: float) -> float:
    """Return how high rule and bars are with so many rows, letters `letters` high [mm]."""
    return (rows * ROW + POINTER + PLATE + FOOT) * letters


def with_rule(
    drawing: Drawing,
    plate: Plate,
    box: Box,
    changes: Sequence[Change],
    *,
    good: tuple[float, float] | None,
    assumed: tuple[float, float] | None = None,
    rows: int,
    letters: float,
    corner: tuple[float, float] = (0.0, 0.0),
) -> Plate:
    """Return the close view with its rule below it.

    Args:
        drawing: of the hub.
        plate: its close view.
        box: what is seen of that [mm].
        changes: a bar for each; the pointer stands where the cone does after the last, or at the rule's end.
        good: the good range [mm of end play], or None where it may not be seen.
        assumed: between which end plays the cone may stand instead [mm], or None.
        rows: room for bars, at least as many as there are.
        letters: size of its words [mm].
        corner: width and height at the outboard foot that words of bars leave free [mm].
    """
    place, base = Place(0.0, drawing.out), box[1] + box[3]
    rule = _Rule(drawing, place, base, base + (rows * ROW + POINTER) * letters, letters, box)
    below = block((-1e3, -base - 1e3), (1e3, -base))
    groups = [Group(name="below", parts=(place.part("below", below, "clear"),))]
    groups += [Group(name=f"bar {i}", parts=(rule.bar(i, change),)) for i, change in enumerate(changes)]
    now = changes[-1].end if changes else 0.0
    groups += [
        Group(name="rule", parts=tuple(rule.parts(now, good, assumed))),
        rule.pointer(now),
    ]
    labels = [*(rule.bar_words(i, change, corner) for i, change in enumerate(changes)), *rule.figures()]
    view = (box[0], box[1], box[2], box[3] + rule_height(rows, letters))
    return replace(plate, view=view, groups=(*plate.groups, *groups), labels=(*plate.labels, *labels))


@dataclass(frozen=True, slots=True)
class _Rule:
    """The rule of a drawing: `base` is the parts' lower edge, `top` its own, y down; `size` of letters [mm]."""

    drawing: Drawing
    place: Place
    base: float
    top: float
    size: float
    box: Box

    def u(self, play: float) -> float:
        """Return where an end play [mm] stands, outboard."""
        return self.drawing.out * self.drawing.rule.zero + self.drawing.factor * play

    def _block(self, ends: tuple[float, float], top: float, height: float) -> list[Point]:
        low, high = sorted(map(self.u, ends))
        if high - low < 0.08 * self.size:
            low, high = (low + high) / 2 - 0.04 * self.size, (low + high) / 2 + 0.04 * self.size
        return block((low, -top - height), (high, -top))

    def _row(self, i: int) -> float:
        return self.base + i * ROW * self.size

    def bar(self, i: int, change: Change) -> Part:
        """Return the bar of a change."""
        ends = (change.start, change.end)
        outline = self._block(ends, self._row(i) + 0.28 * self.size, 0.6 * self.size)
        return self.place.part("bar", outline, "given" if change.end > change.start else "took")

    def bar_words(self, i: int, change: Change, corner: tuple[float, float]) -> Label:
        """Return the words of a change, outboard of its bar as far as they have room."""
        foot = self._row(i) + 0.9 * self.size
        wide = corner[0] if foot > self.top + (PLATE + FOOT) * self.size - corner[1] else 0.0
        _, high = sorted(self.drawing.out * x for x in (self.box[0], self.box[0] + self.box[2]))
        u = self.u(max(change.start, change.end)) + 0.4 * self.size
        u = min(u, high - wide - WIDE * self.size * len(change.words))
        return self._label(change.words, u, foot)

    def _label(self, text: str, u: float, y: float, *, outwards: bool = True) -> Label:
        anchor = "end" if outwards == (self.drawing.out < 0) else "start"
        return Label(text=text, at=(self.drawing.out * u, y), anchor=anchor)

    def parts(
        self, now: float, good: tuple[float, float] | None, assumed: tuple[float, float] | None
    ) -> Iterator[Part]:
        """Yield the rule: its body, what is left, too tight and good, its marks, and where the cone may stand."""
        rule, high = self.drawing.rule, PLATE * self.size
        yield self.place.part("plate", self._block((rule.loosest, rule.tightest), self.top, high), "paper")
        yield from self._left_over(now)
        if good is not None:
            tight, loose = (min(max(edge, rule.tightest), rule.loosest) for edge in good)
            if tight > rule.tightest:
                bad = self._block((tight, rule.tightest), self.top, 0.4 * high)
                yield self.place.part("too-tight", bad, "forbidden", title="too tight")
            well = self._block((tight, loose), self.top, high + FOOT * self.size)
            yield self.place.part("good-zone", well, "good", title="good range")
        for name, marks in (("marks", self._marks(1)), ("strong-marks", self._marks(10))):
            lines = [[(self.u(m), -self.top), (self.u(m), -self.top - h * high)] for m, h in marks]
            yield self.place.strokes(name, lines, "thin" if name == "marks" else "edge")
        if assumed is not None:
            low, loose = map(self._seen, assumed)
            room = self._block((low, loose), self.top + high, 0.9 * FOOT * self.size)
            yield self.place.part("assumed", room, "assumed", title="could be anywhere here")

    def _left_over(self, now: float) -> Iterator[Part]:
        """Yield the gap that is left, plumb under the gap itself."""
        if self._seen(now) > 0:
            ends = (0.0, self._seen(now))
            yield self.place.part("left-over", self._block(ends, self.top, 0.45 * PLATE * self.size), "gap")
            line = [(self.u(0.0), -self.top), (self.u(0.0), -self.base)]
            yield self.place.part("plumb-zero", line, "hidden", closed=False)

    def _seen(self, play: float) -> float:
        """Return an end play [mm], or the end of the rule that it is beyond."""
        return min(max(play, self.drawing.rule.tightest), self.drawing.rule.loosest)

    def _marks(self, every: int) -> Iterator[tuple[float, float]]:
        """Yield marks below a tenth, as fine as they stand apart, or of each tenth [mm]; heights over the rule's."""
        rule = self.drawing.rule
        finest = 1 if 0.01 * self.drawing.factor > MARKS_APART * self.size else 5
        for i in range(int(rule.tightest * 100), int(rule.loosest * 100) + 1):
            if i % finest == 0 and (i % 10 == 0) == (every == 10):
                yield i / 100, 0.36 if every == 10 else 0.28 if i % 5 == 0 else 0.18

    def figures(self) -> Iterator[Label]:
        """Yield the figures of the rule that have room, and what its ends are."""
        rule, low = self.drawing.rule, self.top + (PLATE - 0.22) * self.size
        apart = self.drawing.factor * 0.1 / (1.65 * self.size)
        every = next((step for step in (1, 2, 5, 10) if step * apart >= 1), 20)
        for i in range(int(rule.tightest * 10), int(rule.loosest * 10) + 1):
            beside = min(rule.loosest - i / 10, i / 10 - rule.tightest) * self.drawing.factor
            if i % every == 0 and beside > 0.75 * self.size:
                words = f"{abs(i) / 10:.1f}" if i else "0"
                yield Label(text=words, at=(self.drawing.out * self.u(i / 10), low))
        middle = self.top + (0.5 * PLATE + 0.36) * self.size
        yield self._label("loose", self.u(rule.loosest) + 0.3 * self.size, middle)
        yield self._label("tight", self.u(rule.tightest) - 0.3 * self.size, middle, outwards=False)

    def pointer(self, now: float) -> Group:
        """Return the pointer, which goes with the cone to the end play `now` [mm], on the rule as far as that goes."""
        share = self._seen(now) / now if now else 1.0
        u, head = self.u(0.0), POINTER * self.size
        tip = [(u, -self.top), (u - 0.7 * head, -self.top + head), (u + 0.7 * head, -self.top + head)]
        line = [(u, -self.top), (u, -self.base)]
        move = {"cone": share * self.drawing.out * self.drawing.factor}
        parts = (
            self.place.part("plumb", line, "hidden", closed=False),
            self.place.part("pointer", tip, "dark", title="now"),
        )
        return Group(name="pointer", move=move, parts=parts)
