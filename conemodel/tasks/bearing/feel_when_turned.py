"""What turning a hub tells the fingers: how hard it turns, and how that varies over the wheel's turn."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from conemodel.base.units import Array
from conemodel.parts.bearing import Pair, Row
from conemodel.parts.scenario import Scenario
from conemodel.physics.packing import ball_room
from conemodel.solve.equilibrium.unloaded import NO_LOAD
from conemodel.solve.equilibrium.wheel_positions import is_uniform, turn_pair
from conemodel.solve.freeplay.free_play import rim_direction, solve_free_play
from conemodel.solve.stages.terms import pair_of, setting_terms
from conemodel.solve.wheel.hub_drag import TWIRL_SPEED, HubDrag, hub_drag
from conemodel.solve.wheel.turning import Turning, turn_wheel
from conemodel.tasks.bearing.feel_words import FELT_TORQUE, words_for_play, words_for_turning

TURNS = 3
"""Turns of the wheel looked at: enough to tell what comes round with the wheel from what comes with the balls."""

SMOOTH_SAMPLES = 48
"""Angles a turn where nothing sharp is met."""

POINTS_ON_A_DENT = 4
"""Angles over half the length of the shortest dent."""

MOST_SAMPLES = 3000
"""Angles a turn at most."""

PLAY_POSITIONS = 10
"""Positions over two turns of the wheel at which an uneven hub is rocked."""

SLOW_HARMONICS = (1, 2)
"""Harmonics of the wheel's turn, and of the balls' way round, that count as slow."""

FAST_HARMONICS = (1, 2, 3, 4, 5, 6)
"""Harmonics of the balls passing a place on cone or cup that are told from the slow ones by a fit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Signature:
    """What the fingers find when they turn a hub; torques [N·m].

    Attributes:
        end_play: of the stage turned [m]; drag: what makes the level, mean over the turns.
        angle: of the wheel (n,) [rad]; torque: at each angle (n,).
        level: mean torque; variation: greatest less least.
        once_per_turn: greatest less least of what comes round with the wheel.
        with_the_balls: greatest less least of what comes round with the balls, at about half the wheel's pace.
        ripple: half the height of all that is faster.
        spacing: turn of the wheel in which the balls move on by one ball [rad].
        detents: places in that turn where the wheel would rest by itself; 0 without a ripple.
        rim_play: least and most free play at the rim over the turning wheel [m].
        ball_room: room left in each row, in ball widths, left then right.
        words: what a hand would call it, from smooth, gritty, notchy, tight in one place, uneven play, stiff, thick.
        reasons: for each word the numbers it rests on, in a sentence.
    """

    end_play: float
    drag: HubDrag
    angle: Array
    torque: Array
    level: float
    variation: float
    once_per_turn: float
    with_the_balls: float
    ripple: float
    spacing: float
    detents: float
    rim_play: tuple[float, float]
    ball_room: tuple[float, float]
    words: tuple[str, ...]
    reasons: tuple[str, ...]


def signature(
    scenario: Scenario,
    *,
    stage: str = "clamped",
    load: npt.ArrayLike = NO_LOAD,
    speed: float = TWIRL_SPEED,
) -> Signature:
    """Turn a scenario's hub as it is after `stage` and say what the hand finds.

    `load` (5,) on the shell [N, N·m], none in the fingers; `speed` of the turning [rad/s].

    Raises:
        NotConverged: no balance of forces was found.

    >>> from conemodel.parts.toml_files import load_scenario
    >>> signature(load_scenario("scenarios/touring-rear.toml")).words
    ('smooth',)
    """
    pair, end_play = pair_of(scenario), setting_terms(scenario).end_play(stage)
    turning = turn_wheel(pair, end_play=end_play, angle=angles_for(pair), load=load)
    drag = hub_drag(scenario, pair, turning.solution, speed=speed).mean()
    torque = turning.torque + drag.grease + drag.seals
    wheel, balls, rest = _split_torque(turning.torque, turning.angle, pair)
    spacing = ball_spacing(pair.left)
    ripple = float(np.ptp(rest)) / 2
    found = {
        "level": float(torque.mean()),
        "once_per_turn": float(np.ptp(wheel)),
        "with_the_balls": float(np.ptp(balls)),
        "ripple": ripple,
        "detents": count_detents(turning, spacing) if ripple > FELT_TORQUE / 10 else 0.0,
    }
    play = play_over_turns(pair, end_play=end_play, rim_radius=scenario.wheel.rim_radius)
    said = (*words_for_turning(drag, **found), *words_for_play(play, scenario.limits.rim_play))
    left, right = (_room(row) for row in (pair.left, pair.right))
    return Signature(
        end_play=end_play,
        drag=drag,
        angle=turning.angle,
        torque=torque,
        variation=float(np.ptp(torque)),
        spacing=spacing,
        rim_play=play,
        ball_room=(left, right),
        words=tuple(word for word, _ in said),
        reasons=tuple(reason for _, reason in said),
        **found,
    )


def ball_spacing(row: Row) -> float:
    """Return the turn of the shell in which the balls of a row move on by one ball spacing [rad]."""
    return float(4 * np.pi / (row.ball_count * (1 + row.gamma)))


def angles_for(pair: Pair) -> Array:
    """Return the angles of the wheel to look at, close enough for the shortest dent (n,) [rad]."""
    samples = SMOOTH_SAMPLES
    for row in (pair.left, pair.right):
        for dents in (row.cone_dents, row.cup_dents):
            if dents.places(row.ball_count):
                step = dents.half_length / (row.pitch_diameter / 2) / POINTS_ON_A_DENT
                samples = max(samples, int(np.ceil(2 * np.pi / step)))
    count = TURNS * min(samples, MOST_SAMPLES)
    return np.asarray(2 * np.pi * TURNS * np.arange(count) / count)


def _split_torque(torque: Array, angle: Array, pair: Pair) -> tuple[Array, Array, Array]:
    """Return what comes round with the wheel, what with the balls, and the rest, each with no mean (n,)."""
    gamma = pair.left.gamma
    past_cone, past_cup = (pair.left.ball_count * (1 + sign * gamma) / 2 for sign in (1, -1))
    rates = [rate * m for rate in (1.0, (1 + gamma) / 2) for m in SLOW_HARMONICS]
    rates += [rate * m for rate in (past_cone, past_cup) for m in FAST_HARMONICS]
    waves = [wave(rate * angle) for rate in rates for wave in (np.cos, np.sin)]
    table = np.stack([np.ones_like(angle), *waves], axis=-1)
    share, *_ = np.linalg.lstsq(table, torque, rcond=None)
    half = 1 + 2 * len(SLOW_HARMONICS)
    whole = 2 * half - 1
    wheel, balls = table[:, 1:half] @ share[1:half], table[:, half:whole] @ share[half:whole]
    return wheel, balls, torque - share[0] - wheel - balls


def count_detents(turning: Turning, spacing: float) -> float:
    """Return the number of energy minima in a ball `spacing` [rad], those at least a tenth as deep as the deepest."""
    energy = turning.energy - turning.energy.max()
    depth = -energy.min()
    deep = 0.1 * depth
    found, lowest, highest, falling = 0, energy[0], energy[0], True
    for value in energy:  # a minimum counts once the energy has risen by `deep` beyond it
        lowest, highest = min(lowest, value), max(highest, value)
        if falling and value > lowest + deep:
            found, falling, highest = found + 1, False, value
        elif not falling and value < highest - deep:
            falling, lowest = True, value
    return float(found * spacing / (turning.angle[-1] - turning.angle[0]))


def play_over_turns(pair: Pair, *, end_play: float, rim_radius: float) -> tuple[float, float]:
    """Return the least and the most free play at the rim as an uneven hub is rocked at several places [m].

    A sound hub has one, but for the phase of its balls, which is left out here.
    """
    turns = [0.0] if is_uniform(pair) else 4 * np.pi * np.arange(PLAY_POSITIONS) / PLAY_POSITIONS
    direction = rim_direction(rim_radius)
    found = [
        float(solve_free_play(turn_pair(pair, float(turn)), end_play=end_play, direction=direction).travel)
        for turn in turns
    ]
    return min(found), max(found)


def _room(row: Row) -> float:
    """Return the room left in a row, in ball widths [-]."""
    return float(
        ball_room(
            ball_diameter=row.ball_diameter, pitch_diameter=row.pitch_diameter, ball_count=row.ball_count
        )
    )
