"""What attempts add up to: a trainee's progress, a class's table by stage of error, both as CSV."""

import csv
import io
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass, fields
from typing import Any

from conemodel.base.units import DEG, UM
from conemodel.record.attempts import Attempt
from conemodel.tasks.practice.error_stage import STAGES

PASSES_NEEDED = 2
"""How often, on different seeds, an exercise must be passed to count as learnt."""

_FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""First letters that make a spreadsheet take a text for a formula."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """One exercise as one trainee has done it.

    Attributes:
        exercise: name of its file; attempts, passed: how many.
        seeds_passed: on how many different links; learnt: that is enough.
        off_turns: how far outside the good range each attempt ended, as a turn of the cone, oldest first [rad].
        when: of each attempt, the same order.
    """

    exercise: str
    attempts: int
    passed: int
    seeds_passed: int
    learnt: bool
    off_turns: tuple[float, ...]
    when: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassRow:
    """One exercise as a class has done it: how many attempts, passes, and failures by stage of error."""

    exercise: str
    trainees: int
    attempts: int
    passed: int
    touch: int
    slack: int
    drift: int
    clamp: int
    not_checked: int
    judged: int
    critical: int


def progress(attempts: Iterable[Attempt]) -> tuple[Progress, ...]:
    """Return the progress in attempts of one trainee, exercise by exercise."""
    return tuple(_progress(exercise, done) for exercise, done in _by_exercise(attempts))


def _progress(exercise: str, done: Sequence[Attempt]) -> Progress:
    seeds = {(attempt.salt, attempt.seed) for attempt in done if attempt.passed}
    return Progress(
        exercise=exercise,
        attempts=len(done),
        passed=sum(attempt.passed for attempt in done),
        seeds_passed=len(seeds),
        learnt=len(seeds) >= PASSES_NEEDED,
        off_turns=tuple(attempt.off_turn for attempt in done),
        when=tuple(attempt.made_at for attempt in done),
    )


def class_table(attempts: Iterable[Attempt]) -> tuple[ClassRow, ...]:
    """Return the table of a class, exercise by exercise, failures by the stage they went wrong in."""
    return tuple(_class_row(exercise, done) for exercise, done in _by_exercise(attempts))


def _class_row(exercise: str, done: Sequence[Attempt]) -> ClassRow:
    failed = [attempt.stage for attempt in done if not attempt.passed]
    return ClassRow(
        exercise=exercise,
        trainees=len({attempt.name for attempt in done}),
        attempts=len(done),
        passed=sum(attempt.passed for attempt in done),
        critical=sum(bool(attempt.critical) for attempt in done),
        **{stage.replace(" ", "_"): failed.count(stage) for stage in STAGES},
    )


def _by_exercise(attempts: Iterable[Attempt]) -> list[tuple[str, list[Attempt]]]:
    found: dict[str, list[Attempt]] = {}
    for attempt in attempts:
        found.setdefault(attempt.exercise, []).append(attempt)
    return sorted(found.items())


def attempts_csv(attempts: Iterable[Attempt]) -> str:
    """Return attempts as CSV in everyday units, one a line."""
    rows = []
    for attempt in attempts:
        row = asdict(attempt)
        row["off_by_um"] = f"{UM.from_si(row.pop('off_by')):.1f}"
        row["off_turn_deg"] = f"{DEG.from_si(row.pop('off_turn')):.1f}"
        rows.append(row)
    names = [field.name for field in fields(Attempt) if field.name not in ("off_by", "off_turn")]
    return _csv([*names, "off_by_um", "off_turn_deg"], rows)


def class_csv(rows: Iterable[ClassRow]) -> str:
    """Return the table of a class as CSV."""
    return _csv([field.name for field in fields(ClassRow)], [asdict(row) for row in rows])


def _csv(columns: Sequence[str], rows: Iterable[dict[str, Any]]) -> str:
    """Return rows as CSV; a text that a spreadsheet would run as a formula is made plain text."""
    out = io.StringIO()
    writer = csv.DictWriter(out, columns, lineterminator="\n")
    writer.writeheader()
    for row in rows:
        writer.writerow({key: _plain(value) for key, value in row.items()})
    return out.getvalue()


def _plain(value: Any) -> Any:
    return (
        f"'{value}" if isinstance(value, str) and value.startswith(_FORMULA) and not _number(value) else value
    )


def _number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True
