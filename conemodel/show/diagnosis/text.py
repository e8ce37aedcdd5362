"""A checked hub as text for a terminal and as JSON: the sentence first, numbers with their spread after it."""

import json
import textwrap
import tomllib
from collections.abc import Iterator
from typing import Any

from conemodel.base.plain_text import one_line
from conemodel.base.table import rows
from conemodel.base.units import DEG, MM, NEWTON, UM, Unit
from conemodel.parts.toml_files import write_part
from conemodel.show.diagnosis.tables import (
    list_faults,
    list_fits,
    list_next_steps,
    merge_sides,
    say_before,
    say_fault,
    say_none_fits,
    say_slack,
)
from conemodel.show.headline import headline_json
from conemodel.show.setting.text import CAUTION, WIDTH
from conemodel.tasks.diagnosis.credible_intervals import Likely
from conemodel.tasks.diagnosis.diagnose import Diagnosis
from conemodel.tasks.diagnosis.procedure import say_chance

LIKELY_FAULT = 0.02
"""Chance from which a fault is listed as text; JSON lists them all."""

MOST_STEPS = 4
"""Measurements suggested as text."""

LEAST_BITS = 0.05
"""What a measurement must be expected to tell for it to be given: less is written as nothing."""


def check_text(diagnosis: Diagnosis) -> str:
    """Return what to do, what the hub most likely is, its faults, what to measure next and how the parts fit."""
    parts = (
        one_line(diagnosis.readings.name),
        *(_paragraph(answer.sentence) for answer in diagnosis.headline.answers),
        _block(
            "What to do", (_paragraph(f"{i}. {s}", hang=3) for i, s in enumerate(diagnosis.steps, start=1))
        ),
        _block("Most likely", _numbers(diagnosis)),
        _block("Faults no adjustment cures", _faults(diagnosis)),
        _block("Measure next", _next(diagnosis)),
        _block("Do the parts fit", _fits(diagnosis)),
        _paragraph(
            f"Computed for: {one_line(diagnosis.scenario.name)}. What is believed beforehand is judgement."
        ),
        _paragraph(CAUTION),
    )
    return "\n\n".join(part for part in parts if part)


def _numbers(diagnosis: Diagnosis) -> Iterator[str]:
    """Yield a line for every number believed."""
    if diagnosis.states is not None:
        measured = diagnosis.readings.play_measured
        yield "clamped now: " + ", ".join(
            f"{state} {say_chance(chance, measured=measured)}" for state, chance in diagnosis.states.items()
        )
    named = (
        ("end play, open", diagnosis.opened, UM, "+.0f"),
        ("end play, closed", diagnosis.closed, UM, "+.0f"),
        ("taken by the clamp", diagnosis.shift, UM, ".0f"),
        ("clamp force", diagnosis.clamp_force, NEWTON, ".0f"),
        (say_slack(diagnosis), diagnosis.slack, UM, ".0f"),
    )
    for label, number, unit, form in named:
        if number is not None:
            low, high = (format(unit.from_si(end), form) for end in number.intervals[0.8])
            middle = format(unit.from_si(number.median), form)
            yield f"{label}: {middle} {unit.symbol}, four times in five {low} to {high}"


def _faults(diagnosis: Diagnosis) -> Iterator[str]:
    if none := say_none_fits(diagnosis):
        yield none
    for fault in diagnosis.faults:
        if fault.chance < LIKELY_FAULT:
            continue
        because = f"; speaks for it: {'; '.join(fault.evidence)}" if fault.evidence else ""
        before = f", {told} before" if (told := say_before(fault, diagnosis)) else ""
        yield _paragraph(f"- {fault.label}: {say_fault(fault, diagnosis)}{before}{because}", hang=2)


def _next(diagnosis: Diagnosis) -> Iterator[str]:
    for step in diagnosis.next_steps[:MOST_STEPS]:
        told = f" ({step.bits:.1f} bits)" if step.bits >= LEAST_BITS else ""
        yield _paragraph(f"- {step.label}{told}: {step.why}", hang=2)


def _fits(diagnosis: Diagnosis) -> Iterator[str]:
    """Yield how the parts fit; what is the same on both sides is said once."""
    for fit in merge_sides(diagnosis.fits):
        yield _paragraph(f"- {fit.sentence}", hang=2)


def _block(head: str, lines: Iterator[str]) -> str:
    body = "\n".join(lines)
    return f"{head}\n{body}" if body else ""


def _paragraph(text: str, *, hang: int = 0) -> str:
    return textwrap.fill(text, WIDTH, subsequent_indent=" " * hang)


def check_json(diagnosis: Diagnosis) -> str:
    """Return a checked hub as one JSON object; names are fixed, numbers not rounded, None where there is none."""
    move = diagnosis.move
    whole = {
        "readings": tomllib.loads(write_part(diagnosis.readings)),
        "hub": diagnosis.scenario.name,
        "headline": headline_json(diagnosis.headline),
        "sentence": diagnosis.sentence,
        "unsafe": list(diagnosis.unsafe),
        "contradictions": list(diagnosis.contradictions),
        "states": diagnosis.states,
        "leave": diagnosis.leave,
        "move": None
        if move is None
        else {
            "angle_deg": DEG.from_si(move.angle),
            "low_deg": DEG.from_si(move.angle_range[0]),
            "high_deg": DEG.from_si(move.angle_range[1]),
            "length_mm": MM.from_si(move.length),
            "chance": move.chance,
            "chance_now": move.chance_now,
            "chance_tight": move.tight,
            "cautious": move.cautious,
        },
        "steps": list(diagnosis.steps),
        "end_play_open": _likely(diagnosis.opened, MM),
        "end_play_closed": _likely(diagnosis.closed, MM),
        "clamp_shift": _likely(diagnosis.shift, MM),
        "clamp_force": _likely(diagnosis.clamp_force, NEWTON),
        "thread_slack": _likely(diagnosis.slack, MM),
        "window": {
            "tight_edge_mm": MM.from_si(diagnosis.window.tight_edge),
            "loose_edge_mm": MM.from_si(diagnosis.window.loose_edge),
        },
        "faults": rows(list_faults(diagnosis)),
        "next_steps": rows(list_next_steps(diagnosis)),
        "fits": rows(list_fits(diagnosis.fits)),
    }
    return json.dumps(whole, ensure_ascii=False, indent=2, allow_nan=False)


def _likely(number: Likely | None, unit: Unit) -> dict[str, Any] | None:
    """Return a number's middle and intervals in a unit that its names carry."""
    if number is None:
        return None
    ends = {
        f"{'low' if i == 0 else 'high'}{share * 100:.0f}_{unit.suffix}": unit.from_si(interval[i]) + 0.0
        for share, interval in number.intervals.items()
        for i in (0, 1)
    }
    return {f"median_{unit.suffix}": unit.from_si(number.median) + 0.0, **ends}
