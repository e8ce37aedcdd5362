"""Counts that cannot all be so, whatever the hub: what the locknut, the clamp and a hand cannot do.

Expected are laws of the joint (locknut and clamp take off end play, never add any; a hub that drags has no play there)
and the stated errors of a hand, worked by hand.
"""

from collections.abc import Sequence

import numpy as np
import pytest

from conemodel.base.units import MINUTE
from conemodel.parts.library import SCENARIOS
from conemodel.parts.real_hub import State
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.real_hub.fit import Fitted, fit_real_hub
from conemodel.tasks.real_hub.own_hand import own_threshold
from conemodel.tasks.real_hub.readings import Felt
from conemodel.tasks.real_hub.told import QUANTITIES, what_is_told
from conemodel.tasks.real_hub.unknown_hub import unknown_hub

REAR = load_scenario(SCENARIOS / "touring-rear.toml")
Counts = tuple[Sequence[float], Sequence[float]]


def fit(loose: Counts = ((), ()), locked: Counts = ((), ()), clamped: Counts = ((), ())) -> Fitted:
    """Fit counts of play and of drag [min] in each state."""
    rows: dict[State, Counts] = {"nut loose": loose, "locked": locked, "clamped": clamped}
    step = MINUTE.to_si(1.0)
    readings: list[Felt] = []
    for state, (play, drag) in rows.items():
        readings += (Felt(what="play", state=state, count=MINUTE.to_si(at), step=step) for at in play)
        readings += (Felt(what="drag", state=state, count=MINUTE.to_si(at), step=step) for at in drag)
    return fit_real_hub(REAR, readings)


def kinds(fitted: Fitted) -> list[str]:
    return [each.kind for each in fitted.contradictions]


def told(fitted: Fitted) -> set[str]:
    return {name for name, one in what_is_told(fitted).items() if one.told}


def test_counts_of_one_thing_a_quarter_turn_apart_are_named_and_tell_nothing():
    fitted = fit(loose=((40, 55), (30,)))
    assert kinds(fitted) == ["repeated"]
    assert fitted.contradictions[0].readings == (0, 1)
    assert MINUTE.from_si(fitted.contradictions[0].apart) == pytest.approx(15)
    assert {0, 1} <= set(fitted.clash)
    assert not told(fitted)
    assert own_threshold(fitted) is None


def test_counts_that_a_hand_may_well_give_are_no_contradiction():
    # mark 2° and half a step of 6°/√12, twice: 3.7° between two counts, so that one minute of 6° is nothing at all
    assert not fit(loose=((2, 3), (0, -1)), locked=((8, 9), (6, 6)), clamped=((12, 12), (10, 9))).clash


def test_a_hand_that_feels_play_far_later_than_anybody_is_not_told():
    for counts in ((40.0,), (40.0, 40.0)):
        fitted = fit(loose=(counts, ()))
        assert kinds(fitted) == ["beyond"]
        assert not told(fitted)


@pytest.mark.parametrize(
    ("locked", "clamped", "wrong_way"),
    [(((9, 9), (7, 7)), ((9, 9), (7, 7)), False), (((9,), (6,)), ((5,), (3,)), True)],
    ids=["alike", "swapped"],
)
def test_a_clamp_that_takes_nothing_or_adds_play_is_named_and_has_no_number(locked, clamped, wrong_way):
    fitted = fit(loose=((2, 3), (0,)), locked=locked, clamped=clamped)
    assert kinds(fitted) == ["clamping"]
    assert (fitted.contradictions[0].apart < -1e-9) is wrong_way
    assert told(fitted) == {"felt_play", "felt_drag"}  # the locknut loose tells them, and nobody doubts it


def test_a_wrong_count_beside_swapped_rows_does_not_hide_them():
    fitted = fit(loose=((2, 3), (0,)), locked=((9, 20), (6,)), clamped=((5,), (3,)))
    assert kinds(fitted) == ["clamping", "repeated"]
    assert told(fitted) == {"felt_play", "felt_drag"}


def test_rows_swapped_at_the_locknut_are_named():
    assert kinds(fit(loose=((8,), (6,)), locked=((2,), (0,)))) == ["locking"]


@pytest.mark.parametrize(("state", "play", "drag"), [("loose", 3, 8), ("locked", 3, 12)])
def test_of_drag_past_play_neither_is_dropped_and_neither_is_used(state, play, drag):
    fitted = fit(**{state: ((play,), (drag,))})
    assert kinds(fitted) == ["drag past play"]
    assert fitted.clash == (0, 1)
    assert not any(each.left_out for each in fitted.readings)
    assert not told(fitted)


def test_one_of_two_counts_is_known_to_be_wrong_where_all_others_say_so():
    fitted = fit(loose=((2,), (0,)), locked=((8, 20), (6,)), clamped=((12,), (10,)))
    assert [each.left_out for each in fitted.readings] == [place == 3 for place in range(7)]
    assert not fitted.clash
    assert not fitted.contradictions


def test_near_the_end_of_what_is_assumed_an_interval_does_not_shrink():
    """Two bells, closed form: what is left of a spread s beside an error e is s·e/√(s² + e²), wherever they meet.

    A clamp that seems to take a minute and a half (25 µm) lies below all that is assumed of one.
    """
    fitted = fit(loose=((2, 2), (0, 0)), locked=((9, 9), (7, 7)), clamped=((10.5, 10.5), (8.5, 8.5)))
    of = QUANTITIES["clamp_give"].of
    assert not fitted.clash
    usual = fit(loose=((2, 2), (0, 0)), locked=((9, 9), (7, 7)), clamped=((12.5, 12.5), (10.5, 10.5)))
    near, middle = (one.interval(of).high - one.interval(of).low for one in (fitted, usual))
    assert near > 0.7 * middle


def test_what_is_guessed_goes_on_past_its_ends_without_a_step():
    hub = unknown_hub(REAR)
    z = np.zeros((4000, hub.size))
    z[:, list(hub.spreads).index("clamp_force")] = np.linspace(-4, 4, 4000)
    taken = hub.show(z).clamp_give
    steps = np.diff(np.log(taken))
    assert (steps > 0).all()
    assert steps.min() > 0.2 * steps.max()  # held between its ends it would come to a stop
    assert np.abs(np.diff(steps)).max() < 0.2 * steps.max()
