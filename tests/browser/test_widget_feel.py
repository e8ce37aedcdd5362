"""The plain functions behind the widgets, run in Chromium, against closed forms of school mechanics.

None of the closed forms comes from the program: springs in series, the pendulum, dry friction on a spring,
a wheel slowed by a constant and by a speed-dependent torque. The frequency band of a knock is common
practice, no source.
"""

from itertools import pairwise
from math import asin, cos, exp, log, pi, sqrt

import pytest


def rock(play, **changes):
    """Return what the page gives the rim for a rigid-sided bearing of `play` [m]."""
    free = [-play / 2, play / 2] if play else [0.0]
    given = {
        "movement": [free[0] - 1e-3, *free, free[-1] + 1e-3],
        "force": [-500.0, *(0.0 for _ in free), 500.0],
        "hand": 4e3,
        "effort": 25.0,
        "mass": 0.5,
        "flex": 6e4,
        "drag": 2.0,
        "knock_speed": 0.012,
        "felt_from": 1e-4,
        "loudness": 1.0,
        "muffle": 0.0,
    }
    return given | changes


ROCK = """([given, rate, wide, seconds]) => {
    const rock = F.makeRock(given), s = F.restRock(rock), heard = [];
    for (let i = 0; i * F.STEP < seconds; i += 1) {
        const level = F.stepRock(rock, s, wide * Math.sin(2 * Math.PI * rate * i * F.STEP));
        if (level) heard.push([i * F.STEP * rate, level]);
    }
    return heard;
}"""


@pytest.mark.parametrize("hand", [-3e-3, -1e-3, 1e-4, 1e-3, 4e-3])
def test_a_hand_at_rest_is_a_spring_in_series(feel, hand):
    # k (h - x) = K (x - d) beyond a free travel of ±d; x = h within it.
    k, stiff, d = 4e3, 5e5, 2.5e-4
    got = feel("([t, k, h]) => F.settle(t.movement, t.force, k, h)", [rock(2 * d), k, hand])
    side = 1 if hand > 0 else -1
    want = hand if abs(hand) <= d else (k * hand + side * stiff * d) / (k + stiff)
    assert got["movement"] == pytest.approx(want, abs=1e-12)
    assert got["force"] == pytest.approx(k * (hand - want), abs=1e-9)


def test_the_moving_rim_settles_where_statics_puts_it(feel):
    # Bearing 5e5 N/m beyond the play and wheel 6e4 N/m in series, against the hand's 4e3 N/m.
    d, hand = 2.5e-4, 3e-3
    series = 1 / (1 / 5e5 + 1 / 6e4)
    want = (4e3 * hand + series * d) / (4e3 + series)
    code = """([given, hand]) => {
        const rock = F.makeRock(given), s = F.restRock(rock);
        for (let i = 0; i < 8000; i += 1) F.stepRock(rock, s, hand);
        return s.x;
    }"""
    assert feel(code, [rock(2 * d), hand]) == pytest.approx(want, rel=1e-6)


def test_rocking_slowly_makes_no_knock(feel):
    assert feel(ROCK, [rock(5e-4), 0.3, 3e-3, 4 / 0.3]) == []


@pytest.mark.parametrize("play", [1.2e-4, 5e-4, 1.5e-3])
def test_rocking_briskly_knocks_twice_a_cycle(feel, play):
    heard = feel(ROCK, [rock(play), 2.5, 3e-3, 4])
    settled = [turn for turn, _ in heard if turn >= 1]
    assert len(settled) == 2 * 9
    assert all(b - a == pytest.approx(0.5, abs=0.05) for a, b in pairwise(settled))


@pytest.mark.parametrize("firmness", [1e5, 1e7])
def test_the_rim_does_not_chatter_on_its_stop(feel, firmness):
    # From one side to the other in one go, on a soft and a very firm bearing: one knock, no bounces.
    given = rock(5e-4, flex=0.0)
    given["force"] = [-1e-3 * firmness, 0.0, 0.0, 1e-3 * firmness]
    code = """([given]) => {
        const rock = F.makeRock(given), s = F.restRock(rock), heard = [];
        for (let i = 0; i < 4000; i += 1) {
            const level = F.stepRock(rock, s, i < 2000 ? -3e-3 : 3e-3);
            if (level && i >= 2000) heard.push(i);
        }
        return heard;
    }"""
    assert len(feel(code, [given])) == 1


@pytest.mark.parametrize("rate", [0.3, 1, 3, 6, 12])
@pytest.mark.parametrize("play", [0.0, 5e-5])
def test_without_play_that_can_be_felt_there_is_no_knock_at_any_speed(feel, play, rate):
    assert feel(ROCK, [rock(play), rate, 8e-3, 3 / rate]) == []


def test_a_knock_is_louder_the_faster_the_rim_closes_and_duller_through_grease(feel):
    slow, fast, greasy = (
        feel(ROCK, [rock(5e-4, **changes), rate, 3e-3, 3])[-1][1]
        for rate, changes in ((1.2, {}), (3, {}), (3, {"muffle": 0.8}))
    )
    assert slow < fast
    assert greasy < 0.6 * fast


@pytest.mark.parametrize("muffle", [0, 0.5, 1])
def test_a_knock_is_low_and_dull(feel, muffle):
    notes = feel("(m) => F.knockNotes(1, m)", muffle)
    assert all(100 <= note["hz"] <= 500 for note in notes)


def spin(**changes):
    return {"speed": [0.0, 50.0], "torque": [0.01, 0.01], "inertia": 0.1, "heavy": 0.0} | changes


RUN = """([wheel, at, speed, seconds]) => {
    const s = { at, speed }, track = [];
    let time = 0;
    for (; time < seconds && (s.speed || !time || wheel.heavy); time += F.STEP) {
        F.stepSpin(wheel, s, null);
        track.push(s.at);
    }
    return { ...s, time, track: track.filter((_, i) => i % 40 === 0) };
}"""


def test_a_wheel_slowed_by_a_constant_torque_stops_when_its_momentum_is_spent(feel):
    done = feel(RUN, [spin(), 0, 6.0, 100])
    assert done["time"] == pytest.approx(0.1 * 6 / 0.01, rel=1e-3)
    assert done["at"] == pytest.approx(0.1 * 6**2 / (2 * 0.01), rel=1e-3)


def test_a_wheel_slowed_in_step_with_speed_as_well(feel):
    # I dω/dt = -(M + c ω): t = (I / c) ln(1 + c ω0 / M).
    c = 4e-4
    done = feel(RUN, [spin(torque=[0.01, 0.01 + 50 * c]), 0, 6.0, 100])
    assert done["time"] == pytest.approx(0.1 / c * log(1 + c * 6 / 0.01), rel=1e-3)


def test_a_frictionless_wheel_swings_as_a_pendulum(feel):
    done = feel(RUN, [spin(torque=[0.0, 0.0], heavy=0.03), 0.1, 0.0, 23])
    period = 2 * pi * sqrt(0.1 / 0.03) * (1 + 0.1**2 / 16)
    times = [40 * 0.00025 * i for i in range(len(done["track"]))]
    worst = max(abs(a - 0.1 * cos(2 * pi * t / period)) for a, t in zip(done["track"], times, strict=True))
    assert worst < 0.001


@pytest.mark.parametrize(("share", "moves"), [(0.98, False), (1.02, True)])
def test_the_heavy_spot_stays_where_friction_can_hold_it(feel, share, moves):
    at = asin(share * 0.01 / 0.03)
    done = feel(RUN, [spin(heavy=0.03), at, 0.0, 3])
    assert (done["at"] != at) == moves


def test_dry_friction_takes_the_same_from_every_swing(feel):
    # A mass on a spring with friction M: each half swing ends 2 M/k nearer the middle.
    code = """() => {
        const s = { at: 1, speed: 0 }, ends = [1];
        let way = -1;
        for (let i = 0; i < 60000; i += 1) {
            F.stepTurning(s, { torque: -2 * s.at, friction: 0.1, inertia: 0.05 });
            if (s.speed * way < 0) {
                ends.push(Math.abs(s.at));
                way = -way;
            }
        }
        return ends;
    }"""
    ends = feel(code)
    assert len(ends) >= 9
    assert [a - b for a, b in pairwise(ends[:9])] == pytest.approx([0.1] * 8, abs=0.003)


def test_the_hand_follows_the_pointer_without_a_jump(feel):
    # Critically damped: x = 1 - (1 + t/τ) exp(-t/τ), speed at most 1/(e τ).
    code = """() => {
        const hand = { at: 0, speed: 0 }, track = [];
        let fastest = 0;
        for (let i = 1; i <= 400; i += 1) {
            F.moveHand(hand, 1, F.STEP);
            fastest = Math.max(fastest, hand.speed);
            track.push(hand.at);
        }
        return { track, fastest };
    }"""
    got = feel(code)
    for i in (39, 199, 399):
        ratio = (i + 1) * 0.00025 / 0.018
        assert got["track"][i] == pytest.approx(1 - (1 + ratio) * exp(-ratio), abs=0.01)
    assert got["fastest"] == pytest.approx(1 / (exp(1) * 0.018), rel=0.02)


def test_a_look_up_carries_the_last_slope_on(feel):
    code = "(x) => F.lookUp([0, 1, 1, 2], [0, 2, 3, 4], x).value"
    assert [feel(code, x) for x in (-1, 0.5, 1.5, 3)] == [-2, 1, 3.5, 5]
