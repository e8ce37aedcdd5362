"""The closing gap as a picture: SVG for a page and a file, a figure for PNG and PDF, both of one layout."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from conemodel.base.plain_text import for_html, for_picture, one_line
from conemodel.show.instrument.drawing import Point
from conemodel.show.instrument.paints import COLOURS
from conemodel.show.instrument.paper import paint_on
from conemodel.show.instrument.still import FONT, plate_svg
from conemodel.show.setting.closing_gap import ClosingGap, GapRow, closing_gap
from conemodel.show.setting.text import CAUTION
from conemodel.show.svg import wrap_text
from conemodel.tasks.setting.predict import Prediction

if TYPE_CHECKING:
    from matplotlib.figure import Figure

WIDTH, HEIGHT, DPI = 1080, 1350, 150
"""Size of the sheet [px], and how many of them make an inch on paper."""
LEFT, PANEL, FIRST, STEP, TALL = 56, 484, 178, 194, 180
"""Left edge of the words and of the panels, top of the first row, from row to row, and height of a panel [px]."""
INSET = (352, 58, 118)
"""Left edge, top in its row and size of the ball that carries [px]."""
SIZES = ((25, 16), (21, 15), (18, 13), (15, 12))
"""Sizes of what is left over and of the small print, the first that fit [px]."""
COLOUR = {"opens": "petrol", "closes": "taken", "stays": "ink"}

Line = tuple[float, float, str, int, bool, str]
"""Left edge, base line, words, size, whether bold, and colour by name."""


def closing_gap_svg(prediction: Prediction, *, dark: bool = False) -> str:
    """Return the sheet as SVG."""
    gap, colours = closing_gap(prediction), COLOURS["dark" if dark else "light"]
    rows = "".join(_row_svg(gap, row, i, dark=dark) for i, row in enumerate(gap.rows))
    words = "".join(
        f'<text x="{x:g}" y="{y:g}" font-size="{size}" fill="{colours[colour]}"'
        f"{' font-weight=' + chr(34) + 'bold' + chr(34) if bold else ''}>{for_html(text)}</text>"
        for x, y, text, size, bold, colour in _lines(gap)
    )
    bar = "".join("M" + "L".join(f"{x:.1f} {y}" for x, y in line) for line in _tenth(gap))
    told = "; ".join(f"{row.title}: {row.size} {row.sort}, {row.by}" for row in gap.rows)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" width="{WIDTH}" height="{HEIGHT}" '
        f'role="img" font-family="{FONT}"><title>{for_html(f"{gap.title}: {prediction.scenario.name}")}</title>'
        f"<desc>{for_html(f'{told}. {gap.end}')}</desc>"
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="{colours["paper"]}"/>{rows}{words}'
        f'<path d="{bar}" stroke="{colours["ink"]}" stroke-width="2" fill="none"/></svg>'
    )


def _row_svg(gap: ClosingGap, row: GapRow, i: int, *, dark: bool) -> str:
    """Return the panel of one row, and the ball that carries beside the words of the last."""
    frames = [(PANEL, FIRST + STEP * i, WIDTH - LEFT - PANEL, TALL, gap.box)]
    if row.stage == "ridden":
        left, top, size = INSET
        frames.append((left, FIRST + STEP * i + top, size, size, gap.lower_box))
    line = COLOURS["dark" if dark else "light"]["line"]
    y = FIRST + STEP * i
    told = f'<path d="M{LEFT} {y}H{PANEL}" stroke="{line}"/>'
    for place, (left, top, width, height, box) in enumerate(frames):
        inside = plate_svg(
            row.plate, row.state, stage=row.stage, box=box, width=width, dark=dark, name=f"row{i}{place}-"
        )
        view = " ".join(f"{value:.3f}" for value in box)
        told += f'<svg x="{left}" y="{top}" width="{width}" height="{height}" viewBox="{view}">{inside}</svg>'
    return told


def _tenth(gap: ClosingGap) -> list[list[Point]]:
    """Return the lines of the bar that is a tenth of a millimetre of play long [px]."""
    y, start = FIRST + STEP * len(gap.rows) - 2, PANEL
    end = start + 0.1 * gap.factor * (WIDTH - LEFT - PANEL) / gap.box[2]
    return [[(start, y), (end, y)], [(start, y - 7), (start, y + 7)], [(end, y - 7), (end, y + 7)]]


def _lines(gap: ClosingGap) -> Iterator[Line]:
    """Yield every line of text."""
    yield LEFT, 96, gap.title, 64, True, "ink"
    yield LEFT, 142, gap.lead, 24, False, "ink"
    for i, row in enumerate(gap.rows):
        y = FIRST + STEP * i
        yield LEFT, y + 36, row.title, 22, True, "ink"
        yield LEFT, y + 84, row.size, 46, True, "ink"
        yield LEFT + 160, y + 84, row.sort, 20, False, "ink"
        for line, words in enumerate(wrap_text(row.by, width=300 if row.stage == "ridden" else 380, size=20)):
            yield LEFT, y + 116 + 26 * line, words, 20, row.way != "stays", COLOUR[row.way]
    y = FIRST + STEP * len(gap.rows) + 4
    yield _tenth(gap)[0][1][0] + 14, y, "0.1 mm", 18, False, "ink"
    yield WIDTH - LEFT - 330, y, "\N{CHECK MARK} the race should stand here", 18, True, "good"
    yield from _closing_words(gap, y + 48)


def _closing_words(gap: ClosingGap, top: float) -> Iterator[Line]:
    """Yield what is left over and the small print, as large as all of it fits below `top`."""
    for large, small in SIZES:
        end = wrap_text(gap.end, width=WIDTH - 2 * LEFT, size=large)
        foot = wrap_text(f"{one_line(gap.foot)} {CAUTION}", width=WIDTH - 2 * LEFT + 60, size=small)
        tall = 1.35 * (large * len(end) + small * len(foot))
        if top + tall < HEIGHT:
            break
    y = top
    for words in end:
        yield LEFT, y, words, large, True, "ink"
        y += 1.35 * large
    for words in foot:
        yield LEFT, y, words, small, False, "muted"
        y += 1.35 * small


def closing_gap_figure(prediction: Prediction) -> "Figure":
    """Return the sheet as a figure on white-ish paper, 1080 × 1350 px at 150 dots an inch."""
    from matplotlib.figure import Figure
    from matplotlib.lines import Line2D

    gap, colours = closing_gap(prediction), COLOURS["light"]
    figure = Figure(figsize=(WIDTH / DPI, HEIGHT / DPI), dpi=DPI, facecolor=colours["paper"])
    for i, row in enumerate(gap.rows):
        frames = [((PANEL, FIRST + STEP * i, WIDTH - LEFT - PANEL, TALL), gap.box)]
        if row.stage == "ridden":
            left, top, size = INSET
            frames.append(((left, FIRST + STEP * i + top, size, size), gap.lower_box))
        for (left, top, width, height), box in frames:
            axes = figure.add_axes(
                (left / WIDTH, 1 - (top + height) / HEIGHT, width / WIDTH, height / HEIGHT)
            )
            paint_on(axes, row.plate, row.state, stage=row.stage, box=box)
    over = [[(LEFT, FIRST + STEP * i), (PANEL, FIRST + STEP * i)] for i in range(len(gap.rows))]
    for colour, lines in (("ink", _tenth(gap)), ("line", over)):
        for line in lines:
            across, up = [x / WIDTH for x, _ in line], [1 - y / HEIGHT for _, y in line]
            figure.add_artist(Line2D(across, up, color=colours[colour], linewidth=0.9))
    for x, y, words, size, bold, colour in _lines(gap):
        figure.text(
            x / WIDTH,
            1 - y / HEIGHT,
            for_picture(words),
            fontsize=size * 72 / DPI,
            fontweight="bold" if bold else "normal",
            color=colours[colour],
        )
    return figure
