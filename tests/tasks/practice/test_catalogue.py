"""The ladder: twelve exercises that can be passed by feel, not by rote, each the same for the same link."""

import re
from collections import Counter
from dataclasses import replace

import pytest

from conemodel.base.errors import InputProblems
from conemodel.parts.exercise import Exercise
from conemodel.parts.toml_files import read_part, write_part
from conemodel.tasks.practice.actions import Rock, TakeBack, Twirl
from conemodel.tasks.practice.apply import act
from conemodel.tasks.practice.catalogue import EXERCISES, class_links, ladder, read_link
from conemodel.tasks.practice.hidden_hub import Given, begin, reference
from conemodel.tasks.practice.hub_terms import end_play_of, in_frame, window_for
from conemodel.tasks.practice.marking import mark
from tests.tasks.practice.hands import do
from tests.tasks.practice.hubs import open_link
from tests.tasks.practice.players import Player, careful, quarter_turn

NAMES = [name for name, exercise in ladder().items() if exercise.number]
BY_ROTE = [name for name in NAMES if 4 <= ladder()[name].number <= 9]


def test_there_are_twelve_numbered_in_order_and_free_practice_beside():
    numbers = [exercise.number for exercise in ladder().values()]
    assert numbers == [*range(1, 13), *[0] * (len(numbers) - 12)]
    assert len({exercise.name for exercise in ladder().values()}) == len(numbers)
    assert not ladder()["free-practice"].assessed


@pytest.mark.parametrize("name", list(ladder()))
def test_an_exercise_reads_back_as_it_is_written(name):
    exercise = ladder()[name]
    assert read_part(Exercise, write_part(exercise), name="x.toml") == exercise


def test_mistakes_in_an_exercise_file_are_named_by_line():
    text = (EXERCISES / "12-the-whole-job.toml").read_text()
    wrong = text.replace("most_locks = 3", "most_locks = -1").replace("[4000, 7000]", "[7000, 4000]")
    with pytest.raises(InputProblems) as caught:
        read_part(Exercise, wrong.replace("drift_deg", "drift_degr"), name="mine.toml")
    said = str(caught.value)
    assert re.search(r"mine\.toml:\d+: most_locks = -1", said)
    assert re.search(r"mine\.toml:\d+: prior\.clamp_force_n", said)
    assert "did you mean drift_deg" in said


@pytest.mark.parametrize("name", list(ladder()))
def test_a_link_gives_the_same_hubs_each_time_and_another_seed_or_class_others(name):
    one, same = open_link(f"{name}.class.5"), open_link(f"{name}.class.5")
    assert one == same
    others = [open_link(f"{name}.class.6"), open_link(f"{name}.other.5")]
    others.append(open_link(f"{name}.class.5", key="of this server"))
    forces = {bench.hidden[0].scenario.clamp.force for bench in (one, *others)}
    assert len(forces) == 4


def test_hubs_of_one_exercise_differ():
    bench = open_link("02-loose-right-tight.class.1")
    assert len({hub.scenario.clamp.force for hub in bench.hidden}) == 8
    assert {hub.state for hub in bench.hidden} == {"loose", "right", "tight"}


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("first", [1, 7])
def test_every_kind_of_hub_occurs_in_the_links_of_a_class(name, first):
    """Twelve trainees, a link each; and every round of several hubs holds every kind, or none twice."""
    exercise, met = ladder()[name], Counter[tuple[str, str]]()
    for code in class_links(name, salt="evening", first=first, count=12):
        link = read_link(code)
        hidden = begin(exercise, Given(salt=link.salt, seed=link.seed, key="of this server")).hidden
        own = Counter((hub.state, hub.fault) for hub in hidden)
        kinds = len(exercise.prior.states) * len(exercise.prior.faults)
        assert exercise.last_differs or len(own) == min(kinds, exercise.hubs)
        assert max(own.values()) - min(own.values()) <= 2
        met += own
    every = {
        (s, f)
        for p in (exercise.prior, exercise.prior_of(exercise.hubs - 1))
        for s in p.states
        for f in p.faults
    }
    assert set(met) == every


@pytest.mark.parametrize("name", [n for n in NAMES if ladder()[n].start == "locked"])
@pytest.mark.parametrize("seed", range(5))
def test_a_hub_drawn_as_loose_right_or_tight_is_that_in_the_frame(name, seed):
    for secret in open_link(f"{name}.class.{seed}").hidden:
        end = end_play_of(secret, in_frame(secret, secret.start))
        assert window_for(secret, secret.start).state(end) == secret.state


@pytest.mark.parametrize("seed", range(20))
def test_drawn_numbers_lie_in_the_ranges_the_file_states(seed):
    exercise = ladder()["06-axle-nuts"]
    (secret,) = begin(exercise, Given(salt="x", seed=seed)).hidden
    prior = exercise.prior
    assert prior.clamp_force[0] <= (secret.scenario.clamp.force or 0.0) <= prior.clamp_force[1]
    assert prior.thread_clearance is not None
    low, high = prior.thread_clearance
    assert low <= (secret.scenario.axle.thread_clearance or 0.0) <= high


@pytest.mark.parametrize("code", ["", "x", "04-locknut.a", "04-locknut.a.-1", "../x.a.1", "04-locknut.a b.1"])
def test_a_code_that_is_no_link_is_refused(code):
    with pytest.raises(InputProblems):
        read_link(code)


def test_a_set_of_links_for_a_class_carries_nothing_hidden():
    codes = class_links("04-locknut", salt="evening", first=3, count=20)
    assert len(set(codes)) == 20
    assert all(re.fullmatch(r"04-locknut\.evening\.\d+", code) for code in codes)
    with pytest.raises(InputProblems):
        class_links("04-locknut", salt="no spaces please", count=1)


def passes(name: str, player: Player, seeds: int, *, salt: str = "careful") -> float:
    """The share of benches that a player passes."""
    return sum(mark(player(open_link(f"{name}.{salt}.{seed}"))).passed for seed in range(seeds)) / seeds


@pytest.mark.parametrize("name", NAMES)
def test_a_careful_player_passes_by_feel_alone(name):
    """By a hand that scatters as is stated, and feels often enough: more than four times in five."""
    assert passes(name, careful, 4 if name.startswith("11") else 10) > 0.7


def test_a_quarter_turn_by_rote_passes_fewer_than_three_in_ten():
    passed = [mark(quarter_turn(open_link(f"{name}.rote.{s}"))).passed for name in BY_ROTE for s in range(15)]
    assert 0 < sum(passed) < 0.3 * len(passed)


@pytest.mark.slow
@pytest.mark.parametrize("name", NAMES)
def test_a_careful_player_passes_more_than_four_in_five_of_two_hundred_seeds(name):
    assert passes(name, careful, 40 if name.startswith("11") else 200, salt="many") > 0.8


def test_reference_hubs_are_loose_right_and_tight_and_for_practice_only():
    free = ladder()["free-practice"]
    felt = {}
    for state in ("loose", "right", "tight"):
        bench = reference(free, state)
        end = end_play_of(bench.secret, in_frame(bench.secret, bench.hub))
        assert window_for(bench.secret, bench.hub).state(end) == state
        felt[state] = tuple(event.told for event in do(bench, Rock(), Twirl()).log)
    assert len(set(felt.values())) == 3
    with pytest.raises(InputProblems, match="assessed"):
        reference(ladder()["04-locknut"], "right")


def test_the_whole_ladder_is_assessed():
    for name in NAMES:
        bench = open_link(f"{name}.x.1")
        assert bench.exercise.assessed
        assert act(do(bench, Rock()), TakeBack()).log[-1].refused


def test_an_exercise_of_ones_own_may_have_its_last_hub_from_another_prior():
    exercise = ladder()["10-worn-thread"]
    bench = begin(exercise, Given(salt="x", seed=1))
    assert [secret.fault for secret in bench.hidden] == ["none", "thread worn out"]
    same = begin(replace_last(exercise), Given(salt="x", seed=1))
    assert [secret.fault for secret in same.hidden] == ["none", "none"]
    assert replace(bench, current=1).secret.fault == "thread worn out"


def replace_last(exercise: Exercise) -> Exercise:
    return exercise.replace(last_differs=False)
