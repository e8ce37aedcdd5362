"""An FFT half-space solver that knows nothing of ellipses, `ContactMechanics`, presses the same ball on its race.

Given the shapes of both bodies and the approach, it finds load and pressure on a grid; nothing in it uses Hertz.
"""

import numpy as np
import pytest

from conemodel.physics.hertz import contact, equivalent_modulus
from conemodel.physics.race_curvature import cone_curvature, cup_curvature

BALL, ANGLE, PITCH, LOAD = 6.35e-3, np.radians(40), 20e-3, 100.0
GAMMA = BALL * np.cos(ANGLE) / PITCH
MODULUS = 210e9 / (2 * (1 - 0.3**2))
POINTS = 128


def gap(race_sign, conformity, along, across):
    """Return the gap [m] of a ball touching a race, quadratic near the touch.

    The race's radius of curvature along the rolling direction is that of a cone about the axle, seen at right angles
    to the contact: its middle line is dm/2 off the axle along the radius.
    """
    pitch_circle = PITCH / 2 / np.cos(ANGLE)
    race_along = race_sign * (pitch_circle - race_sign * BALL / 2)
    relative_along = 2 / BALL + 1 / race_along
    relative_across = 2 / BALL - 1 / (conformity * BALL)
    return along**2 * relative_along / 2 + across**2 * relative_across / 2


def press(race_sign, conformity, approach, half_width, half_length):
    """Return load [N] and peak pressure [Pa] found on a grid a little larger than the contact.

    The solver works in millimetres, where its own tolerances are of a fitting size.
    """
    from ContactMechanics import FreeFFTElasticHalfSpace
    from ContactMechanics.Factory import make_system
    from SurfaceTopography import Topography

    sizes = (4 * half_width, 2.6 * half_length)
    along, across = ((np.arange(POINTS) + 0.5) * size / POINTS - size / 2 for size in sizes)
    heights = -1e3 * gap(race_sign, conformity, along[:, None], across[None, :])
    sizes_mm = (1e3 * sizes[0], 1e3 * sizes[1])
    surface = Topography(heights, sizes_mm)
    substrate = FreeFFTElasticHalfSpace((POINTS, POINTS), MODULUS * 1e-6, sizes_mm)
    system = make_system(interaction="hardwall", substrate=substrate, surface=surface)
    found = system.minimize_proxy(offset=1e3 * approach, pentol=1e-9, maxiter=2000)
    assert found.success
    forces = np.abs(found.jac)
    return forces.sum(), forces.max() / (sizes[0] * sizes[1] / POINTS**2)


@pytest.mark.slow
@pytest.mark.filterwarnings("ignore")  # of the other package
@pytest.mark.parametrize("conformity", [0.52, 0.54])
@pytest.mark.parametrize(("race", "race_sign"), [(cone_curvature, 1), (cup_curvature, -1)])
def test_half_space_finds_the_same_load_and_pressure(race, race_sign, conformity):
    curvature = race(ball_diameter=BALL, conformity=conformity, gamma=GAMMA)
    touch = contact(load=LOAD, curvature=curvature, modulus=equivalent_modulus(young=210e9, poisson=0.3))
    load, pressure = press(race_sign, conformity, touch.approach, touch.semi_minor, touch.semi_major)
    assert load == pytest.approx(LOAD, rel=2e-4)  # what this grid resolves
    assert pressure == pytest.approx(touch.peak_pressure, rel=5e-4)


@pytest.mark.parametrize(
    ("race", "conformity", "approach", "pressure"),
    [(cone_curvature, 0.52, 2.6694825, 1430.135), (cup_curvature, 0.54, 2.9639219, 1321.141)],
)
def test_outputs_kept_as_data(race, conformity, approach, pressure):
    # Outputs of ContactMechanics 1.8.3 on a fine grid, µm and MPa.
    curvature = race(ball_diameter=BALL, conformity=conformity, gamma=GAMMA)
    touch = contact(load=LOAD, curvature=curvature, modulus=equivalent_modulus(young=210e9, poisson=0.3))
    assert touch.approach * 1e6 == pytest.approx(approach, rel=1e-5)
    assert touch.peak_pressure / 1e6 == pytest.approx(pressure, rel=1e-5)
