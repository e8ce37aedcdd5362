"""A hint that is asked for says where the hub stands, and of one to be named not what it is; the project's own laws."""

from typing import Any

import pytest

from conemodel.tasks.practice.actions import Answer, Rock
from conemodel.tasks.practice.hint_asked import LOCK_FIRST, NO_SETTING, hint_asked
from tests.tasks.practice.hands import do
from tests.tasks.practice.hubs import bench_of, framed

ON_SPACERS: dict[str, Any] = {"start": "locked", "seat": "spacers on locknuts", "assessed": False}


@pytest.mark.parametrize(
    ("share", "words"), [(0.5, "In the good range."), (2.0, "Too loose: "), (-1.0, "Too tight: ")]
)
def test_a_locked_hub_is_told_where_it_stands(share, words):
    assert hint_asked(framed(bench_of(**ON_SPACERS), share)).startswith(words)


def test_a_loose_locknut_and_a_fault_are_told_as_that():
    assert hint_asked(bench_of(assessed=False)) == LOCK_FIRST
    assert hint_asked(bench_of(prior={"faults": ("dents",)}, **ON_SPACERS)) == NO_SETTING


def test_the_hint_on_a_hub_to_be_named_is_the_same_for_all_of_them():
    states = ("loose", "right", "tight")
    asked: dict[str, Any] = {"kind": "name", "questions": ("name",)}
    assert (
        len({hint_asked(bench_of(prior={"states": (state,)}, **asked, **ON_SPACERS)) for state in states})
        == 1
    )


def test_in_training_the_right_answer_follows_the_one_that_was_given():
    asked: dict[str, Any] = {"kind": "name", "questions": ("flex",), "prior": {"states": ("loose",)}}
    for assessed, told in ((False, "Noted. It is: play."), (True, "Noted.")):
        bench = bench_of(**asked, **(ON_SPACERS | {"assessed": assessed}))
        assert do(bench, Rock(), Answer("flex", "flex")).log[-1].told == told
