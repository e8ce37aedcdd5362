"""A drawing sheet: coordinates in mm in, SVG text out."""

from collections.abc import Iterable
from dataclasses import dataclass, field

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
    """

    scale: float
    centre: Point
    width: float
    height: float
    text_size: float
    tones: Tones
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

    def disc(self, centre: Point, diameter: float, *, fill: str, name: str) -> None:
        """Draw a ball in mm."""
        x, y = self.at(centre)
        self._marks.append(
            f'<circle class="{name}" cx="{_n(x)}" cy="{_n(y)}" r="{_n(diameter / 2 * self.scale)}" fill="{fill}" '
            f'stroke="{self.tones.ink}" stroke-width="1.2"/>'
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

    def lines(self, told: Iterable[tuple[str, bool, str]]) -> None:
        """Write lines at the foot: words, whether in bold, colour or nothing. They must have been `wrap_text`."""
        told = list(told)
        step = LINE * self.text_size
        top = self.height - step * len(told) + 0.5 * self.text_size
        for index, (words, bold, colour) in enumerate(told):
            place = 0.5 * self.text_size, top + step * index
            self.text(place, words, bold=bold, colour=colour, name="told")

    def svg(self, *, title: str, desc: str, **data: object) -> str:
        """Return the picture; `data` stands on its root as data attributes."""
        noted = "".join(
            f' data-{name.replace("_", "-")}="{for_html(str(value))}"' for name, value in data.items()
        )
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_n(self.width)} {_n(self.height)}" role="img" '
            f'aria-labelledby="title desc" font-family="sans-serif" font-size="{self.text_size:g}"{noted}>'
            f'<title id="title">{for_html(title)}</title><desc id="desc">{for_html(desc)}</desc>'
            f'<rect width="100%" height="100%" fill="{self.tones.paper}"/>' + "".join(self._marks) + "</svg>"
        )


def _n(value: float) -> str:
    """Return a coordinate to a thousandth, without trailing zeros."""
    return f"{value:.3f}".rstrip("0").rstrip(".")


def _dash_attribute(dash: str) -> str:
    return f' stroke-dasharray="{dash}"' if dash else ""
