"""What fingers and the hand on a spanner meet, run in Chromium: lag without an end, clicks, rasp and creak.

Closed forms of mechanics: a wheel slowed by a torque, and the law of a spring solved for its stretch. That what is
felt of a torque goes with its logarithm is Fechner's law; that a finger's pulp stiffens as it is pressed is common
knowledge of tissue, from memory.
"""

from itertools import pairwise
from math import degrees, log, pi, radians, sin

import pytest

from conemodel.tasks.practice.catalogue import ladder
from conemodel.tasks.practice.hidden_hub import reference
from conemodel.tasks.practice.torque_feel import resist, twirl_feel
from conemodel.ui.practice.first_hub import FREE
from conemodel.ui.widgets.contract_turning import TurnResist
from conemodel.ui.widgets.contract_twirl import TwirlHand
from tests.tasks.practice.hubs import bench_of


def test_a_let_go_axle_coasts_on_its_momentum_and_a_tight_one_stops_dead(feel):
    code = """([level]) => {
        const grit = { amplitude: 0, per_turn: 0, seed: 1 };
        const axle = F.makeTwirl({ friction: [level], dents: [0], span: 6.28, grease: 2e-6, inertia: 1e-5,
            firm: 0.1, give: 0.6, slip: 0.2, grit });
        const s = F.restTwirl(0);
        s.speed = 12;
        let time = 0;
        for (; s.speed && time < 9; time += F.STEP) F.stepTwirl(axle, s, null);
        return time;
    }"""
    for level in (1e-3, 3e-2):
        want = 1e-5 / 2e-6 * log(1 + 2e-6 * 12 / level)
        assert feel(code, [level]) == pytest.approx(want, rel=0.01, abs=0.0003)


def test_a_tight_axle_lags_behind_the_fingers_by_its_drag(feel):
    # Fingers of the law M = firm (exp(lag / give) - 1), solved for the lag.
    code = """() => {
        const grit = { amplitude: 0, per_turn: 0, seed: 1 };
        const axle = F.makeTwirl({ friction: [0.03], dents: [0], span: 6.28, grease: 0, inertia: 1e-5,
            firm: 0.1, give: 0.6, slip: 0.2, grit });
        const s = F.restTwirl(0);
        for (let i = 0; i < 8000; i += 1) F.stepTwirl(axle, s, 0.4 * i * F.STEP);
        return s.hand.at - s.at;
    }"""
    assert feel(code) == pytest.approx(0.6 * log(1 + 0.03 / 0.1), rel=0.02)


def test_grit_is_the_same_for_the_same_seed_and_does_not_come_back_each_turn(feel):
    code = "(seed) => Array.from(F.makeGrit({ amplitude: 0.004, per_turn: 12, seed }))"
    first, again, other = feel(code, 5), feel(code, 5), feel(code, 6)
    assert first == again != other
    assert first[:720] != first[720:1440]
    assert 0.001 < max(first) < 0.012
    assert min(first) == 0


def axle(**changes):
    hand = TwirlHand()
    given = {
        "friction": [0.01],
        "dents": [0.0],
        "span": 2 * pi,
        "grease": 0.0,
        "inertia": 1e-5,
        "firm": hand.firm,
        "give": hand.give,
        "slip": 1.0,
        "grit": {"amplitude": 0.0, "per_turn": 0.0, "seed": 1},
    }
    return given | changes


TURNED = """([given, seconds]) => {
    const axle = F.makeTwirl(given), s = F.restTwirl(0), clicks = [];
    let rasps = 0, lag = 0;
    for (let i = 0; i * F.STEP < seconds; i += 1) {
        F.stepTwirl(axle, s, 2 * i * F.STEP);
        if (s.click) clicks.push(s.at);
        rasps += s.rasp > 0;
        lag = s.hand.at - s.at;
    }
    return { clicks, rasps, lag, at: s.at };
}"""
"""An axle turned by hand at 2 rad/s: where it clicked, how often it rasped, how far it lags at the end."""


def test_nine_and_two_hundred_and_forty_five_newton_millimetres_are_told_apart_by_far(feel):
    low, high = (feel(TURNED, [axle(friction=[mm * 1e-3]), 3])["lag"] for mm in (9, 245))
    assert high / low > 10
    assert degrees(low) > 2
    assert degrees(high) < 60


def test_the_tight_and_the_right_first_hub_lag_by_at_least_a_factor_of_five(feel):
    lags = {}
    for state in ("right", "tight"):
        bench = reference(ladder()[FREE], state)
        found = twirl_feel(bench.secret, bench.hub)
        lags[state] = feel(TURNED, [axle(friction=list(found.friction)), 3])["lag"]
    assert lags["tight"] > 5 * lags["right"] > 0


@pytest.mark.parametrize("balls", [9, 10])
def test_dents_click_at_the_spacing_of_the_balls(feel, balls):
    dents = [0.02 * sin(balls * 2 * pi * i / 720) for i in range(720)]
    clicks = [at for at in feel(TURNED, [axle(dents=dents), 5])["clicks"] if at > 1]
    gaps = [b - a for a, b in pairwise(clicks)]
    assert len(gaps) > balls
    assert gaps == pytest.approx([2 * pi / balls] * len(gaps), abs=0.04)


def test_a_smooth_axle_and_one_that_drags_once_a_turn_do_not_click(feel):
    bent = [0.02 * sin(2 * pi * i / 360) for i in range(360)]
    for dents in ([0.0], bent):
        assert feel(TURNED, [axle(dents=dents), 5])["clicks"] == []


def test_a_gritty_row_rasps_once_for_each_grain_and_a_clean_one_never(feel):
    grit = {"amplitude": 0.004, "per_turn": 12.0, "seed": 1}
    got = feel(TURNED, [axle(grit=grit), 7 * pi])
    assert feel(TURNED, [axle(), 3])["rasps"] == 0
    # seven turns in all; grains that lie together rasp once
    assert 0.7 * 12 * 7 < got["rasps"] <= 12 * 7


FOLLOWED = """([table, from, to]) => {
    const step = Math.PI / 1800, track = [];
    let now = from;
    for (let hand = from; hand > to; hand -= step) {
        now = F.followHand(hand, now, table);
        track.push([now, now - hand, F.effortAt(table, now)]);
    }
    return track;
}"""
"""A hand that goes in by tenths of a degree: where the cone is, how far behind, and the torque there."""


@pytest.mark.parametrize("scenario", ["touring-rear", "road-front"])
def test_first_touch_is_seen_as_lag_within_three_degrees_of_cone(feel, scenario):
    bench = bench_of(scenario=scenario)
    angle, effort = resist(bench.secret, bench.hub)
    hand = TurnResist(angle=angle, effort=effort, limit=1.0)
    table = {"angle": list(angle), "effort": list(effort), "limit": 1.0, "firm": hand.firm, "give": hand.give}
    first = next(at for at, torque in zip(angle, effort, strict=True) if torque == 0)
    track = feel(FOLLOWED, [table, first + 0.3, first - 0.9])
    before = [lag for at, lag, _ in track if at > first]
    assert max(map(abs, before)) < radians(0.01)
    within = [lag for at, lag, _ in track if first - radians(3) <= at < first]
    assert max(within) > radians(4)
    assert all(b >= a - 1e-9 for (_, a, _), (_, b, _) in pairwise(track))
    for at, lag, torque in track:
        if at < first and torque < 0.98:
            # the law of the fingers, solved for their stretch
            assert lag == pytest.approx(hand.give * log(1 + torque / hand.firm), abs=1e-6)


def test_the_cone_stays_while_the_hand_comes_back_and_then_goes_out_with_it(feel):
    table = {"angle": [-0.5, 0.0, 1.0], "effort": [2.0, 0.0, 0.0], "limit": 0.4, "firm": 0.02, "give": 0.07}
    code = "([targets, table]) => { let at = 0.2; return targets.map((t) => (at = F.followHand(t, at, table))); }"
    pushed, back, out = feel(code, [[-0.15, -0.1, 0.1], table])
    assert -0.1 < pushed < -0.005
    assert back == pushed
    assert out == 0.1


def test_creaks_come_louder_higher_and_closer_the_harder_the_pull(feel):
    code = "(s) => [F.creakNotes(s)[0].gain, F.creakNotes(s)[0].hz, -F.creakEvery(s)]"
    heard = [feel(code, strain) for strain in (0, 0.3, 0.6, 1)]
    assert all(b > a for low, high in pairwise(heard) for a, b in zip(low, high, strict=True))


def test_the_cone_goes_in_as_far_as_the_hand_can_turn_it(feel):
    table = {"angle": [-0.5, 0.0, 1.0], "effort": [2.0, 0.0, 0.0], "limit": 0.4}
    # The effort grows by 4 N·m a radian: 0.4 N·m stand at -0.1.
    code = "([target, now, table]) => F.turnTo(target, now, table)"
    assert feel(code, [-0.05, 0.2, table]) == -0.05
    assert feel(code, [-0.3, 0.2, table]) == pytest.approx(-0.1)
    assert feel(code, [-0.4, -0.3, table]) == -0.3
    assert feel(code, [0.7, -0.3, table]) == 0.7


@pytest.mark.parametrize(
    ("degrees", "words"),
    [
        (0, "where it started"),
        (6, "1 minute out"),
        (-18, "3 minutes in (clockwise)"),
        (20, "a little past 3 minutes out"),
        (-17, "just short of 3 minutes in (clockwise)"),
    ],
)
def test_an_angle_is_told_in_minutes_of_a_clock_face(feel, degrees, words):
    assert feel("(a) => F.minutesInWords(a)", degrees * pi / 180) == words
