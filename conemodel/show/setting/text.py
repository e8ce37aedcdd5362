"""Results as text for a terminal: plain tables of everyday units, the verdict first."""

import textwrap

from conemodel.base.plain_text import one_line
from conemodel.base.units import DEG, KILONEWTON
from conemodel.show.formatting import cone_angle, play_range_words
from conemodel.show.setting.tables import list_limits, list_stages, list_sweep
from conemodel.show.tables import table_text
from conemodel.show.waterfall.rows import list_terms
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.setting.sweep import Sweep

WIDTH = 96
"""Width of running text [characters]."""

CAUTION = (
    "Follow the maker's instructions and local rules, and have a qualified mechanic check the wheel before it is "
    "ridden."
)
"""Stands below every verdict."""


def prediction_text(prediction: Prediction) -> str:
    """Return the verdict, the five stages, where the play went, and what is only assumed."""
    return "\n\n".join(
        (
            one_line(prediction.scenario.name),
            *(paragraph(answer.sentence) for answer in prediction.verdict.headline.answers),
            _stages(prediction),
            "Where the play went\n" + table_text(list_terms(prediction)),
            "Good range, clamped\n" + _window(prediction),
            "\n".join(paragraph(note, bullet="- ") for note in prediction.verdict.notes),
            paragraph(CAUTION),
        )
    )


def sweep_text(sweep: Sweep) -> str:
    """Return a sweep as a table: cone position, then end play, rim play and preload, open and clamped."""
    return table_text(list_sweep(sweep))


def _stages(prediction: Prediction) -> str:
    """Return the five stages as a table."""
    clamp = prediction.clamp
    return table_text(list_stages(prediction)) + (
        "\nrim and axle end: free play there, stop to stop, and as a hand feels it; "
        f"clamp {KILONEWTON.from_si(clamp.force):.1f} kN ({clamp.source})"
    )


def _window(prediction: Prediction) -> str:
    """Return the limits of the good range as a table."""
    window = prediction.window
    width = DEG.from_si(cone_angle(prediction, window.width))
    return table_text(list_limits(window)) + (
        f"\n* met first; {play_range_words(window.tight_edge, window.loose_edge, unit=' mm')}, "
        f"{width:.0f}° of cone. These limits are judgement and can be changed."
    )


def paragraph(text: str, *, bullet: str = "") -> str:
    """Return running text broken into lines.

    Args:
        text: in one line.
        bullet: before it; further lines stand in by as much.
    """
    return textwrap.fill(text, WIDTH, initial_indent=bullet, subsequent_indent=" " * len(bullet))
