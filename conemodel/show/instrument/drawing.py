"""What a drawing of a hub is made of: parts in groups on plates, and how the groups move.

Coordinates are mm of the hub, x to the right and y down. Nothing is painted here: a browser moves the groups, and
`still` and `paper` paint them at one state.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from conemodel.parts.hub import Side

Point = tuple[float, float]
Box = tuple[float, float, float, float]
"""Left, top, width and height [mm]."""

VARIABLES = {
    "cone": "end play now [mm], below 0 squeezed",
    "nut": "how far the locknut is tightened, 0 to 1",
    "off": "1 while the locknut stands off, 0 from where it touches",
    "clamp": "force of the clamp, 0 to 1 of what it will be",
    "lever": "way of lever, axle nuts or handle, 0 to 1",
    "apart": "1 while lever, nuts or handle stand off what they clamp, 0 from where they touch",
    "angle": "of the cone, out from finger contact [°]",
    "load": "the rider, 0 to 1",
    "cone_flank": "which flank of the cone's thread carries, -1 outer, 1 inner; half slacks between",
    "nut_flank": "the same of the locknut",
    "rocked": "how far the wheel is pushed towards the drawn cone [mm], 0 at rest, the end play where the ball touches",
    "sway": "how far the whole wheel leans [mm of end play], from minus to plus the end play",
    "give": "how far the rim goes beyond the lean of its hub, by the wheel's own give [mm]",
    "tip": "how far the end of the axle is pushed up in its hub [mm]",
    "twirled": "of the axle in its hub, clockwise [°]",
    "spun": "of the wheel, clockwise [°]",
    "shiver": "how far the frame shakes [mm]",
    "valve": "1 while the valve can be followed with the eye, else 0",
    "touch": "1 where ball and cone touch, else 0",
    "open": "1 where the gap has room for arrows, else 0",
    "aim": "how much less end play there will be once clamped [mm]",
    "at_backed_off": "end play once backed off with the cone where it is [mm]",
    "at_locked": "end play once locked [mm]",
    "advised": "angle that the cone should be turned to [°]",
    "advising": "1 where that is shown, else 0",
}
"""Every variable that moves, turns or shows a group."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One outline.

    Attributes:
        name: what it is, in one word with dashes; title: the part's name in words, empty if it has none.
        d: the outline, straight lines only; paint: key of `PAINTS`.
    """

    name: str
    d: str
    paint: str
    title: str = ""

    def as_json(self) -> dict[str, Any]:
        """Return it as plain data."""
        told = {"name": self.name, "d": self.d, "paint": self.paint}
        return told | ({"title": self.title} if self.title else {})


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Parts that move together.

    Attributes:
        name: unlike any other on its plate; parent: the group it moves with, or None.
        parts: in the order of painting.
        move: mm along x for each unit of a variable; turn: degrees clockwise for each unit, about `about`.
        roll: degrees about the axis y = 0 for each unit, from `rolled` at 0; drawn upright, its height shows them.
        clip: outline, in the group's own moved coordinates, outside which nothing of it or its children is seen.
        when: the stages in which it is seen, or None for all; fade: the variable that is its opacity, or None.
    """

    name: str
    parts: tuple[Part, ...] = ()
    parent: str | None = None
    move: Mapping[str, float] = field(default_factory=dict)
    turn: Mapping[str, float] = field(default_factory=dict)
    about: Point = (0.0, 0.0)
    roll: Mapping[str, float] = field(default_factory=dict)
    rolled: float = 0.0
    clip: str | None = None
    when: tuple[str, ...] | None = None
    fade: str | None = None

    def as_json(self) -> dict[str, Any]:
        """Return it as plain data; what it does not do is left out."""
        told: dict[str, Any] = {"name": self.name}
        if self.turn:
            told |= {"turn": _fine(self.turn), "about": _short(self.about)}
        if self.roll:
            told |= {"roll": _fine(self.roll), "rolled": self.rolled}
        for name in ("parent", "move", "clip", "when", "fade"):
            if value := getattr(self, name):
                told[name] = _fine(value) if name == "move" else value
        return told | {"parts": [part.as_json() for part in self.parts]}


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """A name beside a part.

    Attributes:
        text: its words; at: where they stand; anchor: start, middle or end.
        group: the group it moves and vanishes with, or None; leader: where a line from it to its part ends, or None.
        ink: colour; few: shorter words for a phone, or none; aside: how far from `at` along x [heights of letters].
        on: fill of the cut part they stand in, whose hatching stops round them (ISO 128-50, recalled), or none.
    """

    text: str
    at: Point
    anchor: str = "middle"
    group: str | None = None
    leader: Point | None = None
    ink: str = "muted"
    few: str = ""
    aside: float = 0.0
    on: str = ""

    def as_json(self) -> dict[str, Any]:
        """Return it as plain data; what is as usual is left out."""
        told: dict[str, Any] = {"text": self.text, "at": _short(self.at)}
        usual = {"anchor": "middle", "ink": "muted", "group": None, "few": "", "aside": 0.0, "on": ""}
        told |= {name: value for name, none in usual.items() if (value := getattr(self, name)) != none}
        return told if self.leader is None else told | {"leader": _short(self.leader)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Plate:
    """One view of the hub.

    Attributes:
        view: what is seen of it; narrow: what is seen on a phone; held: with what a hand turns beside it; wide: with
            the rim; or None for the same.
        groups: in the order of painting; labels: names of the parts.
    """

    view: Box
    groups: tuple[Group, ...]
    labels: tuple[Label, ...] = ()
    narrow: Box | None = None
    held: Box | None = None
    wide: Box | None = None

    def as_json(self) -> dict[str, Any]:
        """Return it as plain data."""
        told: dict[str, Any] = {"view": _short(self.view)}
        told |= {
            name: _short(box)
            for name in ("narrow", "held", "wide")
            if (box := getattr(self, name)) is not None
        }
        told["groups"] = [group.as_json() for group in self.groups]
        return told | {"labels": [label.as_json() for label in self.labels]}


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """The scale under the close view.

    Attributes:
        zero: where the cone's point of contact stands when it just touches [mm drawn].
        loosest, tightest: end play at the scale's ends [mm].
    """

    zero: float
    loosest: float
    tightest: float

    def as_json(self) -> dict[str, float]:
        """Return it as plain data."""
        return {"zero": self.zero, "from": self.loosest, "to": self.tightest}


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """One hub, drawn once for every setting and stage.

    Attributes:
        side: whose cone is adjusted; factor: how many times larger movement is drawn than parts.
        thread_coarser: how many times coarser the thread is drawn.
        plates: by name: close, whole, dial, and the rule's, whose y is in heights of letters.
        rule: the scale under the close view.
    """

    side: Side
    factor: int
    thread_coarser: int
    plates: Mapping[str, Plate]
    rule: Rule

    @property
    def out(self) -> int:
        """Which way x goes outboard on the adjustable side."""
        return -1 if self.side == "left" else 1

    def as_json(self) -> dict[str, Any]:
        """Return it as plain data; how its parts are painted stands in `paints`."""
        return {
            "side": self.side,
            "out": self.out,
            "factor": self.factor,
            "thread_coarser": self.thread_coarser,
            "sheets": {name: plate.as_json() for name, plate in self.plates.items()},
            "rule": self.rule.as_json(),
        }


def _short(values: tuple[float, ...]) -> list[float]:
    return [round(value, 2) for value in values]


def _fine(rates: Mapping[str, float]) -> dict[str, float]:
    """Return rates of movement to a ten-millionth, finer than anything is drawn."""
    return {name: round(rate, 7) for name, rate in rates.items()}
