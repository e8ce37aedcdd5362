"""The empty frame of a handout, in which the class draws how the play goes: with a scale, and nothing that tells."""

from typing import TYPE_CHECKING

from conemodel.show.formatting import LOOSER, TIGHTER

if TYPE_CHECKING:
    from matplotlib.axes import Axes

LOW, HIGH, STEP = -0.2, 0.3, 0.1
"""Ends of the scale and from number to number [mm]: the same for every story, so that it gives no answer away."""

TICK = 0.03
"""How high a tick is, as a share of the frame."""

SMALL = 7.5
"""Size of the words in the frame [point]."""


def draw_frame(axes: "Axes") -> None:
    """Draw the frame: end play in mm along its foot, an upright line where there is none."""
    axes.set(xlim=(LOW, HIGH), ylim=(0, 1), xticks=[], yticks=[])
    axes.axvline(0, color="black", linewidth=0.9)
    for count in range(1, 2 * round((HIGH - LOW) / STEP)):
        at, whole = LOW + count * STEP / 2, count % 2 == 0
        axes.plot([at, at], [0, TICK * (2 if whole else 1)], color="black", linewidth=0.8)
        if whole:
            axes.text(at, 0.08, f"{at + 0.0:.1f}", fontsize=SMALL, ha="center", bbox=_PAPER)
    axes.text(
        0.5,
        0.18,
        f"{TIGHTER}     end play, mm     {LOOSER}",
        transform=axes.transAxes,
        fontsize=SMALL,
        ha="center",
        bbox=_PAPER,
    )
    words = "draw the play step by step; off the scale: an arrow"
    axes.text(0.5, 0.95, words, transform=axes.transAxes, fontsize=SMALL, ha="center", va="top", bbox=_PAPER)


_PAPER = {"facecolor": "white", "edgecolor": "none", "pad": 0.6}
