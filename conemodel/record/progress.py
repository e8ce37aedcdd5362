"""What attempts add up to: a trainee's progress, a class's table by stage of error, both as CSV."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from conemodel.base.table import Column, Table
from conemodel.base.units import DEG, UM
from conemodel.record.attempts import Attempt
from conemodel.tasks.practice.error_stage import STAGES

PASSES_NEEDED = 2
"""How often, on different seeds, an exercise must be passed, assessed, to count as learnt."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """One exercise as one trainee has done it.

    Attributes:
        exercise: name of its file; attempts, passed: how many.
        seeds_passed: on how many different links; learnt: that is enough.
        worded: how many of those that passed were told in words what hands feel.
        when: of each attempt, the same order.
    """

    exercise: str
    attempts: int
    passed: int
    seeds_passed: int
    learnt: bool
    worded: int
    when: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassRow:
    """One exercise as a class has done it: how many attempts, passes, and failures by stage of error.

    `worded`: how many of those that passed were told in words what hands feel; `hubs_read`: how many hubs, in all.
    """

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
    worded: int
    hubs_read: int


def progress(attempts: Iterable[Attempt]) -> tuple[Progress, ...]:
    """Return the progress in attempts of one trainee, exercise by exercise."""
    return tuple(_progress(exercise, done) for exercise, done in _by_exercise(attempts))


def _progress(exercise: str, done: Sequence[Attempt]) -> Progress:
    seeds = {(attempt.salt, attempt.seed) for attempt in done if attempt.passed and not attempt.training}
    return Progress(
        exercise=exercise,
        attempts=len(done),
        passed=sum(attempt.passed for attempt in done),
        seeds_passed=len(seeds),
        learnt=len(seeds) >= PASSES_NEEDED,
        worded=_worded(done),
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
        worded=_worded(done),
        hubs_read=sum(hubs_read(attempt) for attempt in done),
        **{stage.replace(" ", "_"): failed.count(stage) for stage in STAGES},
    )


def _worded(done: Sequence[Attempt]) -> int:
    return sum(attempt.passed and attempt.worded for attempt in done)


def hubs_read(attempt: Attempt) -> int:
    """Return how many hubs of an attempt were read in words."""
    return sum(hub.worded for hub in attempt.hubs)


def _by_exercise(attempts: Iterable[Attempt]) -> list[tuple[str, list[Attempt]]]:
    found: dict[str, list[Attempt]] = {}
    for attempt in attempts:
        found.setdefault(attempt.exercise, []).append(attempt)
    return sorted(found.items())


_ATTEMPTS: tuple[Column[Attempt], ...] = (
    Column(lambda one: one.made_at, key="made_at"),
    Column(lambda one: one.name, key="name"),
    Column(lambda one: one.exercise, key="exercise"),
    Column(lambda one: one.salt, key="salt"),
    Column(lambda one: one.seed, key="seed"),
    Column(lambda one: one.passed, key="passed"),
    Column(lambda one: one.stage, key="stage"),
    Column(lambda one: one.unchecked, key="unchecked"),
    Column(lambda one: one.critical, key="critical"),
    Column(lambda one: one.false_right, key="false_right"),
    Column(lambda one: one.false_wrong, key="false_wrong"),
    Column(lambda one: one.locks, key="locks"),
    Column(lambda one: one.moves, key="moves"),
    Column(lambda one: one.hint, key="hint"),
    Column(lambda one: one.worded, key="worded"),
    Column(lambda one: one.training, key="training"),
    Column(lambda one: one.off_by, UM, "off_by_um", digits=".1f"),
    Column(lambda one: one.off_turn, DEG, "off_turn_deg", digits=".1f"),
    Column(hubs_read, key="hubs_in_words"),
)


def list_attempts(done: Iterable[Attempt]) -> Table[Attempt]:
    """Return the table of attempts, one a line."""
    return Table(_ATTEMPTS, done)


def list_progress(done: Iterable[Attempt], titles: Mapping[str, str]) -> Table[Progress]:
    """Return the table of a trainee's progress, for a page; `titles` of exercises by the name of their file."""
    columns: tuple[Column[Progress], ...] = (
        Column(lambda row: titles.get(row.exercise, row.exercise), page="Exercise"),
        Column(lambda row: row.attempts, page="Attempts"),
        Column(lambda row: row.passed, page="Passed"),
        Column(lambda row: "yes" if row.learnt else "not yet", page="Learnt"),
        Column(lambda row: row.worded, page="Passed in words"),
    )
    return Table(columns, progress(done), caption="Every exercise so far")


def list_class(done: Iterable[Attempt], titles: Mapping[str, str]) -> Table[ClassRow]:
    """Return the table of a class; `titles` of exercises by the name of their file."""
    columns: tuple[Column[ClassRow], ...] = (
        Column(lambda row: row.exercise, key="exercise"),
        Column(lambda row: titles.get(row.exercise, row.exercise), page="Exercise"),
        Column(lambda row: row.trainees, key="trainees", page="People"),
        Column(lambda row: row.attempts, key="attempts", page="Tries"),
        Column(lambda row: row.passed, key="passed", page="Passed"),
        Column(lambda row: row.touch, key="touch", page="Touch"),
        Column(lambda row: row.slack, key="slack", page="Slack"),
        Column(lambda row: row.drift, key="drift", page="Drift"),
        Column(lambda row: row.clamp, key="clamp", page="Clamp"),
        Column(lambda row: row.not_checked, key="not_checked", page="Not checked"),
        Column(lambda row: row.judged, key="judged", page="Judged"),
        Column(lambda row: row.critical, key="critical", page="Never ride"),
        Column(lambda row: row.worded, key="passed_in_words", page="Passed in words"),
        Column(lambda row: row.hubs_read, key="hubs_in_words", page="Hubs read in words"),
    )
    caption = "The class by exercise, failures by the stage they went wrong in"
    return Table(columns, class_table(done), caption=caption)
