"""A drawing sheet: coordinates in mm in, SVG text out."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from conemodel.base.plain_text import for_html
from conemodel.show.palette import Tones

Point = tuple[float, float]

CHARACTER = 0.6
"""Mean width of a letter over the size of the text; generous, so that labels keep apart."""

LINE = 1.32
"""Height of a line over the size of the text."""


def wrap_text(words: str, *, width: float, size: float) -> list[str]:
    """Return words broken into lines that fit a width, at a size of text, both in units of the picture.

    >>> wrap_text("cone and cup", width=60, size=10)
    ['cone and', 'cup']
    """
    lines = [""]
    for word in words.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and len(longer) * CHARACTER * size > width:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


@dataclass(slots=True, kw_only=True)
class Sheet:
    """An SVG picture whose inside is measured in mm: x to the right, y up, zero at the hub's middle.

    Attributes:
        scale: units of the picture for 1 mm; centre: where the origin lies in the picture.
        width, height: of the picture; text_size: of its labels.
        tones: its colours.
        window: what is seen of it, left, top, width and height; all of it if None.
    """

    scale: float
    centre: Point
    width: float
    height: float
    text_size: float
    tones: Tones
    window: tuple[float, float, float, float] | None = None
    _marks: list[str] = field(default_factory=list)

    def at(self, point: Point) -> Point:
        """Return where a point in mm lies in the picture."""
        return self.centre[0] + self.scale * point[0], self.centre[1] - self.scale * point[1]

    def shape(
        self,
        points: Iterable[Point],
        *,
        fill: str,
        name: str = "",
        stroke: str = "",
        dash: str = "",
        width: float = 1.2,
    ) -> None:
        """Draw a closed outline through points in mm; `name` becomes its class."""
        path = " ".join(f"{_n(x)},{_n(y)}" for x, y in map(self.at, points))
        self._marks.append(
            f'<polygon class="{name}" points="{path}" fill="{fill}" stroke="{stroke or self.tones.ink}" '
            f'stroke-width="{width}" stroke-linejoin="round"{_dash_attribute(dash)}/>'
        )

    def box(self, low: Point, high: Point, *, fill: str, name: str = "") -> None:
        """Draw a box between two corners in mm."""
        self.shape((low, (high[0], low[1]), high, (low[0], high[1])), fill=fill, name=name)

    def disc(self, centre: Point, diameter: float, *, fill: str, name: str) -> None:
        """Draw a ball in mm."""
        x, y = self.at(centre)
        self._marks.append(
            f'<circle class="{name}" cx="{_n(x)}" cy="{_n(y)}" r="{_n(diameter / 2 * self.scale)}" fill="{fill}" '
            f'stroke="{self.tones.ink}" stroke-width="1.2"/>'
        )

    def line(
        self,
        points: Sequence[Point],
        *,
        colour: str,
        width: float = 1.2,
        name: str = "",
        dash: str = "",
        arrow: bool = False,
    ) -> None:
        """Draw an open line through points in mm; an arrow has its head at the end."""
        path = " ".join(f"{_n(x)},{_n(y)}" for x, y in map(self.at, points))
        head = ' marker-end="url(#head)"' if arrow else ""
        self._marks.append(
            f'<polyline class="{name}" points="{path}" fill="none" stroke="{colour}" stroke-width="{width}"'
            f"{_dash_attribute(dash)}{head}/>"
        )

    def strokes(self, lines: Iterable[tuple[Point, Point]], *, colour: str, width: float, name: str) -> None:
        """Draw many short lines in mm as one mark, each to a tenth of a pixel: they are texture."""
        ends = ((self.at(start), self.at(end)) for start, end in lines)
        path = "".join(f"M{x:.1f},{y:.1f}L{u:.1f},{v:.1f}" for (x, y), (u, v) in ends)
        self._marks.append(
            f'<path class="{name}" d="{path}" fill="none" stroke="{colour}" stroke-width="{width}"/>'
        )

    def text(
        self,
        place: Point,
        words: str,
        *,
        anchor: str = "start",
        bold: bool = False,
        colour: str = "",
        name: str = "",
    ) -> None:
        """Write words at a place in the picture (not in mm)."""
        weight = ' font-weight="bold"' if bold else ""
        self._marks.append(
            f'<text class="{name}" x="{_n(place[0])}" y="{_n(place[1])}" text-anchor="{anchor}" '
            f'fill="{colour or self.tones.ink}"{weight}>{for_html(words)}</text>'
        )

    def wide(self, words: str) -> float:
        """Return the estimated width of a text [units of the picture]."""
        return len(words) * CHARACTER * self.text_size

    def lines(self, told: Iterable[tuple[str, bool, str]]) -> None:
        """Write lines at the foot: words, whether in bold, colour or nothing. They must have been `wrap_text`."""
        told = list(told)
        step = LINE * self.text_size
        top = self.height - step * len(told) + 0.5 * self.text_size
        for index, (words, bold, colour) in enumerate(told):
            place = 0.5 * self.text_size, top + step * index
            self.text(place, words, bold=bold, colour=colour, name="told")

    def labels(self, named: Iterable[tuple[str, Point]], *, y: float, above: bool) -> None:
        """Write names side by side at height `y` of the picture, each with a line to its part in mm."""
        sorted_names = sorted(named, key=lambda each: each[1][0])
        places = self._apart([(self.at(target)[0], self.wide(words)) for words, target in sorted_names])
        for (words, target), x in zip(sorted_names, places, strict=True):
            end_x, end_y = self.at(target)
            start = y + 0.35 * self.text_size if above else y - self.text_size
            self._marks.append(
                f'<path class="leader" d="M{_n(x)},{_n(start)} L{_n(end_x)},{_n(end_y)}" fill="none" '
                f'stroke="{self.tones.faint}" stroke-width="1"/>'
                f'<circle cx="{_n(end_x)}" cy="{_n(end_y)}" r="2.2" fill="{self.tones.ink}"/>'
            )
            self.text((x, y), words, anchor="middle", name="label")

    def _apart(self, wanted: Sequence[tuple[float, float]]) -> list[float]:
        """Return middles as near as possible to those wanted at which texts of these widths do not overlap."""
        widths = [width for _, width in wanted]
        rooms = [(left + right) / 2 + 0.9 * self.text_size for left, right in pairwise(widths)]
        first, last = widths[0] / 2, self.width - widths[-1] / 2
        middles = [middle for middle, _ in wanted]
        right, left = _push_right(middles, rooms, first), _push_left(middles, rooms, last)
        # each of the two keeps its distances, and so does what lies halfway between them
        halfway = [(one + other) / 2 for one, other in zip(right, left, strict=True)]
        return _push_left(_push_right(halfway, rooms, first), rooms, last)

    def svg(self, *, title: str, desc: str, **data: object) -> str:
        """Return the picture; `data` stands on its root as data attributes."""
        noted = "".join(
            f' data-{name.replace("_", "-")}="{for_html(str(value))}"' for name, value in data.items()
        )
        tones = self.tones
        left, top, width, height = map(_n, self.window or (0.0, 0.0, self.width, self.height))
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{left} {top} {width} {height}" role="img" '
            f'aria-labelledby="title desc" font-family="system-ui, sans-serif" font-size="{self.text_size:g}"{noted}>'
            f'<title id="title">{for_html(title)}</title><desc id="desc">{for_html(desc)}</desc>'
            f'<defs><marker id="head" viewBox="0 0 10 10" refX="9" refY="5" markerWidth="7" markerHeight="7" '
            f'orient="auto-start-reverse"><path d="M0,0 L10,5 L0,10 z" fill="{tones.ink}"/></marker></defs>'
            f'<rect x="{left}" y="{top}" width="100%" height="100%" fill="{tones.paper}"/>'
            + "".join(self._marks)
            + "</svg>"
        )


def _push_right(middles: Sequence[float], rooms: Sequence[float], first: float) -> list[float]:
    """Return middles moved right only as far as keeps each clear of the one before."""
    placed = [max(middles[0], first)]
    for middle, room in zip(middles[1:], rooms, strict=True):
        placed.append(max(middle, placed[-1] + room))
    return placed


def _push_left(middles: Sequence[float], rooms: Sequence[float], last: float) -> list[float]:
    """Return middles moved left only as far as keeps them clear, the last within its edge."""
    turned = _push_right([-middle for middle in reversed(middles)], list(reversed(rooms)), -last)
    return [-middle for middle in reversed(turned)]


def _n(value: float) -> str:
    """Return a coordinate to a thousandth, without trailing zeros."""
    return f"{value:.3f}".rstrip("0").rstrip(".")


def _dash_attribute(dash: str) -> str:
    return f' stroke-dasharray="{dash}"' if dash else ""
