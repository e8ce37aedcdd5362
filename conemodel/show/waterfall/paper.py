"""Where the play went, drawn for paper and for picture files by matplotlib: readable without colour.

A bar's hatch says whether it opens or closes, its dashes that it is only assumed. matplotlib is loaded on first use.
"""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

from conemodel.base.plain_text import for_picture
from conemodel.base.units import MM
from conemodel.show.formatting import LOOSER, TIGHTER, play_range_words
from conemodel.show.palette import LIGHT, Tones
from conemodel.show.waterfall.rows import COLOURS, Row
from conemodel.tasks.setting.good_range import Window

if TYPE_CHECKING:
    from matplotlib.axes import Axes

HATCH = {"opens": "////", "closes": "\\\\\\\\", "level": ""}
"""A hatch for each kind of bar, so that a grey print tells them apart."""

GREY = {"opens": "white", "closes": "0.6", "level": "0.2"}
"""Fills of the bars where there is no colour."""

DASHES = (0, (3, 1.5))
"""Edge of a bar that is only assumed."""

SMALL, PLAIN = 7.5, 9.0
"""Sizes of type on the sheet [point]."""

Band = tuple[float, float] | None
"""The good range, clamped [m], where it may be shown."""


def draw_on_sheet(axes: "Axes", rows: Sequence[Row], window: Window) -> None:
    """Draw rows with an axis, each with its millimetres, degrees and words above its bar, and the good range below."""
    _draw_bars(
        axes,
        rows,
        _coloured(LIGHT, ground="white", edge="white", width=1.2),
        middle=0.18,
        height=0.36,
        zorder=3,
    )
    for index, row in enumerate(rows):
        if row.leads_on:
            end = MM.from_si(row.end)
            axes.plot([end, end], [index + 0.36, index + 1], color=LIGHT.rule, linewidth=1)
        _write_columns(axes, index, row)
    _draw_band(axes, rows, window)
    axes.axvline(0, color=LIGHT.ink, linewidth=1)
    axes.set_ylim(len(rows) + 0.6, -0.6)
    axes.use_sticky_edges = False
    axes.margins(x=0.06)
    axes.set_yticks([])
    axes.set_xlabel(f"{TIGHTER}     end play, mm     {LOOSER}", fontsize=PLAIN)
    axes.set_title("Where the play went", fontsize=PLAIN + 2, fontweight="bold", loc="left")
    if any(row.assumed for row in rows):
        _note(axes, len(rows) + 0.5, "≈ and a dashed edge: only assumed")


def draw_on_handout(axes: "Axes", rows: Sequence[Row], words: Sequence[str], *, good: Band) -> None:
    """Draw rows in grey, with `words` above each bar."""
    if good:
        _shade(axes, good, facecolor="0.82", edgecolor="0.5", linestyle=":")
    axes.axvline(0, color="black", linewidth=0.9)
    _draw_bars(axes, rows, _grey, middle=0.78, height=0.34)
    paper = {"facecolor": "white", "edgecolor": "none", "pad": 0.4, "alpha": 0.8}
    bold = [row.kind == "level" for row in rows]
    _write_above(axes, words, bold, left=0.0, above=0.56, fontsize=8.5, bbox=paper)
    axes.set_axis_off()


def _draw_bars(
    axes: "Axes",
    rows: Sequence[Row],
    fill: Callable[[Row], dict[str, Any]],
    *,
    middle: float,
    height: float,
    strokes: int = 4,
    **more: Any,
) -> None:
    """Draw the bar of each row, `middle` below its top and as high as `height`, both in rows."""
    for index, row in enumerate(rows):
        axes.barh(
            index + middle,
            MM.from_si(row.end - row.start),
            left=MM.from_si(row.start),
            height=height,
            hatch=HATCH[row.kind][:strokes],
            **fill(row),
            **more,
        )


def _coloured(look: Tones, *, ground: str, edge: str, width: float) -> Callable[[Row], dict[str, Any]]:
    """Return how a bar is filled in colour: pale with a dashed edge where it is assumed."""

    def fill(row: Row) -> dict[str, Any]:
        colour = getattr(look, COLOURS[row.kind])
        if row.assumed:
            return {"facecolor": ground, "edgecolor": colour, "linestyle": DASHES, "linewidth": width}
        return {"facecolor": colour, "edgecolor": edge}

    return fill


def _grey(row: Row) -> dict[str, Any]:
    """Return how a bar is filled in grey, with a dashed edge where it is assumed."""
    edge = DASHES if row.assumed else "-"
    return {"facecolor": GREY[row.kind], "edgecolor": "black", "linewidth": 0.8, "linestyle": edge}


def _shade(axes: "Axes", good: tuple[float, float], **look: Any) -> None:
    """Shade the good range [m] behind all rows."""
    low, high = (MM.from_si(edge) for edge in good)
    axes.axvspan(low, high, **look)


def _write_above(
    axes: "Axes", words: Sequence[str], bold: Sequence[bool], *, left: float, above: float, **look: Any
) -> None:
    """Write the words of each row, their foot `above` of a row below its top, from `left` of the axes' width."""
    for index, (said, strong) in enumerate(zip(words, bold, strict=True)):
        axes.text(
            left,
            index + above,
            for_picture(said),
            transform=axes.get_yaxis_transform(),
            va="bottom",
            fontweight="bold" if strong else "normal",
            **look,
        )


def _write_columns(axes: "Axes", index: int, row: Row) -> None:
    """Write millimetres, degrees and words of a row above its bar, in three columns."""
    columns = (
        (row.size, 74, "right"),
        (row.turn, 108, "right"),
        (f"≈ {row.words}" if row.assumed else row.words, 115, "left"),
    )
    for words, place, align in columns:
        _note(
            axes,
            index - 0.12,
            words,
            xytext=(place, 0),
            textcoords="offset points",
            ha=align,
            fontweight="bold" if row.kind == "level" else "normal",
            bbox={"facecolor": "white", "edgecolor": "none", "pad": 0.6, "alpha": 0.85},
        )


def _draw_band(axes: "Axes", rows: Sequence[Row], window: Window) -> None:
    """Shade the good range behind the clamped hub and name it below."""
    if window.width <= 0:
        return
    from matplotlib.patches import Rectangle

    first = next(i for i, row in enumerate(rows) if row.stage == "clamped") - 0.4
    axes.add_patch(
        Rectangle(
            (MM.from_si(window.tight_edge), first),
            MM.from_si(window.width),
            len(rows) - 0.5 - first,
            facecolor=LIGHT.good,
            alpha=0.3,
            edgecolor=LIGHT.good,
            linestyle=":",
            gid="good range",
        )
    )
    good = play_range_words(window.tight_edge, window.loose_edge, unit=" mm")
    _note(axes, len(rows) - 0.05, f"good range, clamped: {good}", fontweight="bold")


def _note(axes: "Axes", height: float, words: str, **look: Any) -> None:
    """Write small words at a height in rows, from the left of the axes."""
    axes.annotate(words, (0, height), xycoords=("axes fraction", "data"), fontsize=SMALL, zorder=5, **look)
