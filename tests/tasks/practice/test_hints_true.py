"""What a hint says was done wrong was done wrong: 300 attempts at random, each hint held to its own record of acts.

Every sentence must be known to `hint_sentences`, with what has to be true for it to be said.
"""

import re
from collections import Counter
from random import Random

import pytest

from conemodel.tasks.practice.catalogue import ladder
from conemodel.tasks.practice.marking import ExerciseMark, mark
from tests.tasks.practice.attempts import Attempt, attempt
from tests.tasks.practice.hint_sentences import TRUE
from tests.tasks.practice.hub_record import HubRecord
from tests.tasks.practice.hubs import open_link

SET = [name for name, one in ladder().items() if one.kind == "set"]
JUDGED = [name for name in ladder() if name not in SET]
NAMES = [*(SET * 30)[:264], *(JUDGED * 9)]
"""300 attempts; those that judge many hubs are slow to feel."""


@pytest.fixture(scope="module")
def attempts() -> list[tuple[Attempt, ExerciseMark]]:
    made = (attempt(open_link(f"{name}.hints.{seed}"), Random(seed)) for seed, name in enumerate(NAMES))
    return [(one, mark(one.bench)) for one in made]


def test_every_hint_is_true_of_what_was_done(attempts: list[tuple[Attempt, ExerciseMark]]) -> None:
    assert len(attempts) == 300
    said: Counter[str] = Counter()
    for made, result in attempts:
        for marked in result.hubs:
            found = {words: match for words in TRUE if (match := re.fullmatch(words, marked.hint))}
            words = next(iter(found), "")
            assert words, marked.hint
            assert TRUE[words](HubRecord(made, marked), found[words]), (made.bench.exercise.name, marked.hint)
            said[words] += 1
    assert len(said) >= 35, sorted(said)


def test_no_turn_is_named_for_a_hub_that_no_setting_cures(
    attempts: list[tuple[Attempt, ExerciseMark]],
) -> None:
    faulty = [
        (made.bench.exercise.questions, marked)
        for made, result in attempts
        for marked in result.hubs
        if HubRecord(made, marked).incurable
    ]
    assert len(faulty) > 30
    for questions, marked in faulty:
        assert "trip it and look" in marked.hint or "Strip it" in marked.hint
        feel = "" if "fault" in questions else "|rock it|twirl it"
        assert not re.search(rf"minute|°|bring|hold the cone{feel}", marked.hint)


def test_the_hint_of_an_attempt_is_one_of_its_hubs_and_none_that_passed_where_one_did_not(
    attempts: list[tuple[Attempt, ExerciseMark]],
) -> None:
    for made, result in attempts:
        if not result.hint:  # every hub was named as it was: the headline says so
            assert made.bench.exercise.kind == "name"
            assert all(hub.passed for hub in result.hubs)
            continue
        mine = [hub for hub in result.hubs if result.hint.endswith(hub.hint)]
        assert mine
        assert any(not hub.passed for hub in mine) or all(hub.passed for hub in result.hubs)
        assert any(hub.stage == result.stage for hub in mine)
