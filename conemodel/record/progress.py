"""What attempts add up to: a trainee's progress, a class's table by stage of error, both as CSV."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from operator import attrgetter

from conemodel.base.table import Column, Table
from conemodel.base.units import DEG, UM
from conemodel.parts.exercise import Exercise
from conemodel.record.attempts import Attempt
from conemodel.tasks.practice.catalogue import titles_of
from conemodel.tasks.practice.error_stage import STAGES, STAGES_BY_KIND, ErrorStage

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
    """One exercise as a class has done it.

    Attributes:
        exercise: name of its file; trainees, attempts, passed: how many.
        hubs, hubs_right: how many hubs those attempts had, and how many of them were right, as far as that was kept.
        too_tight, too_loose: failed attempts whose worst hub ended on that side of where it should.
        touch to judged: failed attempts by the stage they went wrong in; critical: attempts never to be ridden.
        worded: how many of those that passed were told in words what hands feel; hubs_read: how many hubs, in all.
    """

    exercise: str
    trainees: int
    attempts: int
    passed: int
    hubs: int
    hubs_right: int
    too_tight: int
    too_loose: int
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
    wrong = [attempt for attempt in done if not attempt.passed]
    failed = [attempt.stage for attempt in wrong]
    hubs = [hub.passed for attempt in done for hub in attempt.hubs]
    return ClassRow(
        exercise=exercise,
        trainees=len({attempt.name for attempt in done}),
        attempts=len(done),
        passed=sum(attempt.passed for attempt in done),
        hubs=len(hubs),
        hubs_right=sum(hubs),
        too_tight=sum(attempt.off_by < 0 for attempt in wrong),
        too_loose=sum(attempt.off_by > 0 for attempt in wrong),
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


CLASS_WORDS = """
Tries count in both rounds. **Hubs right**: of all hubs in these tries. **Too tight, too loose**: failed tries, by where
the hub farthest off ended. The rest are failed tries by what went wrong at their worst hub. **Touch**: where the
fingers set the cone. **Slack**: the locknut took up thread slack. **Drift**: the cone turned with the locknut.
**Clamp**: what closing it took. **Not checked**: not rocked or twirled clamped. **Judged**: a wrong word on a hub.
**Never ride**: something that must never be ridden. **Passed in words, hubs read in words**: what hands feel was told
in words. **–**: not in this exercise, or not kept.
"""
"""What the headings of the table of a class mean."""

NAMES_KEPT_BACK = (
    "Names are only in the CSV of every attempt, for those who typed one: this page may be on the wall."
)

NONE = "–"
"""Stands where there is nothing to count."""


def list_class(done: Iterable[Attempt], exercises: Mapping[str, Exercise]) -> Table[ClassRow]:
    """Return the table of a class; `exercises` by the name of their file."""
    titles = titles_of(exercises)

    def where_it_can(stage: ErrorStage, key: str, heading: str) -> Column[ClassRow]:
        """Return the column of a stage; on a page a nought where the exercise has no such stage is a dash."""

        def said(row: ClassRow) -> str:
            exercise, number = exercises.get(row.exercise), int(getattr(row, key))
            lacks = exercise is not None and stage not in STAGES_BY_KIND[exercise.kind]
            return NONE if lacks and not number else str(number)

        return Column(said, page=heading)

    stages = [(stage, stage.replace(" ", "_"), stage.capitalize()) for stage in STAGES]
    counted = ("exercise", "trainees", "attempts", "passed", *(key for _, key, _ in stages), "critical")
    counted += ("hubs", "hubs_right", "too_tight", "too_loose")
    columns: tuple[Column[ClassRow], ...] = (
        *(Column(attrgetter(name), key=name) for name in counted),
        Column(lambda row: titles.get(row.exercise, row.exercise), page="Exercise"),
        Column(lambda row: row.trainees, page="People"),
        Column(lambda row: row.attempts, page="Tries"),
        Column(lambda row: row.passed, page="Passed"),
        Column(lambda row: f"{row.hubs_right} of {row.hubs}" if row.hubs else NONE, page="Hubs right"),
        Column(lambda row: row.too_tight, page="Too tight"),
        Column(lambda row: row.too_loose, page="Too loose"),
        *(where_it_can(*stage) for stage in stages),
        Column(lambda row: row.critical, page="Never ride"),
        Column(lambda row: row.worded, key="passed_in_words", page="Passed in words"),
        Column(lambda row: row.hubs_read, key="hubs_in_words", page="Hubs read in words"),
    )
    caption = "The class by exercise, failures by the stage they went wrong in"
    return Table(columns, class_table(done), caption=caption)
