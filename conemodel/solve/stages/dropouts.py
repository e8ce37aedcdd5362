"""Dropouts out of parallel: how they bow a clamped axle, and what its skew cones take off end play.

Defined as a shift at equal preload: the end play at which the cones, straight, carry `REFERENCE_PRELOAD`, less that at
which they carry it as tilted as the bowed axle holds them. It is of second order in the tilt and hangs on that preload:
few pressed balls bear where the tilt is worst, many share it. The term alone stands for the tilts; the pair of rows is
not given them as well.
"""

from collections.abc import Sequence
from math import inf
from typing import Any

import numpy as np

from conemodel.base.batch_cache import BatchCache
from conemodel.base.errors import NotConverged
from conemodel.base.monotone_cubic import MonotoneCubic
from conemodel.base.units import Array, Floats, Number
from conemodel.parts.bearing import Pair, Row
from conemodel.parts.hub import SIDES
from conemodel.parts.scenario import Scenario
from conemodel.physics.axle_bending import (
    BentAxle,
    annulus_second_moment,
    axle_slope,
    bend_between_dropouts,
    face_moment_capacity,
)
from conemodel.physics.thread import root_diameter
from conemodel.solve.equilibrium.unloaded import solve_unloaded_pairs
from conemodel.solve.equilibrium.wheel_positions import touching_end_play

REFERENCE_PRELOAD = 100.0
"""Preload at which straight and tilted cones are compared [N]: about what fingers pinch. Assumption."""

TIGHT_REACH, LOOSE_REACH = -0.2e-3, 2e-3
"""End plays from just touching between which that preload is looked for [m]: cones tilted by 3° bear at 1 mm."""

HALVINGS = 32
"""Halvings of that range: they leave less than an atom."""

SHARES = np.linspace(0.05, 1.0, 20)
"""Shares of the moment that closes both faces at which a clamp too weak for it is solved [-]."""


def dropout_length(scenario: Scenario, force: Number) -> Number:
    """Return what dropouts out of parallel add to end play, closed by a clamp `force` [N], (n,) or one number: [m].

    Raises:
        NotConverged: a preload of `REFERENCE_PRELOAD` is not found.
    """
    none: Any = 0.0 * force
    if scenario.setting.clamp_seat != "dropouts" or not any(scenario.frame.dropout_turns):
        return none  # type: ignore[no-any-return]
    glued = bend(scenario, capacity=inf)
    closing = float(np.maximum(abs(glued.left_moment), abs(glued.right_moment)))
    share = np.minimum(_capacity(scenario, force) / closing, 1.0)
    if np.all(share == 1.0):
        return none + float(_taken(scenario, np.array([closing]))[0])  # type: ignore[no-any-return]
    taken = _taken(scenario, SHARES * closing)
    curve = MonotoneCubic.through(np.append(0.0, SHARES**2), np.append(0.0, taken))  # nearly a straight line
    found: Any = curve.at(np.asarray(share) ** 2)[()] + none
    return found  # type: ignore[no-any-return]


def bend(scenario: Scenario, *, capacity: Floats) -> BentAxle:
    """Return the axle bowed between the scenario's dropouts, no face carrying more than `capacity` [N·m].

    A bar as thin as the root of its thread. What the jammed stacks keep straight is taken off its ends.
    """
    left, right = scenario.frame.dropout_turns
    axle = scenario.axle
    root = float(root_diameter(diameter=axle.thread_diameter, pitch=axle.thread_pitch))
    second = annulus_second_moment(outer=root, inner=axle.bore)
    return bend_between_dropouts(
        left_face=left,
        right_face=right,
        span=bending_span(scenario),
        rigidity=axle.young * second,
        frame_compliance=scenario.frame.angular_compliance,
        capacity=capacity,
    )


def bending_span(scenario: Scenario) -> float:
    """Return the length of axle that bends [m]: over the locknuts, less what the jammed stacks keep straight."""
    over, cones = scenario.hub.over_locknut_width, scenario.cone_distance
    return over - scenario.axle.ends_stiffened * max(over - cones, 0.0)


def cone_slopes(scenario: Scenario, bent: BentAxle) -> tuple[Array, Array]:
    """Return the slope of a bowed axle at the left and the right cone's thread [rad]."""
    reach = min(scenario.cone_distance / bending_span(scenario), 1.0) / 2
    ends = {"left_slope": bent.left_slope, "right_slope": bent.right_slope}
    left, right = (np.asarray(axle_slope(**ends, place=0.5 + side * reach)) for side in (-1, 1))
    return left, right


def _capacity(scenario: Scenario, force: Floats) -> Floats:
    """Return the moment a clamp `force` [N] can hold at the smaller of both locknuts' faces [N·m]."""
    radius = min(scenario.stack.side(side).face_outer_diameter for side in SIDES) / 2
    return face_moment_capacity(clamp_force=force, face_radius=radius)


def _taken(scenario: Scenario, capacities: Array) -> Array:
    """Return what the dropouts add to end play where no face carries more than `capacities` (n,) [N·m]: (n,)."""
    lefts, rights = cone_slopes(scenario, bend(scenario, capacity=capacities))
    # what axle and shell give is the same at equal preload
    straight = scenario.pair(axial_compliance=0.0)
    tilted = [_tilted(straight, float(left), float(right)) for left, right in zip(lefts, rights, strict=True)]
    level, *ends = _end_play((straight, *tilted))
    return level - np.array(ends)


def _tilted(pair: Pair, left: float, right: float) -> Pair:
    """Return a pair whose cones lean by `left` and `right` more about the axis that points to the rear [rad]."""

    def leaning(row: Row, slope: float) -> Row:
        about_y, about_z = row.cone_tilt
        return row.replace(cone_tilt=(about_y, about_z + slope))

    return pair.replace(left=leaning(pair.left, left), right=leaning(pair.right, right))


def _find_end_plays(pairs: Sequence[Pair]) -> list[float]:
    """Return the end play at which each of `pairs`, of one hub, carries `REFERENCE_PRELOAD` [m], by halving.

    Raises:
        NotConverged: a range that does not hold it.
    """
    touching = np.array([touching_end_play(pair) for pair in pairs])
    tight, loose = touching + TIGHT_REACH, touching + LOOSE_REACH
    for _ in range(HALVINGS):
        middle = (tight + loose) / 2
        pressed = solve_unloaded_pairs(pairs, middle[:, None]).preload.mean(axis=(1, 2)) > REFERENCE_PRELOAD
        tight, loose = np.where(pressed, middle, tight), np.where(pressed, loose, middle)
    if (loose == touching + LOOSE_REACH).any() or (tight == touching + TIGHT_REACH).any():
        raise NotConverged(f"no end play was found at which this hub carries {REFERENCE_PRELOAD:.0f} N")
    return [float(each) for each in (tight + loose) / 2]


_end_play: BatchCache[Pair, float] = BatchCache(_find_end_plays, size=256)
