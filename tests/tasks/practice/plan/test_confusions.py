"""What is mixed up: counted whole, and dealt more often. The laws are sums, and for the dealing chi-squared (scipy)."""

from collections import Counter

import pytest
from scipy.stats import chisquare

from conemodel.base.errors import InputProblems
from conemodel.tasks.practice.actions import Answer, InWords, Rock, Take, Twirl
from conemodel.tasks.practice.catalogue import ladder, read_link
from conemodel.tasks.practice.hidden_hub import Given, begin
from conemodel.tasks.practice.marking import mark
from conemodel.tasks.practice.plan.checked_run import CheckedRun, checked_run
from conemodel.tasks.practice.plan.confusions import MOST_CARDS, RECENT, confusions, deal_by, mix_of
from conemodel.tasks.practice.plan.hub_result import HubResult, hub_results
from tests.tasks.practice.hands import do
from tests.tasks.practice.hubs import bench_of, open_link

NAMING, FLEX, FAULT, LOCKNUT = (
    ladder()[name] for name in ("02-loose-right-tight", "03-play-or-flex", "11-what-is-wrong", "04-locknut")
)


def named(said: str, truth: str, question: str = "name") -> HubResult:
    return HubResult(passed=said == truth, checked=True, question=question, said=said, truth=truth)


MIXES_RIGHT_AND_TIGHT = [named("right", "tight"), named("tight", "right"), *[named("loose", "loose")] * 6]


def dealt(mix: str, links: int = 30) -> Counter[str]:
    """Which kinds of hub a person is dealt over many links."""
    exercise, found = deal_by(NAMING, mix), Counter[str]()
    for seed in range(links):
        bench = begin(exercise, Given(salt="self", seed=1000 * seed + 7, key="k"))
        found.update(secret.state for secret in bench.hidden)
    return found


def test_who_mixes_two_kinds_meets_both_more_often():
    mix = mix_of(NAMING, MIXES_RIGHT_AND_TIGHT)
    assert mix == "0111222"  # loose once, right and tight one more for each of two mistakes
    found = [dealt(mix)[state] for state in NAMING.prior.states]
    assert chisquare(found).pvalue < 1e-6  # never an even draw
    cards = [sum(found) * mix.count(place) / len(mix) for place in "012"]
    assert chisquare(found, cards).pvalue > 0.05


def test_who_mixes_nothing_up_is_dealt_evenly():
    assert mix_of(NAMING, [named("loose", "loose")] * 9) == ""
    assert mix_of(NAMING, []) == ""
    assert chisquare(list(dealt("").values())).pvalue > 0.5  # dealt in turns, so evener than by chance


def test_old_mistakes_are_forgotten_and_no_kind_goes_out_of_sight():
    assert mix_of(NAMING, [*MIXES_RIGHT_AND_TIGHT, *[named("right", "right")] * RECENT]) == ""
    mix = mix_of(NAMING, [named("right", "tight")] * RECENT)
    assert {mix.count(place) for place in "012"} == {1, MOST_CARDS}


def test_only_hubs_that_are_named_are_weighted_and_by_their_own_question():
    assert mix_of(LOCKNUT, MIXES_RIGHT_AND_TIGHT) == ""
    assert mix_of(FAULT, MIXES_RIGHT_AND_TIGHT) == ""
    bent = [named("odd ball", "bent axle", "fault")]
    exercise = deal_by(FAULT, mix_of(FAULT, bent))
    assert Counter(exercise.prior.faults) == Counter(
        {"none": 1, "bent axle": 2, "dents": 1, "dry grease": 1, "odd ball": 2}
    )
    assert mix_of(FLEX, [named("play", "flex", "flex")]) == ""  # there are but two: both, as often


def test_a_link_carries_its_mix_and_one_that_names_no_kind_is_refused():
    link = read_link("02-loose-right-tight.self.3.training.mix0112")
    assert (link.mix, link.training, link.code) == (
        "0112",
        True,
        "02-loose-right-tight.self.3.training.mix0112",
    )
    with pytest.raises(InputProblems, match="mix"):
        deal_by(NAMING, "0193")
    assert deal_by(NAMING, "") is NAMING


def test_the_table_has_every_answer_once():
    hubs = [
        *MIXES_RIGHT_AND_TIGHT,
        named("play", "flex", "flex"),
        HubResult(passed=True, checked=True),
        HubResult(passed=False, checked=True, question="name", said=None, truth="loose"),
    ]
    tables = {found.question: found for found in confusions(hubs)}
    assert set(tables) == {"name", "flex"}  # what was not asked has no table
    assert tables["name"].named == len(MIXES_RIGHT_AND_TIGHT)
    assert tables["name"].wrong == 2
    assert sum(found.named for found in tables.values()) == sum(hub.named for hub in hubs)
    assert all(said in found.answers for found in tables.values() for said, _ in found.counts)


def test_what_was_said_at_the_bench_is_what_is_kept():
    prior = {"states": ("tight", "right")}
    bench = bench_of(
        kind="name",
        start="locked",
        seat="spacers on locknuts",
        questions=("name",),
        hubs=2,
        needed=2,
        prior=prior,
    )
    for number in range(2):
        bench = do(
            bench, Take(number), Rock("rim", brisk=True), Twirl(full_turn=True), Answer("name", "right")
        )
    results = hub_results(bench, mark(bench))
    assert [hub.said for hub in results] == ["right", "right"]
    assert [hub.truth for hub in results] == [secret.state for secret in bench.hidden]
    assert [hub.passed for hub in results] == [hub.truth == "right" for hub in results]
    assert all(hub.checked for hub in results)
    unnamed = bench_of(start="locked", seat="spacers on locknuts")
    assert hub_results(unnamed, mark(unnamed))[0].question is None


def test_the_run_counts_right_and_checked_and_ends_with_what_is_wrong():
    right, wrong = HubResult(passed=True, checked=True), HubResult(passed=False, checked=True)
    touch = HubResult(passed=True, checked=False)
    assert checked_run([right, right, wrong, right]) == CheckedRun(1, 2)
    assert checked_run([right, touch, right]) == CheckedRun(2, 2)
    assert checked_run([right, wrong]) == CheckedRun(0, 1)
    assert checked_run([]) == CheckedRun(0, 0)


def test_a_run_says_how_many_of_its_hubs_were_read_in_words():
    felt, read = HubResult(passed=True, checked=True), HubResult(passed=True, checked=True, worded=True)
    wrong = HubResult(passed=False, checked=True)
    assert checked_run([felt, *[read] * 7]) == CheckedRun(8, 8, 7, 7)
    assert checked_run([read, read, felt, wrong, felt]) == CheckedRun(1, 3, 0, 2)


def test_a_hub_is_read_where_words_were_there_before_the_last_word_on_it():
    bench = open_link("02-loose-right-tight.read.1")
    feel = (Rock(), Twirl())
    bench = do(bench, *feel, Answer("name", "right"), Take(1), InWords(), *feel, Answer("name", "right"))
    bench = do(bench, Take(2), InWords(on=False), *feel, Answer("name", "right"))
    bench = do(bench, Take(3), *feel, InWords(), Answer("name", "right"))
    read = [hub.worded for hub in hub_results(bench, mark(bench))]
    assert read == [False, True, False, True, *[False] * 4]
