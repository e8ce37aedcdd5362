"""A sheet of paper measured in mm, x from its left and y down from its top, and words that fit the room they have."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import nan
from typing import TYPE_CHECKING, Any, Literal

from conemodel.base.plain_text import for_picture, one_line

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

Size = tuple[float, float]
Point = tuple[float, float]

INCH, POINT = 25.4, 25.4 / 72
"""An inch and a point of type [mm]."""

PAPERS: dict[str, Size] = {
    "A3": (297.0, 420.0),
    "A4": (210.0, 297.0),
    "A5": (148.0, 210.0),
    "Letter": (215.9, 279.4),
}
"""Width and height of upright sheets [mm]. ISO 216; Letter: ANSI/ASME Y14.1, 8.5 × 11 in."""

LEADING = 1.3
"""From line to line over the size of the type."""

ASCENT = 0.95
"""From the top of a line to the foot of its letters over the size of the type; accents included."""

INDENT = 6.0
"""Room of a sign before a paragraph [mm]."""

NO_LETTER = "\N{WHITE SQUARE}"
"""Stands for a letter that cannot be drawn."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A figure with axes in mm over all of it: `width` and `height` [mm], all of it `scale` times larger on paper."""

    figure: "Figure"
    axes: "Axes"
    width: float
    height: float
    scale: float = 1.0

    def write(
        self,
        at: Point,
        words: str,
        *,
        size: float = 10.0,
        bold: bool = False,
        room: float | None = None,
        align: Literal["left", "center", "right"] = "left",
        **look: Any,
    ) -> None:
        """Write one line, its foot at `at` [mm], `size` [point] large; shortened where it is over `room` [mm]."""
        told = drawable(words)
        if room is not None:
            told = shorten(told, room=room, size=size, bold=bold)
        weight = "bold" if bold else "normal"
        self.axes.text(
            *at, for_picture(told), fontsize=self.scale * size, fontweight=weight, ha=align, **look
        )

    def paragraph(
        self,
        at: Point,
        words: str,
        *,
        room: float,
        size: float = 10.0,
        bold: bool = False,
        most: int | None = None,
        sign: str = "",
        **look: Any,
    ) -> float:
        """Write words below `at` [mm], broken to fit `room` [mm], and return where the next may begin [mm].

        `most` lines; the last of them is shortened. `sign` hangs left of them, in the first `INDENT` of the room.
        """
        left, top = at
        indent = INDENT if sign else 0.0
        lines = wrap(words, room=room - indent, size=size, bold=bold, most=most)
        if sign:
            self.write((left, top + ASCENT * size * POINT), sign, size=size, bold=True)
        for line in lines:
            self.write((left + indent, top + ASCENT * size * POINT), line, size=size, bold=bold, **look)
            top += LEADING * size * POINT
        return top

    def line(self, *points: Point, width: float = 0.8, dash: Any = "-", colour: str = "black") -> None:
        """Draw a line through `points` [mm], `width` [point] wide."""
        self.strokes([points], width=width, dash=dash, colour=colour)

    def strokes(
        self,
        lines: Iterable[Sequence[Point]],
        *,
        width: float = 0.8,
        dash: Any = "-",
        colour: str = "black",
    ) -> None:
        """Draw lines that are all alike, each through its points [mm], `width` [point] wide."""
        across, down = zip(*(point for line in lines for point in (*line, (nan, nan))), strict=True)
        self.axes.plot(
            across, down, color=colour, linewidth=self.scale * width, linestyle=dash, solid_capstyle="butt"
        )

    def fill(self, *points: Point, colour: str = "black") -> None:
        """Fill the outline through `points` [mm]."""
        from matplotlib.patches import Polygon

        self.axes.add_patch(Polygon(points, facecolor=colour, linewidth=0))

    def inset(self, corner: Point, size: Size) -> "Axes":
        """Return axes of their own on a part of the sheet, from its upper left `corner`, `size` wide and high [mm]."""
        (left, top), (wide, high) = corner, size
        return self.figure.add_axes(
            (left / self.width, 1 - (top + high) / self.height, wide / self.width, high / self.height)
        )

    def box(self, corner: Point, size: Size, *, fill: str = "none", width: float = 0.8, **look: Any) -> None:
        """Draw a box whose upper left corner is `corner`, `size` wide and high [mm]."""
        from matplotlib.patches import Rectangle

        look |= {"facecolor": fill, "edgecolor": "black", "linewidth": self.scale * width}
        self.axes.add_patch(Rectangle(corner, *size, **look))


def new_sheet(size: Size, *, scale: float = 1.0) -> Sheet:
    """Return an empty sheet, `size` wide and high [mm]; lengths on it are true when it is printed at full size.

    With a `scale` it is measured, and written on, as if it were that much smaller.
    """
    from matplotlib.figure import Figure

    figure = Figure(figsize=(size[0] / INCH, size[1] / INCH), facecolor="white")
    axes = figure.add_axes((0, 0, 1, 1))
    width, height = size[0] / scale, size[1] / scale
    axes.set(xlim=(0, width), ylim=(height, 0))
    axes.axis("off")
    return Sheet(figure, axes, width, height, scale)


def drawable(words: str) -> str:
    """Return words on one line, a box for each letter that the font of paper does not have."""
    told = one_line(words)
    if told.isascii():
        return told
    from matplotlib.font_manager import FontProperties, findfont, get_font

    font = get_font(findfont(FontProperties()))
    return "".join(letter if font.get_char_index(ord(letter)) else NO_LETTER for letter in told)


def text_width(words: str, *, size: float, bold: bool = False) -> float:
    """Return how wide words are when written [mm]."""
    return size * _width_of_one_point(words, bold)


@lru_cache(maxsize=8192)
def _width_of_one_point(words: str, bold: bool) -> float:
    """Return how wide words would be in letters of one point [mm]: they are asked for again in many sizes."""
    from matplotlib.font_manager import FontProperties
    from matplotlib.textpath import text_to_path

    font = FontProperties(size=1.0, weight="bold" if bold else "normal")
    width: float = text_to_path.get_text_width_height_descent(words, font, ismath=False)[0]
    return width * POINT


def shorten(words: str, *, room: float, size: float, bold: bool = False) -> str:
    """Return words that fit `room` [mm]: as they are, or cut at the end with a sign of it."""
    if text_width(words, size=size, bold=bold) <= room:
        return words
    fits, fails = 0, len(words)
    while fails - fits > 1:
        middle = (fits + fails) // 2
        wide = text_width(_cut(words, middle), size=size, bold=bold) > room
        fits, fails = (fits, middle) if wide else (middle, fails)
    return _cut(words, fits)


def wrap(
    words: str, *, room: float, size: float, bold: bool = False, most: int | None = None
) -> Sequence[str]:
    """Return words in lines that fit `room` [mm]: all of them, or `most`, the last one shortened."""
    lines = [""]
    pieces = _pieces(words, room=room, size=size, bold=bold)
    for word in pieces:
        longer = f"{lines[-1]} {word}".strip()
        if not lines[-1] or text_width(longer, size=size, bold=bold) <= room:
            lines[-1] = longer
        elif most is not None and len(lines) == most:
            lines[-1] = shorten(f"{longer} {next(pieces, '')}", room=room, size=size, bold=bold)
            break
        else:
            lines.append(word)
    return lines


def _pieces(words: str, *, room: float, size: float, bold: bool) -> Iterator[str]:
    """Yield every word, those that are longer than a line in parts."""
    for word in drawable(words).split():
        rest = word
        while text_width(rest, size=size, bold=bold) > room and len(rest) > 1:
            at = max(len(shorten(rest, room=room, size=size, bold=bold)) - 1, 1)
            yield rest[:at]
            rest = rest[at:]
        yield rest


def _cut(words: str, length: int) -> str:
    return f"{words[:length].rstrip()}…"
