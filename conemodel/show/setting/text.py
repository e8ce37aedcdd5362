"""Results as text for a terminal: plain tables of everyday units, the verdict first."""

import textwrap
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from conemodel.base.units import DEG, KILONEWTON, MM, MPA, NEWTON, NEWTON_MM, Array
from conemodel.show.formatting import STAGE_WORDS, cone_angle, felt_at_both
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.setting.stage_result import Stage
from conemodel.tasks.setting.sweep import Sweep

WIDTH = 96
"""Width of running text [characters]."""

NOT_VALID = "not valid"
"""Stands for a number where the balls leave their races and the model says nothing."""

CAUTION = (
    "Follow the maker's instructions and local rules, and have a qualified mechanic check the wheel before it is "
    "ridden."
)
"""Stands below every verdict."""


def prediction_text(prediction: Prediction) -> str:
    """Return the verdict, the five stages, where the play went, and what is only assumed."""
    return "\n\n".join(
        (
            prediction.scenario.name,
            paragraph(prediction.verdict.sentence),
            _stages(prediction),
            "Where the play went\n" + _terms(prediction),
            "Good range, clamped\n" + _window(prediction),
            "\n".join(paragraph(note, bullet="- ") for note in prediction.verdict.notes),
            paragraph(CAUTION),
        )
    )


def sweep_text(sweep: Sweep) -> str:
    """Return a sweep as a table: cone position, then end play, rim play and preload, open and clamped."""
    head = ("cone out °", "end play mm", "clamped mm", "rim mm", "clamped mm", "preload N", "clamped N")
    columns = (
        sweep.cone_angle * DEG.per_si,
        sweep.end_play_open * MM.per_si,
        sweep.end_play_clamped * MM.per_si,
        sweep.rim_play_open * MM.per_si,
        sweep.rim_play_clamped * MM.per_si,
        sweep.preload_open,
        sweep.preload_clamped,
    )
    forms = ("{:.1f}", "{:+.3f}", "{:+.3f}", "{:.2f}", "{:.2f}", "{:.0f}", "{:.0f}")
    return table(head, formatted(columns, forms, valid=sweep.valid, always=3))


def formatted(
    columns: Sequence[Array], forms: Sequence[str], *, valid: npt.NDArray[np.bool_], always: int
) -> list[list[str]]:
    """Return rows of a table of numbers; where the model is not `valid`, only the first `always` columns are said."""
    rows = [
        [form.format(value) for form, value in zip(forms, row, strict=True)] for row in np.stack(columns, -1)
    ]
    return [
        row if holds else row[:always] + [NOT_VALID] * (len(row) - always)
        for row, holds in zip(rows, valid.tolist(), strict=True)
    ]


def _stages(prediction: Prediction) -> str:
    """Return the five stages as a table."""
    head = (
        "stage",
        "end play mm",
        "= cone °",
        "preload N",
        "rim mm",
        "axle end mm",
        "felt",
        "pressure MPa",
        "torque N·mm",
    )
    rows = [
        (
            STAGE_WORDS[stage.name],
            f"{MM.from_si(stage.end_play):+.3f}",
            f"{DEG.from_si(cone_angle(prediction, stage.end_play)):+.0f}",
            *(_found(prediction, stage) if stage.valid else [NOT_VALID] * (len(head) - 3)),
        )
        for stage in prediction.stages.values()
    ]
    clamp = prediction.clamp
    return table(head, rows) + (
        "\nrim and axle end: free play there, stop to stop, and as a hand feels it; "
        f"clamp {KILONEWTON.from_si(clamp.force):.1f} kN ({clamp.source})"
    )


def _found(prediction: Prediction, stage: Stage) -> tuple[str, ...]:
    """Return what the balance of forces gives for a stage, as it stands in the table."""
    return (
        f"{NEWTON.from_si(stage.preload):.0f}",
        f"{MM.from_si(stage.rim_play):.2f}",
        f"{MM.from_si(stage.axle_end_play):.2f}",
        felt_at_both(prediction.scenario.limits, stage),
        f"{MPA.from_si(stage.peak_pressure):.0f}",
        f"{NEWTON_MM.from_si(stage.torque):.1f}",
    )


def _terms(prediction: Prediction) -> str:
    """Return every term of end play as a table."""
    rows = [
        (
            STAGE_WORDS[stage.name],
            term.label + (" (assumed)" if term.assumed else ""),
            f"{MM.from_si(term.length):+.4f}",
            f"{DEG.from_si(cone_angle(prediction, term.length)):+.1f}",
        )
        for stage in prediction.stages.values()
        for term in stage.terms
    ]
    return table(("stage", "what moved", "mm", "cone °"), rows, words=2)


def _window(prediction: Prediction) -> str:
    """Return the limits of the good range as a table."""
    window = prediction.window
    rows = [
        (
            limit.label,
            f"{limit.unit.from_si(limit.value):g} {limit.unit.symbol}".strip(),
            f"{limit.side} side",
            f"{MM.from_si(limit.edge):+.4f}" + (" *" if limit.binding else "  "),
        )
        for limit in window.limits
    ]
    width = DEG.from_si(cone_angle(prediction, window.width))
    return table(("limit", "value", "bounds", "at mm  "), rows, words=3) + (
        f"\n* met first; {MM.from_si(window.tight_edge):+.3f} to {MM.from_si(window.loose_edge):+.3f} mm of end play, "
        f"{width:.0f}° of cone. These limits are judgement and can be changed."
    )


def table(head: Sequence[str], rows: Sequence[Sequence[str]], *, words: int = 1) -> str:
    """Return a table; the first `words` columns are words and stand left, the rest numbers and stand right."""
    widths = [max(len(str(row[i])) for row in (head, *rows)) for i in range(len(head))]

    def line(cells: Sequence[str]) -> str:
        padded = (
            cell.ljust(width) if i < words else cell.rjust(width)
            for i, (cell, width) in enumerate(zip(cells, widths, strict=True))
        )
        return "  ".join(padded).rstrip()

    return "\n".join((line(head), "  ".join("-" * width for width in widths), *map(line, rows)))


def paragraph(text: str, *, bullet: str = "") -> str:
    """Return running text broken into lines.

    Args:
        text: in one line.
        bullet: before it; further lines stand in by as much.
    """
    return textwrap.fill(text, WIDTH, initial_indent=bullet, subsequent_indent=" " * len(bullet))
