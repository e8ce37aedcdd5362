"""An exercise put on the bench: at its start, or as its journal has it."""

import secrets
from contextlib import suppress

from conemodel.base.errors import InputProblems
from conemodel.parts.exercise import Exercise
from conemodel.parts.scatter import Scatter
from conemodel.parts.toml_files import read_part, write_part
from conemodel.record.database import Database, RecordError
from conemodel.record.hand_sittings import latest_thresholds
from conemodel.record.journal import KeptBench, Opening
from conemodel.tasks.hand.spreads import scatter_of_hand
from conemodel.tasks.practice.catalogue import Link, read_link
from conemodel.tasks.practice.hidden_hub import Given, begin
from conemodel.tasks.practice.plan.confusions import deal_by
from conemodel.tasks.practice.playback import CannotPlayBack, proof_of
from conemodel.ui.practice.keeping import Keeping, take_up
from conemodel.ui.practice.session import Sitting, Stand, fresh_name
from conemodel.ui.visit import typed_name, visit

SELF = "self"
"""Salt of exercises nobody gave out."""


def fresh_seed() -> int:
    """Return a seed that cannot be predicted."""
    return 1 + secrets.randbelow(999_999_999)


def sit_down(exercise: Exercise, link: Link, *, key: str, own: bool = False) -> Sitting:
    """Return an exercise at its start; `key` is the server's own.

    Raises:
        InputProblems: what was given cannot be used, with every mistake.
    """
    felt = exercise if link.salt != SELF else _scattered_as_measured(exercise)
    played = deal_by(felt.replace(assessed=False) if link.training else felt, link.mix)
    bench = begin(played, Given(salt=link.drawn_by, seed=link.seed, key=key))
    opening = Opening(
        visit=visit(),
        name=None,
        link=link.code,
        exercise=link.exercise,
        played=write_part(played),
        own=write_part(exercise) if own else None,
        proof=proof_of(bench),
    )
    keeping = Keeping(opening=opening, name=None)
    stand = Stand(name=fresh_name(), bench=bench, keeping=keeping)
    return Sitting(link=link, stand=stand, keeping=keeping, own=exercise if own else None)


def go_on_with(kept: KeptBench) -> Sitting:
    """Return a bench of the record as it was left.

    Raises:
        CannotPlayBack: its acts do not lead back to it; RecordError: the record could not be read.
    """
    there = take_up(kept.id)
    number = len(there.bench.log)
    keeping = Keeping(opening=kept.opening, name=kept.opening.name, id=kept.id, number=number)
    stand = Stand(name=fresh_name(), bench=there.bench, own_words=there.own_words, keeping=keeping)
    try:
        own = read_part(Exercise, kept.opening.own, name="the exercise kept") if kept.opening.own else None
    except InputProblems as error:
        raise CannotPlayBack(f"its exercise cannot be read: {error}") from error
    link = read_link(kept.opening.link)
    return Sitting(link=link, stand=stand, keeping=keeping, own=own, resumed_at=number)


def _scattered_as_measured(exercise: Exercise) -> Exercise:
    """Return an exercise felt as by the measured hand of the name typed, where it leaves the scatter as assumed.

    What a class was given is felt by all alike. A record that cannot be read keeps nobody from practising.
    """
    name = typed_name()
    if name is None or exercise.scatter != Scatter():
        return exercise
    with suppress(RecordError):
        measured = latest_thresholds(name, Database())
        return exercise.replace(scatter=scatter_of_hand(exercise.scatter, measured))
    return exercise
