"""Naming a hub loose, right or tight: when it may be named, and false words counted apart."""

from dataclasses import replace
from typing import Any

from conemodel.tasks.practice.actions import Answer, CloseClamp, Judge, OpenClamp, Rock, Take, Twirl
from conemodel.tasks.practice.apply import act
from conemodel.tasks.practice.marking import mark
from tests.tasks.practice.hands import do
from tests.tasks.practice.hubs import bench_of

ON_SPACERS: dict[str, Any] = {"start": "locked", "seat": "spacers on locknuts"}

FEEL = (Rock("rim", brisk=True), Twirl(full_turn=True))
"""What must come before a hub is named."""


def test_a_hub_is_not_named_before_it_was_rocked_and_twirled():
    """Rocking alone cannot tell right from too tight: common practice, no source."""
    bench = bench_of(kind="name", questions=("name",), prior={"states": ("right",)}, **ON_SPACERS)
    for felt in ((), FEEL[:1], FEEL[1:]):
        refused = act(do(bench, *felt), Answer("name", "right"))
        assert refused.log[-1].refused
        assert "Rock it and twirl it" in refused.log[-1].told
    flex = bench_of(kind="name", questions=("flex",), prior={"states": ("right",)}, **ON_SPACERS)
    assert act(flex, Answer("flex", "flex")).log[-1].refused
    assert not act(do(flex, FEEL[0]), Answer("flex", "flex")).log[-1].refused


def test_false_right_and_false_wrong_are_counted_apart():
    bench = bench_of(kind="name", questions=("name",), prior={"states": ("tight",)}, **ON_SPACERS)
    result = mark(do(bench, *FEEL, Answer("name", "right")))
    assert (result.false_right, result.false_wrong, result.passed) == (1, 0, False)
    bench = bench_of(kind="name", questions=("name",), prior={"states": ("right",)}, **ON_SPACERS)
    result = mark(do(bench, *FEEL, Answer("name", "loose")))
    assert (result.false_right, result.false_wrong) == (0, 1)
    assert mark(do(bench, *FEEL, Answer("name", "right"))).passed


def test_one_tight_hub_called_right_fails_however_many_are_needed():
    prior = {"states": ("tight", "right")}
    bench = bench_of(kind="name", questions=("name",), hubs=4, needed=1, prior=prior, **ON_SPACERS)
    for number, secret in enumerate(bench.hidden):
        bench = do(bench, Take(number), *FEEL, Answer("name", secret.state))
    assert mark(bench).passed
    tight = next(n for n, secret in enumerate(bench.hidden) if secret.state == "tight")
    hub = replace(bench.hubs[tight], answers=(("name", "right"),))
    wrong = replace(bench, hubs=(*bench.hubs[:tight], hub, *bench.hubs[tight + 1 :]))
    assert mark(wrong).right == 3
    assert not mark(wrong).passed


def test_a_hub_is_not_named_by_what_it_is_like_with_the_clamp_open():
    bench = bench_of(kind="name", questions=("name",), prior={"states": ("right",)}, **ON_SPACERS)
    opened = do(bench, OpenClamp(), *FEEL)
    assert act(opened, Answer("name", "right")).log[-1].refused
    half = do(opened, CloseClamp(), Rock())
    assert act(half, Answer("name", "right")).log[-1].refused
    assert not act(do(half, Twirl()), Answer("name", "right")).log[-1].refused
    flex = bench_of(kind="name", questions=("flex",), prior={"states": ("right",)}, **ON_SPACERS)
    assert act(do(flex, OpenClamp(), Rock()), Answer("flex", "flex")).log[-1].refused


def test_the_hint_of_a_named_hub_says_what_was_said_and_what_it_was_and_nothing_twice():
    """“Right” is one of the three answers, so a hub is not called right for having been named as it was."""
    bench = bench_of(kind="name", questions=("name",), prior={"states": ("loose",)}, **ON_SPACERS)
    named = mark(do(bench, *FEEL, Answer("name", "loose")))
    assert (named.hubs[0].hint, named.hint) == ("You said loose. It was loose.", "")
    missed = mark(do(bench, *FEEL, Answer("name", "tight")))
    assert missed.hint.startswith("You said tight. It was loose: rocked clamped it moves freely")


def test_who_was_not_asked_how_sure_said_no_place_on_the_line():
    assert Judge(0.0, None).words == "said it is right"
    assert Judge(0.7, None).words == "said it is tight"
    assert Judge(0.0, "sure").words == "said it is right, in the middle (sure)"
