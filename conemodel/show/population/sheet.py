"""A study of many hubs on one sheet of paper. matplotlib is loaded on first use."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from conemodel.base.plain_text import for_picture, one_line
from conemodel.base.units import DEG, MM
from conemodel.show.formatting import LOOSER, TIGHTER, play_range_words
from conemodel.show.palette import LIGHT
from conemodel.show.population.charts import DASHES, angles_shown
from conemodel.show.population.text import headline
from conemodel.tasks.population.sobol import Influence
from conemodel.tasks.population.study import ManyHubs

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure


def many_figure(study: ManyHubs, influences: Sequence[Influence]) -> "Figure":
    """Return a study on one sheet: where the hubs end up, what a fixed back-off reaches, what matters most."""
    from matplotlib.figure import Figure

    figure = Figure(figsize=(11.69, 8.27), facecolor="white")
    figure.text(
        0.07, 0.95, for_picture(one_line(study.crowd.population.name)), fontsize=14, fontweight="bold"
    )
    figure.text(0.07, 0.905, headline(study), fontsize=8.5, va="top", wrap=True)
    _spread(figure.add_axes((0.07, 0.5, 0.4, 0.33)), study)
    _back_offs(figure.add_axes((0.55, 0.5, 0.41, 0.33)), study)
    _influences(figure.add_axes((0.25, 0.08, 0.6, 0.32)), influences)
    return figure


def _spread(axes: "Axes", study: ManyHubs) -> None:
    spread = study.all.spread
    axes.stairs(
        spread.counts / study.all.number * 100, spread.edges * MM.per_si, fill=True, color=LIGHT.level
    )
    low, high = (MM.from_si(edge) for edge in study.all.good)
    if low < high:
        words = f"good for every kind: {play_range_words(*study.all.good, unit=' mm')}"
        axes.axvspan(
            low, high, facecolor=LIGHT.good, alpha=0.35, hatch="..", edgecolor=LIGHT.good, label=words
        )
        axes.legend(fontsize=7.5, frameon=True, framealpha=1.0, edgecolor="none", loc="upper left")
    axes.axvline(0, color=LIGHT.ink, linewidth=0.9)
    axes.margins(y=0.2)
    _named(
        axes,
        "Where the hubs end up, clamped",
        f"{TIGHTER}     end play, mm     {LOOSER}",
        "share of hubs, %",
    )


def _back_offs(axes: "Axes", study: ManyHubs) -> None:
    shown = angles_shown(study)
    for number, group in enumerate((study.all, *study.kinds)):
        out, right = group.curve.angle[shown] * DEG.per_si, group.curve.right[shown] * 100
        dash = DASHES[number % len(DASHES)]
        look = (0, tuple(float(length) / 2 for length in dash)) if dash else "-"
        axes.plot(
            out,
            right,
            color=LIGHT.ink,
            linestyle=look,
            linewidth=2.6 if number == 0 else 1.2,
            label=for_picture(one_line(group.name)),
        )
    axes.axvline(
        DEG.from_si(study.back_off), color=LIGHT.taken, linestyle=":", linewidth=1.8, label="asked about"
    )
    axes.set_ylim(0, 1.75 * axes.get_ylim()[1])  # room for the names above the lines
    axes.legend(fontsize=7, frameon=False, loc="upper right")
    _named(axes, "How many a fixed back-off puts right", "back-off, degrees of cone", "in the good range, %")


def _influences(axes: "Axes", influences: Sequence[Influence]) -> None:
    labels = [each.label for each in influences]
    axes.barh(
        labels,
        [max(each.total, 0) * 100 for each in influences],
        facecolor="white",
        edgecolor=LIGHT.ink,
        linestyle="--",
        label="together with others",
    )
    axes.barh(
        labels,
        [max(each.first, 0) * 100 for each in influences],
        height=0.45,
        color=LIGHT.level,
        hatch="////",
        edgecolor="white",
        label="by itself",
    )
    axes.invert_yaxis()
    axes.legend(fontsize=7.5, frameon=False, loc="lower right")
    _named(axes, "What matters most", "share of the variance of the clamped end play, %", "")


def _named(axes: "Axes", heading: str, across: str, up: str) -> None:
    axes.set_title(heading, fontsize=11, fontweight="bold", loc="left")
    axes.set_xlabel(across, fontsize=8.5)
    axes.set_ylabel(up, fontsize=8.5)
    axes.tick_params(labelsize=8)
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)
