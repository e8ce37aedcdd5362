"""What a hand feels when it rocks a hub at the rim or at the axle end, as a curve for the widget and as words."""

from dataclasses import dataclass
from math import pi
from typing import Literal

import numpy as np

from conemodel.base.batch_cache import keep_answers
from conemodel.parts.bearing import Pair
from conemodel.parts.felt_play import PlayWord, felt_word
from conemodel.parts.scenario import Scenario
from conemodel.solve.equilibrium.pair import solve_pair
from conemodel.solve.equilibrium.wheel_positions import is_uniform, turn_pair
from conemodel.solve.freeplay.free_play import axle_end_direction, rim_direction, solve_free_play
from conemodel.solve.freeplay.hand_positions import rotate_directions, solve_felt_play
from conemodel.solve.stages.terms import pair_of
from conemodel.tasks.practice.felt_words import words_for_rocking
from conemodel.tasks.practice.hub_terms import end_play_of
from conemodel.tasks.practice.senses import felt
from conemodel.tasks.practice.session import HiddenHub, HubState
from conemodel.tasks.practice.torque_feel import END_PLAY_STEP

Grip = Literal["rim", "axle end"]
"""Where a hand takes hold of the hub to rock it."""

QUARTER = pi / 2
"""A step of wheel or axle [rad]."""

PUSH = {"rim": 30.0, "axle end": 60.0}
"""Largest force of the rocking curve, each way [N]."""

PLAY_STEP = {"rim": 0.05e-3, "axle end": 0.02e-3}
"""Steps in which free travel is given [m]. Assumption: no finer than the hand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RockFeel:
    """Rocking: the grip's movement [m] under a force [N], bearing alone; wheel flex [N/m] and mass [kg] beside.

    `felt_from` is a free travel that its own is above where this hand, this time, feels and hears it end [m].
    """

    grip: Grip
    movement: tuple[float, ...]
    force: tuple[float, ...]
    flex: float
    mass: float
    felt_from: float
    word: PlayWord
    slow: str
    quick: str


def rock_feel(secret: HiddenHub, hub: HubState, grip: Grip) -> RockFeel:
    """Return what rocking at a grip is like, the next time."""
    scenario = secret.now(hub)
    play = free_play_at(secret, hub, grip) * felt(secret, hub, "play")
    word = felt_word(scenario.limits, grip, play)
    travel = round(play / PLAY_STEP[grip]) * PLAY_STEP[grip]
    force, movement = springy_curve(pair_of(scenario), grip, *_arms(scenario))
    half = travel / 2
    outward = [(m - half, f) for m, f in zip(movement, force, strict=True) if f <= 0]
    inward = [(m + half, f) for m, f in zip(movement, force, strict=True) if f >= 0]
    table = (*outward, *inward) if travel else (*outward, *inward[1:])
    return RockFeel(
        grip=grip,
        movement=tuple(round(m, 7) for m, _ in table),
        force=tuple(f for _, f in table),
        flex=scenario.wheel.side_stiffness if grip == "rim" else 0.0,
        mass=scenario.wheel.rim_mass / 2 if grip == "rim" else 0.15,
        felt_from=travel / 2 if word != "none" else travel + PLAY_STEP[grip],
        word=word,
        slow=words_for_rocking(grip, play, knocks=None),
        quick=words_for_rocking(grip, play, knocks=word != "none"),
    )


def free_play_at(secret: HiddenHub, hub: HubState, grip: Grip) -> float:
    """Return the free play at a grip in the present position of wheel and axle [m]."""
    scenario = secret.now(hub)
    ends = round(end_play_of(secret, hub) / END_PLAY_STEP)
    pair = pair_of(scenario)
    return _free_play(pair, ends, grip, *_arms(scenario), hub.wheel, hub.axle)


def _arms(scenario: Scenario) -> tuple[float, float]:
    return scenario.wheel.rim_radius, scenario.axle_end_arm


@keep_answers(size=2048)
def _free_play(pair: Pair, ends: int, grip: Grip, radius: float, arm: float, wheel: int, axle: int) -> float:
    """Return the free play with wheel and axle turned by quarters [m]; the hand stays where it is in the room.

    A sound hub feels alike all round, but for the phase of its balls, of which the mean is taken.
    """
    if is_uniform(pair):
        rim, end = solve_felt_play(pair, np.array([ends * END_PLAY_STEP]), rim_radius=radius, axle_arm=arm)
        return float((rim if grip == "rim" else end)[0])
    place = rim_direction(radius) if grip == "rim" else axle_end_direction(arm)
    turned = turn_pair(pair, (wheel - axle) * QUARTER) if wheel != axle else pair
    direction = rotate_directions(place, np.array([-axle * QUARTER]))[..., 0, :]
    return float(solve_free_play(turned, end_play=ends * END_PLAY_STEP, direction=direction).travel)


@keep_answers(size=128)
def springy_curve(
    pair: Pair, grip: Grip, radius: float, arm: float
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Return force [N] and movement [m] at a grip of the hub just touching, its balls and cups taken as alike."""
    even = pair.replace(
        **{
            side: getattr(pair, side).replace(ball_oversize=0.0, cup_tilt=(0.0, 0.0), cone_tilt=(0.0, 0.0))
            for side in ("left", "right")
        }
    )
    place = rim_direction(radius) if grip == "rim" else axle_end_direction(arm)
    force = np.linspace(-PUSH[grip], PUSH[grip], 13)
    found = solve_pair(even, end_play=0.0, load=force[:, None] * place)
    movement = found.shell_motion @ place
    movement = np.where(force == 0, 0.0, np.maximum.accumulate(movement))
    return tuple(force.tolist()), tuple(movement.tolist())
