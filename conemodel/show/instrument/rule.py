"""The rule under the close view, of the same enlargement as its gap: what was given, what was taken, what is left."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from conemodel.base.units import MM
from conemodel.show.formatting import number
from conemodel.show.instrument.drawing import Box, Drawing, Group, Label, Part, Plate, Point
from conemodel.show.instrument.paths import block
from conemodel.show.instrument.rule_scale import CAPITALS, WALL, RuleScale
from conemodel.solve.stages.terms import Term

WIDE = 0.54
"""Mean width of a letter over its height."""
APART = 0.4
"""How far words stand from their bar [heights of letters]; less than the margin of the whole hub in the corner."""
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
    base = box[1] + box[3]
    top = base + (rows * WALL.row + WALL.pointer) * letters
    scale = RuleScale(
        rule=drawing.rule, factor=drawing.factor, out=drawing.out, spacing=WALL, top=top, size=letters
    )
    rule = _UnderWall(scale, base, box)
    below = block((-1e3, -base - 1e3), (1e3, -base))
    groups = [Group(name="below", parts=(scale.place.part("below", below, "clear"),))]
    groups += [Group(name=f"bar {i}", parts=(rule.bar(i, change),)) for i, change in enumerate(changes)]
    now = changes[-1].end if changes else 0.0
    words = [rule.bar_words(i, change, corner) for i, change in enumerate(changes)]
    groups += [
        Group(name="rule", parts=tuple(rule.parts(now, good, assumed, words))),
        rule.pointer(now, words),
    ]
    labels = [*words, *rule.words()]
    view = (box[0], box[1], box[2], box[3] + WALL.height(rows) * letters)
    return replace(plate, view=view, groups=(*plate.groups, *groups), labels=(*plate.labels, *labels))


@dataclass(frozen=True, slots=True)
class _UnderWall:
    """The rule below a close view of which `box` is seen [mm]; `base` is that view's lower edge, y down."""

    scale: RuleScale
    base: float
    box: Box

    def _row(self, i: int) -> float:
        return self.base + i * WALL.row * self.scale.size

    def bar(self, i: int, change: Change) -> Part:
        """Return the bar of a change."""
        size, (above, high) = self.scale.size, WALL.bar
        outline = self.scale.block((change.start, change.end), self._row(i) + above * size, high * size)
        return self.scale.place.part("bar", outline, "given" if change.end > change.start else "took")

    def bar_words(self, i: int, change: Change, corner: tuple[float, float]) -> Label:
        """Return the words of a change, outboard of its bar as far as they have room beside the corner."""
        out, size = self.scale.out, self.scale.size
        foot = self._row(i) + 0.9 * size
        wide = corner[0] if foot > self.scale.top + (WALL.plate + WALL.foot) * size - corner[1] else 0.0
        high = max(out * x for x in (self.box[0], self.box[0] + self.box[2]))
        u = self.scale.u(max(change.start, change.end)) + APART * size
        u = min(u, high - max(wide - APART * size, 0.0) - WIDE * size * len(change.words))
        return Label(text=change.words, at=(out * u, foot), anchor="end" if out < 0 else "start")

    def parts(
        self,
        now: float,
        good: tuple[float, float] | None,
        assumed: tuple[float, float] | None,
        words: Sequence[Label],
    ) -> Iterator[Part]:
        """Yield the rule: its body, what is left, too tight and good, its marks, and where the cone may stand."""
        scale = self.scale
        yield scale.body()
        yield from self._left_over(now, words)
        if good is not None:
            yield from scale.good(good)
        yield from (scale.marks(every) for every in (1, 5, 10) if scale.has_room_for(every))
        if assumed is not None:
            top = scale.top + WALL.plate * scale.size
            edges = scale.within(assumed)
            room = scale.block(edges, top, 0.9 * WALL.foot * scale.size)
            yield scale.place.part("assumed", room, "assumed", title="could be anywhere here")
            ends = [
                [(scale.u(end), -top), (scale.u(end), -top - 0.9 * WALL.foot * scale.size)] for end in edges
            ]
            yield scale.place.strokes("assumed-ends", ends, "assumed-end")

    def _left_over(self, now: float, words: Sequence[Label]) -> Iterator[Part]:
        """Yield the gap that is left, plumb under the gap itself."""
        scale = self.scale
        _, seen = scale.within((0.0, now))
        if seen > 0:
            left = scale.block((0.0, seen), scale.top, 0.45 * WALL.plate * scale.size)
            yield scale.place.part("left-over", left, "gap")
            lines = self._plumb(scale.u(0.0), scale.u(0.0), words)
            yield scale.place.strokes("plumb-zero", lines, "hidden")

    def _plumb(self, u: float, seen: float, words: Sequence[Label]) -> Iterator[list[Point]]:
        """Yield a line down to the rule at `u`, broken where it would cross words from where it is `seen`."""
        top, size = self.base, self.scale.size
        for i, label in enumerate(words):
            start = self.scale.out * label.at[0]
            if start - 0.2 * size < seen < start + WIDE * size * len(label.text):
                if self._row(i) > top:
                    yield [(u, -top), (u, -self._row(i))]
                top = self._row(i + 1)
        yield [(u, -top), (u, -self.scale.top)]

    def words(self) -> Iterator[Label]:
        """Yield the figures that have room and what the ends are, set by the foot of their letters."""
        every, size = self.scale.every, self.scale.size
        shown = [each for each in self.scale.figures() if int(str(each.group).split()[-1]) % every == 0]
        for label in (*shown, *self.scale.ends()):
            at = (label.at[0] + label.aside * size, label.at[1] + CAPITALS * size)
            yield replace(label, text=label.few or label.text, at=at, aside=0.0, group=None)

    def pointer(self, now: float, words: Sequence[Label]) -> Group:
        """Return the pointer, which goes with the cone to the end play `now` [mm], on the rule as far as that goes."""
        scale = self.scale
        share = scale.within((0.0, now))[1] / now if now else 1.0
        u, head = scale.u(0.0), WALL.pointer * scale.size
        tip = [(u, -scale.top), (u - 0.7 * head, -scale.top + head), (u + 0.7 * head, -scale.top + head)]
        lines = self._plumb(u, scale.u(scale.within((0.0, now))[1]), words)
        parts = (
            scale.place.strokes("plumb", lines, "hidden"),
            scale.place.part("pointer", tip, "dark", title="now"),
        )
        return Group(name="pointer", move={"cone": share * scale.out * scale.factor}, parts=parts)
