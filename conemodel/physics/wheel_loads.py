"""What chain and brake do to a hub's shell: forces, and their moments about its middle.

All functions take keywords in SI and broadcast over arrays. Axes as for a pair of rows: x along the axle to the right,
y up, z to the rear; a load is (Fx, Fy, Fz) and (My, Mz) on the last axis, at mid-span. About x the shell is free.
"""

import numpy as np

from conemodel.base.units import Array, Floats
from conemodel.physics.domain import require


def chain_pull(*, pedal_force: Floats, crank_length: Floats, chainring_radius: Floats) -> Floats:
    """Return the pull of the chain F l/r [N] of a pedal pressed square to its crank.

    Args:
        pedal_force: F [N], 0 or more.
        crank_length: l [m], 0 or more.
        chainring_radius: r of the chain on its ring [m], above 0, see `sprocket_radius`.

    Raises:
        OutOfDomain: a value outside those ranges.

    Source: closed form; balance of moments at the crank.
    """
    require((np.asarray(pedal_force) >= 0) & (np.asarray(crank_length) >= 0), "force and crank 0 or more")
    require(np.asarray(chainring_radius) > 0, "chainring radius must be above 0 m")
    return pedal_force * crank_length / chainring_radius


def sprocket_radius(*, teeth: Floats, chain_pitch: Floats) -> Floats:
    """Return the radius p/(2 sin(π/z)) [m] on which the chain's pins lie round a sprocket.

    Args:
        teeth: z [-], 3 or more.
        chain_pitch: p between two pins [m], above 0; 12.7 mm on bicycles (common practice, no source).

    Raises:
        OutOfDomain: a value outside those ranges.

    Source: geometry of a regular polygon.

    >>> print(f"{sprocket_radius(teeth=18, chain_pitch=12.7e-3) * 1e3:.2f} mm")
    36.57 mm
    """
    require((np.asarray(teeth) >= 3) & (np.asarray(chain_pitch) > 0), "3 teeth or more, a pitch above 0 m")
    radius: Floats = chain_pitch / (2 * np.sin(np.pi / np.asarray(teeth)))
    return radius


def load_at_mid_span(*, force: Array, point: Array) -> Array:
    """Return the load (..., 5) [N, N·m] at mid-span of a `force` at a `point` of the wheel.

    My = z Fx - x Fz, Mz = x Fy - y Fx; the moment about the axle turns the wheel and loads no ball.

    Args:
        force: (..., 3) [N].
        point: where it acts, from the middle between the rows (..., 3) [m].

    Source: closed form; moments r × F.
    """
    fx, fy, fz = np.moveaxis(np.asarray(force, dtype=np.float64), -1, 0)
    x, y, z = np.moveaxis(np.asarray(point, dtype=np.float64), -1, 0)
    return np.stack(np.broadcast_arrays(fx, fy, fz, z * fx - x * fz, x * fy - y * fx), axis=-1)


def drive_load(
    *, chain_pull: Floats, chain_line: Floats, sprocket_radius: Floats, tyre_radius: Floats
) -> Array:
    """Return the load (..., 5) [N, N·m] on the shell of a wheel driven by a level chain, at steady speed.

    Both forces point forward: the chain's F at the chain line and the road's F r/R at the tyre. The bearing meets
    their sum; their moments about the axle cancel.

    Args:
        chain_pull: F [N], 0 or more.
        chain_line: from the hub's middle to the right [m]; below 0 for a drive on the left.
        sprocket_radius: r [m], 0 or more.
        tyre_radius: R where the tyre meets the road [m], above 0.

    Raises:
        OutOfDomain: a value outside those ranges.

    Source: derived; balance of moments about the axle.
    """
    require(
        (np.asarray(chain_pull) >= 0) & (np.asarray(sprocket_radius) >= 0),
        "pull and sprocket radius 0 or more",
    )
    require(np.asarray(tyre_radius) > 0, "tyre radius must be above 0 m")
    traction = np.asarray(chain_pull) * sprocket_radius / tyre_radius
    return _level(-np.asarray(chain_pull), chain_line) + _level(-traction, 0.0)


def brake_load(
    *,
    road_force: Floats,
    tyre_radius: Floats,
    brake_radius: Floats,
    brake_angle: Floats,
    brake_line: Floats,
) -> Array:
    """Return the load (..., 5) [N, N·m] on the shell of a braked wheel at steady speed.

    The road holds the tyre back with B; the brake holds rim or rotor with B R/r along its way, against the turning.
    A rim brake stands in the wheel's plane, a disc brake in its rotor's: there its force tilts the shell.

    Args:
        road_force: B, what the road holds this wheel back with [N], 0 or more.
        tyre_radius: R where the tyre meets the road [m], above 0.
        brake_radius: r at which pads rub [m], above 0.
        brake_angle: where they stand, from straight up towards the rear [rad].
        brake_line: their plane, from the hub's middle to the right [m]; 0 for a rim brake.

    Raises:
        OutOfDomain: a value outside those ranges.

    Source: derived; balance of moments about the axle.
    """
    require(np.asarray(road_force) >= 0, "road force must be 0 N or more")
    require((np.asarray(tyre_radius) > 0) & (np.asarray(brake_radius) > 0), "radii must be above 0 m")
    rub = np.asarray(road_force) * tyre_radius / brake_radius
    # the wheel's top runs forward, so there the pads push to the rear; a quarter turn on, at the rear, they push down
    up, rear = -rub * np.sin(brake_angle), rub * np.cos(brake_angle)
    line = np.asarray(brake_line, dtype=np.float64)
    pads = np.stack(np.broadcast_arrays(0.0 * rub, up, rear, -line * rear, line * up), axis=-1)
    return pads + _level(np.asarray(road_force), 0.0)


def _level(rearward: Floats, line: Floats) -> Array:
    """Return the load of a force to the rear [N] at x = `line` [m]."""
    force = np.stack(np.broadcast_arrays(0.0, 0.0, np.asarray(rearward, dtype=np.float64)), axis=-1)
    point = np.stack(np.broadcast_arrays(np.asarray(line, dtype=np.float64), 0.0, 0.0), axis=-1)
    return load_at_mid_span(force=force, point=point)
