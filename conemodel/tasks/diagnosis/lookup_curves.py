"""The hub's own curves, solved at a few points and read off in between, so that thousands of hubs cost little.

Free play at rim and axle end, preload and torque over end play, for each way the rows are untrue; what the clamp
takes off end play over its force. Every point comes from the same solver as a prediction.
"""

from dataclasses import dataclass

import numpy as np

from conemodel.base.batch_cache import keep_answers
from conemodel.base.monotone_cubic import MonotoneCubic
from conemodel.base.units import DEG, Array
from conemodel.parts.bearing import Pair
from conemodel.parts.mounting import MOST_LEAN
from conemodel.parts.scenario import Scenario
from conemodel.solve.curves.unloaded_tables import unloaded_tables
from conemodel.solve.equilibrium.wheel_positions import is_uniform, touching_end_play
from conemodel.solve.freeplay.hand_positions import solve_axial_play, solve_felt_play
from conemodel.solve.stages.clamp import close_clamp
from conemodel.solve.stages.inputs import inputs_over
from conemodel.solve.stages.terms import pair_of
from conemodel.solve.wheel.turning import turn_wheel

TIGHTEST, LOOSEST = -0.4e-3, 0.9e-3
"""Range of end play that can be asked for [m]."""

STEP = 1e-6
"""Distance of the points a curve is read from [m]; straight lines between them."""

PLAY_END = 0.6e-3
"""Loosest end play at which free play is solved [m]; beyond, it goes on as it ended."""

SWING_ENDS = np.linspace(-60e-6, 60e-6, 7)
"""End plays, from where the balls touch, at which the wheel is turned for `torque_swing` [m]."""

SWING_TURNS, SWING_POSITIONS = 3, 24
"""Turns of the wheel looked at, so that what goes with the balls comes round too, and positions in them."""

HAND_LOAD = np.array([0.0, 0.0, -30.0, 0.0, 0.0])
"""Weight of the wheel and the hand that turns it, on the shell [N, N·m]. Assumption."""

ODD_GOES_IN = 0.6
"""Share of the room between the grooves that an odd ball takes at most [-]. Assumption."""

FORCES = np.linspace(0.0, 30e3, 11)
"""Clamp forces at which the clamp is closed [N]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LookupGrid:
    """One hub over end play, on points `STEP` apart from `TIGHTEST` on, each (n,).

    Attributes:
        rim, axle_end, axle_along: free play there, stop to stop [m].
        preload: [N]; torque: from the ball loads [N·m].
        swing: greatest torque less least over the turning wheel, a hand's load on it [N·m].
    """

    rim: Array
    axle_end: Array
    axle_along: Array
    preload: Array
    torque: Array
    swing: Array

    def at(self, name: str, end_play: Array) -> Array:
        """Return a field at end plays [m] of any shape."""
        table: Array = getattr(self, name)
        place = np.clip((end_play - TIGHTEST) / STEP, 0.0, table.size - 1.001)
        below = place.astype(np.intp)
        share = place - below
        return np.asarray(table[below] * (1 - share) + table[below + 1] * share)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shift:
    """What the clamp takes off end play: at `force` (m,) [N], `length` (m,) [m]."""

    force: Array
    length: Array

    def at(self, force: Array) -> Array:
        """Return what forces [N] of any shape take off end play [m]."""
        return np.asarray(np.interp(force, self.force, self.length))


@keep_answers(size=32)
def curve_of(scenario: Scenario, tilt: float = 0.0, skew: float = 0.0, odd: float = 0.0) -> LookupGrid:
    """Return a hub's curves with rows untrue as `untrue_pair` makes them.

    Raises:
        NotConverged: no balance of forces was found.
    """
    pair = untrue_pair(pair_of(scenario), tilt=tilt, skew=skew, odd=odd)
    ends = _play_ends(even=tilt == skew == odd == 0.0)
    rim, axle_end = solve_felt_play(
        pair, ends, rim_radius=scenario.wheel.rim_radius, axle_arm=scenario.axle_end_arm
    )
    along = solve_axial_play(pair, ends)
    loaded = unloaded_tables(pair)
    grid = np.arange(TIGHTEST, LOOSEST, STEP)
    return LookupGrid(
        rim=_read_off(grid, MonotoneCubic.through(ends, np.maximum.accumulate(rim))),
        axle_end=_read_off(grid, MonotoneCubic.through(ends, np.maximum.accumulate(axle_end))),
        axle_along=_read_off(grid, MonotoneCubic.through(ends, np.maximum.accumulate(along))),
        preload=_read_off(grid, loaded.preload),
        torque=_read_off(grid, loaded.torque),
        swing=np.interp(grid, *torque_swing(pair)),
    )


def torque_swing(pair: Pair) -> tuple[Array, Array]:
    """Return end plays (n,) [m] and how far the torque swings over a turning wheel at each (n,) [N·m].

    A row swings only where a cup is out of true or a ball odd: tilted cones alone stand still with the axle, and a
    shell in true cups turns on them evenly.
    """
    ends = SWING_ENDS + touching_end_play(pair)
    if is_uniform(pair):
        return ends, np.zeros(ends.size)
    angle = SWING_TURNS * 2 * np.pi * np.arange(SWING_POSITIONS) / SWING_POSITIONS
    each = [np.ptp(turn_wheel(pair, end_play=float(end), angle=angle, load=HAND_LOAD).torque) for end in ends]
    return ends, np.array(each)


@keep_answers(size=32)
def shift_of(scenario: Scenario) -> Shift:
    """Return what closing the scenario's clamp takes off end play, over its force."""
    clamp = close_clamp(scenario, inputs_over(scenario, clamp_force=FORCES))
    return Shift(force=FORCES, length=-np.asarray(sum(clamp.lengths().values())))


def make_axle_proud(scenario: Scenario) -> Scenario:
    """Return the hub with its axle just proud of both dropouts, so that the clamp squeezes the axle alone."""
    proud = scenario.frame.dropout_thickness + 0.1e-3
    stack = scenario.stack
    left, right = (stack.side(side).replace(protrusion=proud) for side in ("left", "right"))
    return scenario.replace(stack=stack.replace(left=left, right=right))


def lean_dropouts(scenario: Scenario, lean: float) -> Scenario:
    """Return the hub in a frame whose dropouts both lean outward by `lean` [rad] more, clamped there."""
    if lean == 0.0:
        return scenario
    frame, most = scenario.frame, DEG.to_si(MOST_LEAN)
    left, right = (
        max(min(angle + lean, most), -most) for angle in (frame.left_dropout_angle, frame.right_dropout_angle)
    )
    return scenario.replace(frame=frame.replace(left_dropout_angle=left, right_dropout_angle=right))


def untrue_pair(pair: Pair, *, tilt: float = 0.0, skew: float = 0.0, odd: float = 0.0) -> Pair:
    """Return a pair with what makes rows untrue added to what it has.

    `tilt` [rad]: of both cones, each its own way, as an axle bent in the middle leans them; `skew` [rad]: of cone
    and cup of the left row; `odd` [m]: how much larger one ball of the left row is, but no larger than goes in.
    """
    left, right = pair.left, pair.right
    left = left.replace(
        cone_tilt=(left.cone_tilt[0] + tilt + skew, left.cone_tilt[1]),
        cup_tilt=(left.cup_tilt[0] + skew, left.cup_tilt[1]),
    )
    if odd > 0.0 and not isinstance(left.ball_oversize, tuple):
        apart = (left.cone_conformity + left.cup_conformity - 1) * left.ball_diameter
        most = ODD_GOES_IN * apart * (1 - np.cos(left.contact_angle))
        first = left.ball_oversize + min(odd, most)
        left = left.replace(ball_oversize=(first, *[left.ball_oversize] * (left.ball_count - 1)))
    return pair.replace(
        left=left, right=right.replace(cone_tilt=(right.cone_tilt[0] - tilt, right.cone_tilt[1]))
    )


def _play_ends(*, even: bool) -> Array:
    """Return the end plays at which free play is solved (n,) [m]; where an untrue hub's begins is not known before."""
    loose: Array = PLAY_END * (np.linspace(0.0, 1.0, 15) ** 2 if even else np.linspace(0.0, 1.0, 21) ** 1.6)
    return loose


def _read_off(grid: Array, curve: MonotoneCubic) -> Array:
    """Return a curve at the points of a grid; beyond its ends it keeps its slope, and never falls below 0."""
    first, last = curve.x[0], curve.x[-1]
    beyond = np.minimum(grid - first, 0.0) * curve.slope[0] + np.maximum(grid - last, 0.0) * curve.slope[-1]
    return np.asarray(np.maximum(curve.at(np.clip(grid, first, last)) + beyond, 0.0))
