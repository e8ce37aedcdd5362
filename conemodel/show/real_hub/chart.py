"""The model's lines against the hand's own marks, over minutes of the cone; by matplotlib, loaded on first use.

A state has a colour, a dash and its name at its line, so that a grey print tells them apart.
"""

import io
from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from conemodel.base.units import MINUTE, MM, Array
from conemodel.parts.real_hub import State
from conemodel.show.formatting import LOOSER, TIGHTER, millimetres, number
from conemodel.show.palette import LIGHT, Tones, tones
from conemodel.show.real_hub.wording import STATE_WORDS, count_words, found_words, reading_words
from conemodel.tasks.hand.estimate import Interval
from conemodel.tasks.real_hub.fit import Checked, Fitted
from conemodel.tasks.real_hub.readings import Felt, Measured
from conemodel.tasks.real_hub.shown import Shown

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

LOOKS: dict[State, tuple[str, str]] = {
    "nut loose": ("level", ":"),
    "locked": ("petrol", "-"),
    "clamped": ("taken", "--"),
}
"""Name of the colour, and dash, of each state's line."""

SIGNS = {"play": "o", "drag": "^"}
"""What stands for a mark of the hand."""

LOWEST, HIGHEST = -0.06, 0.12
"""End plays between which the lines are shown [mm]: a hard squeeze, and play that anybody feels, or the most read."""

ROOM = 3.0
"""How far the lines reach past the last mark [min]; before the first there is room for words as well."""


def real_hub_figure(fitted: Fitted, *, dark: bool = False, compact: bool = False) -> "Figure":
    """Return the chart; `compact` is for a phone. At least one reading must be given."""
    from matplotlib.figure import Figure

    look = tones(dark=dark) if dark else LIGHT
    figure = Figure(figsize=(4.2, 4.8) if compact else (5.8, 4.6), facecolor=look.paper, layout="constrained")
    axes = figure.add_subplot(facecolor=look.paper)
    counts = [MINUTE.from_si(checked.reading.count) for checked in fitted.readings]
    across = np.array([min(counts) - (3 if compact else 2.4) * ROOM, max(counts) + ROOM])
    for state in states_read(fitted):
        _draw_line(axes, fitted, state, across, look)
    felt = _edges(fitted)
    for what, edge in felt.items():
        axes.axhline(MM.from_si(edge.value), color=look.rule, linewidth=0.8)
        words = f"you feel {what}"
        axes.annotate(words, (across[0], MM.from_si(edge.value)), (3, 3), textcoords="offset points",
                      fontsize=9, color=look.ink)  # fmt: skip
    for place, checked in enumerate(fitted.readings):
        _draw_mark(axes, fitted, checked, felt, look, hollow=checked.left_out or place in fitted.clash)
    axes.set(xlim=across, ylim=(LOWEST, _highest(fitted)))
    figure.legend(
        loc="outside upper left", ncols=1 if compact else 2, fontsize=9, labelcolor=look.ink, frameon=False
    )
    _frame(axes, look)
    return figure


def real_hub_svg(fitted: Fitted, *, dark: bool, compact: bool) -> str:
    """Return the same as SVG."""
    stream = io.StringIO()
    real_hub_figure(fitted, dark=dark, compact=compact).savefig(stream, format="svg", metadata={"Date": None})
    text = stream.getvalue()
    return text[text.index("<svg") :]


def states_read(fitted: Fitted) -> tuple[State, ...]:
    """Return the states in which something was found, in the order of the work."""
    read = {checked.reading.state for checked in fitted.readings}
    return tuple(state for state in LOOKS if state in read)


def alt_text_of_real_hub(fitted: Fitted) -> str:
    """Return the chart in words."""
    lines = (
        f"{STATE_WORDS[state]}: just touching {count_words(-fitted.interval(_start(state)).value / fitted.hub.lead)}"
        for state in states_read(fitted)
    )
    marks = (f"{reading_words(each.reading)}: {found_words(each)}" for each in fitted.readings)
    edges = (
        f"you feel {what} at {millimetres(edge.value, sign=True)}" for what, edge in _edges(fitted).items()
    )
    return (
        f"End play over minutes of the cone. Model: {'; '.join(lines)}. {'; '.join(edges)}. "
        f"Your marks: {'; '.join(marks)}."
    )


def _start(state: State) -> Callable[[Shown], Array]:
    """Return what takes out the end play in a state, the cone where the fingers left it."""
    return lambda shown: shown.end_play[state]


def _edges(fitted: Fitted) -> dict[str, Interval]:
    """Return the end plays at which the hand feels play and drag [m], of what was felt for."""
    at: dict[str, Callable[[Shown], Array]] = {
        "play": lambda shown: shown.felt_play_at,
        "drag": lambda shown: shown.felt_drag_at,
    }
    sought = {each.reading.what for each in fitted.readings if isinstance(each.reading, Felt)}
    return {what: fitted.interval(of) for what, of in at.items() if what in sought}


def _draw_line(axes: "Axes", fitted: Fitted, state: State, across: Array, look: Tones) -> None:
    """Draw a state's line as fitted with its range, and faintly as it was assumed."""
    name, dash = LOOKS[state]
    colour = getattr(look, name)
    risen = MM.from_si(1.0) * MINUTE.to_si(1.0) * fitted.hub.lead * across
    now = fitted.interval(_start(state))
    low, high, middle = (risen + MM.from_si(end) for end in (now.low, now.high, now.value))
    axes.fill_between(across, low, high, color=colour, alpha=0.18, linewidth=0)
    axes.plot(across, middle, color=colour, linestyle=dash, linewidth=2.2, label=STATE_WORDS[state])
    before = risen + MM.from_si(fitted.interval_before(_start(state)).value)
    words = "thin: as assumed before" if state == states_read(fitted)[-1] else None
    axes.plot(across, before, color=look.rule, linestyle=dash, linewidth=0.9, label=words)


def _draw_mark(
    axes: "Axes", fitted: Fitted, checked: Checked, felt: dict[str, Interval], look: Tones, *, hollow: bool
) -> None:
    """Draw one reading where the hand found it; hollow where nothing rests on it."""
    reading = checked.reading
    at = MINUTE.from_si(reading.count)
    colour = getattr(look, LOOKS[reading.state][0])
    face = look.paper if hollow else colour
    if isinstance(reading, Felt):
        half = MINUTE.from_si(reading.step) / 2
        inside = at - half if reading.what == "play" else at + half
        y = MM.from_si(felt[reading.what].value)
        axes.errorbar([inside], [y], xerr=half, fmt=SIGNS[reading.what], markersize=8, color=colour,
                      markerfacecolor=face, markeredgecolor=look.ink, ecolor=look.ink, capsize=3)  # fmt: skip
    elif reading.place == "axle" or reading.mark is not None:
        y = MM.from_si(end_play_read(fitted, reading))
        axes.plot([at], [y], "D", markersize=8, color=face, markeredgecolor=look.ink)


def end_play_read(fitted: Fitted, reading: Measured) -> float:
    """Return the end play that a play stands for [m], what pushing gave taken off; nought where there is none."""
    push = 0.0 if reading.push is None else reading.push
    if reading.place == "axle":
        return max(reading.play - push * fitted.interval(lambda shown: shown.axle_give).value, 0.0)
    given = fitted.interval(
        lambda shown: fitted.hub.rim_give(np.full(shown.stiffness.shape, push), shown.stiffness)
    )
    free = (reading.play - given.value) / fitted.interval(lambda shown: shown.play_factor).value
    return float(fitted.hub.end_play_of_play(free)) if free > 0 else 0.0


def _highest(fitted: Fitted) -> float:
    """Return up to which end play the lines are shown [mm]."""
    measured = (each.reading for each in fitted.readings if isinstance(each.reading, Measured))
    return max(HIGHEST, *(1.1 * MM.from_si(end_play_read(fitted, each)) for each in measured), HIGHEST)


def _frame(axes: "Axes", look: Tones) -> None:
    """Draw the axes in the house's manner."""
    from matplotlib.ticker import MaxNLocator

    axes.axhline(0, color=look.ink, linewidth=1)
    axes.set_xlabel("cone, minutes out of finger contact →", fontsize=9, color=look.faint)
    axes.set_ylabel(f"{TIGHTER}   end play, mm   {LOOSER}", fontsize=9, color=look.faint)
    axes.yaxis.set_major_formatter(lambda value, _: number(value, 2))
    axes.xaxis.set_major_locator(MaxNLocator(integer=True))
    axes.xaxis.set_major_formatter(lambda value, _: number(value, 0))
    axes.tick_params(labelsize=9, colors=look.faint)
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)
    for side in ("left", "bottom"):
        axes.spines[side].set_color(look.rule)
