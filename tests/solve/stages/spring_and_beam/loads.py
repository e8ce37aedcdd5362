"""What rider, chain and brake put on the two rows: the wheel as a free body, forces at points.

Nothing here is imported from the package. SI throughout; x along the axle to the right, y forward, z up, from the
middle between the rows. Statics only.
"""

from math import cos, sin, tan

import numpy as np


def force_at(*, force: tuple[float, float, float], point: tuple[float, float, float]) -> np.ndarray:
    """Return a force [N] at a point [m] as forces and moments about the middle of the hub (6,) [N, N·m]."""
    return np.concatenate((np.asarray(force), np.cross(point, force)))


def road(*, radius: float, up: float = 0.0, side: float = 0.0, forward: float = 0.0) -> np.ndarray:
    """Return what the road does at the bottom of the wheel (6,) [N, N·m]."""
    return force_at(force=(side, forward, up), point=(0.0, 0.0, -radius))


def chain(*, pull: float, sprocket: float, line: float, wheel: float) -> np.ndarray:
    """Return chain pull [N] on a sprocket of radius [m] at x = `line` [m] with the road's answer to it (6,)."""
    on_top = force_at(force=(0.0, pull, 0.0), point=(line, 0.0, sprocket))
    answer = road(radius=wheel, forward=pull * sprocket / wheel)
    return np.asarray(on_top + answer)


def disc_brake(*, force: float, disc: float, line: float, wheel: float, caliper: float) -> np.ndarray:
    """Return a caliper's friction [N] on a disc of radius [m] at x = `line` with the road's answer (6,) [N, N·m].

    `caliper` is the angle of the pads above straight forward [rad].
    """
    y, z = cos(caliper), sin(caliper)
    pads = force_at(force=(0.0, -force * z, force * y), point=(line, disc * y, disc * z))
    answer = road(radius=wheel, forward=-force * disc / wheel)
    return np.asarray(pads + answer)


def row_reactions(load: np.ndarray, *, spacing: float, pitch: float, angle: float) -> np.ndarray:
    """Return the radial force on left and right row (2, 2) [N], y and z, by moments about the rows' load centres.

    Back to back: each row's load line meets the axle (pitch/2) tan α outboard of its balls.
    """
    arm = spacing / 2 + pitch / 2 * tan(angle)
    couple = np.array([load[5], -load[4]]) / (2 * arm)
    return np.stack((load[1:3] / 2 - couple, load[1:3] / 2 + couple))
