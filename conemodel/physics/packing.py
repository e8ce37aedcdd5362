"""How many balls go round a race."""

import numpy as np

from conemodel.base.units import Floats
from conemodel.physics.domain import require


def balls_that_fit(*, ball_diameter: Floats, pitch_diameter: Floats) -> Floats:
    """Return how many balls, side by side, fill the pitch circle: π/asin(D/dm), not rounded down [-].

    Args:
        ball_diameter: D [m], above 0.
        pitch_diameter: dm of the circle through the ball centres [m], D or more.

    Raises:
        OutOfDomain: a value outside those ranges.

    Source: derived; touching balls are the sides of a regular polygon.

    >>> print(f"{balls_that_fit(ball_diameter=6.35e-3, pitch_diameter=20e-3):.2f}")
    9.72
    """
    require(np.asarray(ball_diameter) > 0, "ball diameter must be above 0 m")
    fits = np.asarray(pitch_diameter) >= ball_diameter
    require(fits, "pitch diameter must be no less than the ball diameter")
    fit: Floats = np.pi / np.arcsin(ball_diameter / pitch_diameter)
    return fit


def ball_room(*, ball_diameter: Floats, pitch_diameter: Floats, ball_count: Floats) -> Floats:
    """Return the room left over in a race, in ball widths [-]; below 0 the balls do not go in.

    Args:
        ball_diameter: D [m], above 0.
        pitch_diameter: dm [m], D or more.
        ball_count: Z [-].

    Source: derived, from `balls_that_fit`.
    """
    return balls_that_fit(ball_diameter=ball_diameter, pitch_diameter=pitch_diameter) - ball_count
