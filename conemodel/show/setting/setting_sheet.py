"""Drawings for paper, by matplotlib: a page for a prediction, a figure for a sweep. Readable without colour.

matplotlib is loaded on first use; nothing here is in the path of a moving control.
"""

import io
import textwrap
from typing import TYPE_CHECKING, Any

from conemodel.base.plain_text import for_picture, one_line
from conemodel.base.units import DEG, MM
from conemodel.show.formatting import degrees, millimetres, number
from conemodel.show.palette import LIGHT
from conemodel.show.setting.cone_marks import BENCH, CLAMPED
from conemodel.show.setting.end_play_chart import good_cone_angles, most_preload_shown
from conemodel.show.setting.text import CAUTION
from conemodel.show.waterfall.rows import WaterfallStep, steps_shown
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.setting.sweep import Sweep

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

A4 = (11.69, 8.27)
"""A4 sheet on its side [inch], ISO 216."""

SMALL, PLAIN, LARGE = 7.5, 9.0, 13.0
"""Sizes of type [point]."""

HATCH = {"opens": "////", "closes": "\\\\\\\\", "level": ""}
"""A hatch for each kind of bar, so that a grey print tells them apart."""


def prediction_figure(prediction: Prediction, sweep: Sweep) -> "Figure":
    """Return a prediction on one page: verdict, where the play went, and end play over the cone's position."""
    figure = _figure(*A4)
    figure.text(
        0.05, 0.945, for_picture(one_line(prediction.scenario.name)), fontsize=LARGE, fontweight="bold"
    )
    verdict = textwrap.fill(prediction.verdict.sentence, 165)
    figure.text(0.05, 0.925, verdict, fontsize=PLAIN, va="top", linespacing=1.35)
    _waterfall(figure.add_axes((0.05, 0.12, 0.44, 0.66)), prediction)
    _curves(
        figure.add_axes((0.57, 0.42, 0.38, 0.36)),
        figure.add_axes((0.57, 0.12, 0.38, 0.23)),
        sweep,
        prediction,
    )
    figure.text(0.05, 0.03, CAUTION, fontsize=SMALL, color=LIGHT.faint)
    return figure


def sweep_figure(sweep: Sweep, prediction: Prediction) -> "Figure":
    """Return end play and preload over the cone's position, as a figure of its own."""
    figure = _figure(8.0, 6.2)
    figure.text(
        0.11, 0.95, for_picture(one_line(prediction.scenario.name)), fontsize=LARGE, fontweight="bold"
    )
    _curves(
        figure.add_axes((0.11, 0.46, 0.85, 0.42)), figure.add_axes((0.11, 0.1, 0.85, 0.28)), sweep, prediction
    )
    return figure


def to_png(figure: "Figure", *, dpi: int = 150) -> bytes:
    """Return a figure as PNG; the same figure gives the same bytes."""
    return _saved(figure, format="png", dpi=dpi, metadata={"Software": None})


def to_pdf(figure: "Figure") -> bytes:
    """Return a figure as PDF; the same figure gives the same bytes: no date stands in it."""
    return _saved(figure, format="pdf", metadata={"CreationDate": None, "Producer": None, "Creator": None})


def _figure(width: float, height: float) -> "Figure":
    from matplotlib.figure import Figure

    return Figure(figsize=(width, height), facecolor="white")


def _saved(figure: "Figure", **how: Any) -> bytes:
    stream = io.BytesIO()
    figure.savefig(stream, **how)
    return stream.getvalue()


def _waterfall(axes: "Axes", prediction: Prediction) -> None:
    """Draw the terms of end play, one below the other, each with its numbers and words above its bar."""
    steps = steps_shown(prediction)
    for index, step in enumerate(steps):
        _bar(axes, index, step)
        if step.leads_on:
            end = MM.from_si(step.end)
            axes.plot([end, end], [index + 0.36, index + 1], color=LIGHT.rule, linewidth=1)
        _words(axes, index, step)
    _band(axes, steps, prediction)
    axes.axvline(0, color=LIGHT.ink, linewidth=1)
    axes.set_ylim(len(steps) + 0.6, -0.6)
    axes.use_sticky_edges = False
    axes.margins(x=0.06)
    axes.set_yticks([])
    axes.set_xlabel("← preload     end play, mm     free play →", fontsize=PLAIN)
    axes.set_title("Where the play went", fontsize=PLAIN + 2, fontweight="bold", loc="left")
    if any(step.assumed for step in steps):
        axes.annotate(
            "≈ and a dashed edge: only assumed",
            (0, len(steps) + 0.5),
            xycoords=("axes fraction", "data"),
            fontsize=SMALL,
        )
    _plain_frame(axes, "left")


def _words(axes: "Axes", index: int, step: WaterfallStep) -> None:
    """Write millimetres, degrees and words of a step above its bar, in three columns."""
    signed = step.kind != "level"
    columns = (
        (millimetres(step.length, sign=signed), 48, "right"),
        (degrees(step.angle, sign=signed), 78, "right"),
        (f"≈ {step.words}" if step.assumed else step.words, 86, "left"),
    )
    for words, place, align in columns:
        axes.annotate(
            words,
            (0, index - 0.12),
            xycoords=("axes fraction", "data"),
            xytext=(place, 0),
            textcoords="offset points",
            ha=align,
            fontsize=SMALL,
            fontweight="normal" if signed else "bold",
            bbox={"facecolor": "white", "edgecolor": "none", "pad": 0.6, "alpha": 0.85},
            zorder=5,
        )


def _bar(axes: "Axes", index: int, step: WaterfallStep) -> None:
    """Draw one bar: hatched by kind, pale with a dashed edge where it is assumed."""
    colour = getattr(LIGHT, step.kind)
    look: dict[str, Any] = {"facecolor": colour, "edgecolor": "white"}
    if step.assumed:
        look = {"facecolor": "white", "edgecolor": colour, "linestyle": (0, (3, 1.5)), "linewidth": 1.2}
    axes.barh(
        index + 0.18,
        MM.from_si(step.length),
        left=MM.from_si(step.start),
        height=0.36,
        hatch=HATCH[step.kind],
        zorder=3,
        **look,
    )


def _band(axes: "Axes", steps: tuple[WaterfallStep, ...], prediction: Prediction) -> None:
    """Shade the good range behind the clamped hub and name it below."""
    window = prediction.window
    if window.width <= 0:
        return
    from matplotlib.patches import Rectangle

    first = next(i for i, step in enumerate(steps) if step.stage == "clamped") - 0.4
    low, width = MM.from_si(window.tight_edge), MM.from_si(window.width)
    axes.add_patch(
        Rectangle(
            (low, first),
            width,
            len(steps) - 0.5 - first,
            facecolor=LIGHT.good,
            alpha=0.3,
            edgecolor=LIGHT.good,
            linestyle=":",
            gid="good range",
        )
    )
    words = f"good range, clamped: {millimetres(window.tight_edge)} to {millimetres(window.loose_edge)}"
    axes.annotate(
        words,
        (0, len(steps) - 0.05),
        xycoords=("axes fraction", "data"),
        fontsize=SMALL,
        fontweight="bold",
        zorder=5,
    )


def _curves(play: "Axes", pinch: "Axes", sweep: Sweep, prediction: Prediction) -> None:
    """Draw end play above and preload below over the cone's position."""
    out = sweep.cone_angle * DEG.per_si
    now = DEG.from_si(prediction.scenario.setting.back_off)
    good = good_cone_angles(sweep, prediction)
    for axes, opened, clamped in (
        (play, sweep.end_play_open * MM.per_si, sweep.end_play_clamped * MM.per_si),
        (pinch, sweep.preload_open, sweep.preload_clamped),
    ):
        axes.plot(out, opened, color=LIGHT.level, linestyle="--", linewidth=1.4, label=BENCH)
        axes.plot(out, clamped, color=LIGHT.opens, linewidth=2.2, label=CLAMPED)
        if good is not None:
            ends = [DEG.from_si(end) for end in good]
            axes.axvspan(
                *ends,
                facecolor=LIGHT.good,
                alpha=0.3,
                label=f"good {number(ends[0], 0)} to {number(ends[1], 0)}°",
            )
        if out[0] <= now <= out[-1]:
            axes.axvline(
                now, color=LIGHT.closes, linestyle=":", linewidth=1.8, label=f"now {number(now, 0)}°"
            )
        axes.set_xlim(out[0], out[-1])
        axes.grid(color="#dddddd", linewidth=0.5)
        _plain_frame(axes, "none")
    play.axhline(0, color=LIGHT.ink, linewidth=0.9)
    play.set_ylabel("end play, mm", fontsize=PLAIN)
    play.set_title("Against the cone's position", fontsize=PLAIN + 2, fontweight="bold", loc="left")
    play.legend(fontsize=SMALL, loc="upper left", frameon=True, facecolor="white", framealpha=0.9)
    pinch.set_ylim(0, most_preload_shown(sweep, prediction))
    pinch.set_ylabel("preload, N", fontsize=PLAIN)
    pinch.set_xlabel("← in (clockwise)     cone, degrees from finger contact     out →", fontsize=PLAIN)


def _plain_frame(axes: "Axes", hidden: str) -> None:
    """Take away the lines of a frame that say nothing."""
    for side in ("top", "right", hidden):
        if side in axes.spines:
            axes.spines[side].set_visible(False)
    axes.tick_params(labelsize=SMALL)
