"""Many hubs against one hub at a time; chunks, seeds, shares and tools."""

from functools import cache

import numpy as np
import pytest

import conemodel as cm
from conemodel.parts.crowd import Crowd, crowd_of
from conemodel.solve.equilibrium.unloaded import solve_unloaded
from conemodel.solve.stages.terms import pair_of, setting_terms
from conemodel.tasks.population.drawn_inputs import COLUMNS, INPUTS
from conemodel.tasks.population.histograms import BackOffTally, Tally
from conemodel.tasks.population.lookup_tables import TIGHTEST, nodes_between, tables_of
from conemodel.tasks.population.sampling import evaluate_draws, kind_tables
from conemodel.tasks.population.sobol import what_matters
from conemodel.tasks.population.study import Cancelled, many_hubs
from conemodel.tasks.setting.assumptions import with_conformity
from conemodel.tasks.setting.good_range import window_of
from tests.tasks.population.populations import known, plain_sum, workshop


@pytest.fixture
def crowd() -> Crowd:
    return workshop()


@pytest.fixture
def linear() -> Crowd:
    return plain_sum()


def moved(crowd: Crowd, **fit: float) -> Crowd:
    threads = crowd.population.threads
    return crowd.replace(threads=threads.replace(fit=threads.fit.replace(**fit)))


# One of many is the same hub as one by itself.


@pytest.mark.parametrize("technique", ["nut turned", "cone turned out", "both"])
def test_each_of_many_hubs_has_the_end_play_of_that_hub_alone(crowd, technique):
    contact = "nut snug" if technique == "both" else "nut loose"
    hands = crowd.population.hands.replace(technique=technique, contact_found=contact)
    crowd = crowd.replace(hands=hands)
    many = evaluate_draws(crowd, np.random.default_rng(5).random((len(COLUMNS), 24)), back_off=1.2)
    fit = np.random.default_rng(5).random((len(COLUMNS), 24))[list(INPUTS).index("thread_fit")]
    for i, number in enumerate(many.kind):
        kind = crowd.kinds[number]
        low, high = kind.axle.pitch_clearance_range
        share = crowd.population.threads.fit.at(fit[i : i + 1])[0]
        axle = kind.axle.replace(
            thread_clearance=float(low + share * (high - low)),
            thread_core_share=float(many.thread_give[i]),
            thread_bridging=float(many.thread_bridging[i]),
        )
        friction = {
            "thread_friction": float(many.thread_friction[i]),
            "face_friction": float(many.face_friction[i]),
        }
        stack = kind.stack.replace(
            left=kind.stack.left.replace(**friction), right=kind.stack.right.replace(**friction)
        )
        alone = with_conformity(kind, float(many.groove[i])).replace(
            axle=axle,
            stack=stack,
            clamp=kind.clamp.replace(force=float(many.clamp_force[i]), pick_up=None, torque=None),
            setting=kind.setting.replace(
                back_off=float(many.back_off[i]),
                drift=float(many.drift[i]),
                finger_torque=float(many.finger_torque[i]),
                lock_torque=float(many.lock_torque[i]),
            ),
        )
        steps = setting_terms(alone)
        # the fingers' share is read from tables: 0.05 µm; every other term is the same sum
        assert many.end_play[i] == pytest.approx(steps.end_play("clamped"), abs=0.05e-6)
        window = window_of(alone)
        assert many.loose_edge[i] == pytest.approx(window.loose_edge, abs=0.05e-6)
        assert many.tight_edge[i] == pytest.approx(window.tight_edge, abs=0.3e-6)


def test_preload_and_pressure_of_many_are_those_of_the_solver(crowd):
    """Tables with three nodes a side against a solution for each hub: within one part in a hundred."""
    many = evaluate_draws(crowd, np.random.default_rng(6).random((len(COLUMNS), 12)), back_off=0.3)
    for i, number in enumerate(many.kind):
        kind = with_conformity(crowd.kinds[number], float(many.groove[i]))
        kind = kind.replace(
            axle=kind.axle.replace(
                thread_core_share=float(many.thread_give[i]), thread_bridging=float(many.thread_bridging[i])
            )
        )
        alone = solve_unloaded(pair_of(kind), many.end_play[i : i + 1])
        assert many.preload[i] == pytest.approx(alone.preload.mean(), rel=0.01)
        worst = max(row.cone_pressure.max() for row in (alone.left, alone.right))
        assert many.cone_pressure[i] == pytest.approx(worst, rel=0.005)
    assert many.preload.max() > 100


def test_a_loose_hub_has_no_preload_and_one_beyond_the_tables_says_so(crowd):
    loose = evaluate_draws(crowd, np.full((len(COLUMNS), 1), 0.5), back_off=3.0)
    assert (loose.preload[0], loose.cone_pressure[0], loose.state[0]) == (0.0, 0.0, 1)
    tight = evaluate_draws(crowd, np.full((len(COLUMNS), 1), 0.5), back_off=-6.0)
    assert tight.end_play[0] < TIGHTEST
    assert tight.beyond[0]


# Samples, seeds and chunks.


@cache
def small(crowd: Crowd, hubs: int = 6000, seed: int = 1, chunk: int = 20_000):
    return many_hubs(crowd, hubs=hubs, seed=seed, chunk=chunk)


def test_chunks_do_not_change_a_single_number(crowd):
    whole, parts = small(crowd), small(crowd, chunk=701)
    assert parts.all.shares == whole.all.shares
    assert parts.all.end_play == whole.all.end_play
    assert parts.all.preload == whole.all.preload
    assert parts.tools == whole.tools
    assert [kind.curve.best for kind in parts.kinds] == [kind.curve.best for kind in whole.kinds]
    np.testing.assert_array_equal(parts.all.spread.counts, whole.all.spread.counts)


def test_the_same_seed_gives_the_same_numbers_and_another_others(crowd):
    again = many_hubs(crowd, hubs=6000, seed=1)
    assert again.all.end_play == small(crowd).all.end_play
    assert small(crowd, seed=2).all.end_play != small(crowd).all.end_play


def test_shares_sum_to_one_for_all_and_for_each_kind(crowd):
    result = small(crowd)
    for group in (result.all, *result.kinds):
        assert group.shares.loose + group.shares.right + group.shares.tight == pytest.approx(1.0, abs=1e-12)
        curve = group.curve
        np.testing.assert_allclose(curve.loose + curve.right + curve.tight, 1.0, atol=1e-12)
    assert sum(group.number for group in result.kinds) == result.all.number == 6000


def test_the_curve_passes_through_the_shares_of_the_back_off_that_was_asked(crowd):
    result = small(crowd)
    place = int(np.argmin(np.abs(result.all.curve.angle - result.back_off)))
    assert result.all.curve.right[place] == pytest.approx(result.all.shares.right, abs=2e-3)
    assert result.all.curve.loose[place] == pytest.approx(result.all.shares.loose, abs=2e-3)


def test_less_slack_leaves_more_hubs_loose(crowd):
    """The locknut takes up the slack, which tightens: law of the sum."""
    tight, loose = small(moved(crowd, high=0.3)), small(moved(crowd, low=0.7))
    assert tight.all.shares.loose > small(crowd).all.shares.loose > loose.all.shares.loose
    assert tight.all.shares.tight < loose.all.shares.tight


def test_convergence_with_the_size_of_the_sample(crowd):
    """The share of right hubs settles as 1/sqrt(n): within four standard errors of a large sample at every size."""
    large = many_hubs(crowd, hubs=200_000, seed=99).all
    for hubs in (500, 2000, 8000, 32_000):
        group = many_hubs(crowd, hubs=hubs, seed=3).all
        assert abs(group.shares.right - large.shares.right) < 4 * group.standard_error + 1e-9
    assert large.standard_error < 0.001


def test_progress_is_told_and_a_study_can_be_stopped(crowd):
    told: list[float] = []
    many_hubs(crowd, hubs=1000, chunk=300, progress=told.append)
    assert told == [0.3, 0.6, 0.9, 1.0]
    with pytest.raises(Cancelled):
        many_hubs(crowd, hubs=1000, chunk=300, progress=told.append, stop=lambda: len(told) >= 6)
    assert len(told) == 6
    with pytest.raises(Cancelled):
        what_matters(crowd, sample=64, stop=lambda: True)


# Tools.


def test_a_tool_without_error_takes_its_own_spread_away(linear):
    """With slack alone unknown, a faultless feeler leaves nothing to chance; so does a key with drift."""
    tools = linear.population.tools
    exact = tools.replace(
        feeler=tools.feeler.replace(low=0.0, high=0.0),
        keyed_washer=tools.keyed_washer.replace(low=0.0, high=0.0),
    )
    for spread, tool in (("fit", "feeler"), ("drift", "keyed_washer")):
        only = crowd_of(known(linear.population.replace(tools=exact), (spread,)), linear.kinds)
        reached = {t.name: t.right for t in many_hubs(only, hubs=500).tools}
        assert reached[tool] == 1.0
    assert reached["none"] >= 0.9  # drift alone is narrower than the good range


def test_a_dial_gauge_leaves_only_its_own_error_and_the_second_locking(linear):
    tools = linear.population.tools
    exact = linear.population.replace(
        tools=tools.replace(dial_gauge=tools.dial_gauge.replace(low=0.0, high=0.0))
    )
    slack = crowd_of(known(exact, ("fit", "quick_release")), linear.kinds)
    assert many_hubs(slack, hubs=500).tools[-1].right == 1.0
    blunt = exact.replace(tools=tools.replace(dial_gauge=tools.dial_gauge.replace(low=-1e-4, high=1e-4)))
    assert many_hubs(crowd_of(blunt, linear.kinds), hubs=2000).tools[-1].right < 0.6


# Counting.


def test_a_tally_has_the_quantiles_of_its_numbers():
    values = np.random.default_rng(4).normal(0.0, 1.0, 50_000)
    tally = Tally(1, low=-6.0, high=6.0, bins=12_000)
    tally.add(np.zeros(values.size, dtype=np.int64), values)
    shares = (0.01, 0.5, 0.99)
    found = tally.quantiles(np.array([True]), shares)
    np.testing.assert_allclose([found[s] for s in shares], np.quantile(values, shares), atol=2e-3)  # two bins


def test_a_back_off_tally_counts_what_a_loop_counts():
    random = np.random.default_rng(8)
    low = random.uniform(-1.0, 3.0, 400)
    high = low + random.uniform(-0.1, 0.5, 400)
    tally = BackOffTally(1)
    tally.add(np.zeros(400, dtype=np.int64), low, high)
    curve = tally.curve(np.array([True]))
    for i in range(0, len(curve.angle), 30):
        angle = curve.angle[i]
        assert curve.right[i] == np.mean((low <= angle) & (angle <= high))
        assert curve.loose[i] == np.mean(angle > high)


def test_nodes_of_a_known_number_are_that_number(crowd):
    assert nodes_between(0.56, 0.56) == (0.56,)
    table = tables_of(crowd.kinds[0].with_setting(back_off=0.0), grooves=(0.56,), core_shares=(0.4,))
    one = np.array([0.56]), np.array([0.4])
    assert table.window(*one)[1][0] == pytest.approx(cm.predict(crowd.kinds[0]).window.loose_edge, abs=1e-12)
    assert kind_tables(crowd, 0).grooves == pytest.approx((0.54, 0.57, 0.6))
