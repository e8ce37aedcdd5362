"""Drawings for paper, by matplotlib: a page for a prediction, a figure for a sweep. Readable without colour.

matplotlib is loaded on first use; nothing here is in the path of a moving control.
"""

import textwrap
from typing import TYPE_CHECKING

from conemodel.base.plain_text import for_picture, one_line
from conemodel.base.units import DEG, MM
from conemodel.show.formatting import number
from conemodel.show.instrument.drawing_of import drawing_of
from conemodel.show.instrument.paper import name_on, paint_on
from conemodel.show.instrument.states import state_of
from conemodel.show.palette import LIGHT
from conemodel.show.setting.cone_marks import BENCH, CLAMPED
from conemodel.show.setting.end_play_chart import good_angles_of, most_preload_shown
from conemodel.show.setting.text import CAUTION
from conemodel.show.waterfall.paper import PLAIN, SMALL, draw_on_sheet
from conemodel.show.waterfall.rows import rows_of_prediction
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.setting.sweep import Sweep

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

A4 = (11.69, 8.27)
"""A4 sheet on its side [inch], ISO 216."""

LARGE = 13.0
"""Size of headings [point]."""


def prediction_figure(prediction: Prediction, sweep: Sweep) -> "Figure":
    """Return a prediction on one page: verdict, where the play went, and end play over the cone's position."""
    figure = _figure(*A4)
    figure.text(
        0.05, 0.945, for_picture(one_line(prediction.scenario.name)), fontsize=LARGE, fontweight="bold"
    )
    verdict = textwrap.fill(prediction.verdict.sentence, 150)
    figure.text(0.05, 0.925, verdict, fontsize=PLAIN, va="top", linespacing=1.35)
    falls = figure.add_axes((0.05, 0.12, 0.44, 0.66))
    draw_on_sheet(falls, rows_of_prediction(prediction), prediction.window)
    _plain_frame(falls, "left")
    _curves(
        figure.add_axes((0.57, 0.34, 0.38, 0.2)),
        figure.add_axes((0.57, 0.12, 0.38, 0.14)),
        sweep,
        prediction,
    )
    _hub(figure.add_axes((0.57, 0.6, 0.38, 0.2)), prediction)
    figure.text(0.05, 0.03, CAUTION, fontsize=SMALL, color=LIGHT.faint)
    return figure


def _hub(axes: "Axes", prediction: Prediction) -> None:
    """Draw the bearing that is adjusted as it stands once clamped."""
    window = prediction.window
    drawing = drawing_of(prediction.scenario, good=(window.tight_edge, window.loose_edge))
    plate, stage = drawing.plates["close"], "clamped"
    state = state_of(prediction, stage, factor=drawing.factor)
    paint_on(axes, plate, state, stage=stage)
    name_on(axes, plate, state, stage=stage, size=SMALL)
    words = f"Clamped. Movement {drawing.factor} times larger, thread {drawing.thread_coarser} times coarser"
    axes.set_title(words, fontsize=PLAIN, fontweight="bold", loc="left")


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


def _figure(width: float, height: float) -> "Figure":
    from matplotlib.figure import Figure

    return Figure(figsize=(width, height), facecolor="white")


def _curves(play: "Axes", pinch: "Axes", sweep: Sweep, prediction: Prediction) -> None:
    """Draw end play above and preload below over the cone's position."""
    out = sweep.cone_angle * DEG.per_si
    now = DEG.from_si(prediction.scenario.setting.back_off)
    good = good_angles_of(sweep, prediction)
    for axes, opened, clamped in (
        (play, sweep.end_play_open * MM.per_si, sweep.end_play_clamped * MM.per_si),
        (pinch, sweep.preload_open, sweep.preload_clamped),
    ):
        axes.plot(out, opened, color=LIGHT.level, linestyle="--", linewidth=1.4, label=BENCH)
        axes.plot(out, clamped, color=LIGHT.petrol, linewidth=2.2, label=CLAMPED)
        if good is not None:
            ends = [DEG.from_si(end) for end in good]
            axes.axvspan(
                *ends,
                facecolor=LIGHT.good,
                alpha=0.3,
                label=f"good {number(ends[0], 0)} to {number(ends[1], 0)}°",
            )
        if out[0] <= now <= out[-1]:
            axes.axvline(now, color=LIGHT.taken, linestyle=":", linewidth=1.8, label=f"now {number(now, 0)}°")
        axes.set_xlim(out[0], out[-1])
        axes.grid(color=LIGHT.steel, linewidth=0.5)
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
