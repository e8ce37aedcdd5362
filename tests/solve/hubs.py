"""Invented hubs and loads the tests of this room share, and forces worked out by plain statics."""

import numpy as np
from hypothesis import strategies as st

from conemodel.parts.bearing import Pair, Row

REAR = Row(
    ball_diameter=6.35e-3,
    ball_count=9,
    pitch_diameter=20e-3,
    contact_angle=np.pi / 4,
    cone_conformity=0.56,
    cup_conformity=0.56,
    young=208e9,
    poisson=0.3,
)
FRONT = REAR.replace(ball_diameter=4.7625e-3, ball_count=10, pitch_diameter=18e-3, contact_angle=0.7)


def pair_of(left=REAR, right=None, **changes):
    """Return a pair; both rows alike unless `right` is given."""
    given = {"row_spacing": 60e-3, "axial_compliance": 1.55e-8, **changes}
    return Pair(left=left, right=left if right is None else right, **given)


def random_loads(count, *, seed, most=1500.0):
    """Return end plays (n,) and loads (n, 5): radial up to `most` any way, side load at a rim of 311 mm."""
    random = np.random.default_rng(seed)
    around, radial = random.uniform(0, 2 * np.pi, count), random.uniform(0, most, count)
    side = random.uniform(-0.2 * most, 0.2 * most, count)
    y, z = np.cos(around), np.sin(around)
    load = np.stack((side, radial * y, radial * z, 0.311 * side * z, -0.311 * side * y), axis=-1)
    return random.uniform(-0.06e-3, 0.15e-3, count), load


lengths = st.floats(-5e-6, 5e-6)
tilts = st.tuples(st.floats(-3e-3, 3e-3), st.floats(-3e-3, 3e-3))


@st.composite
def rows(draw, *, faults=True):
    """Draw a row: size, shape, count, and if wanted odd balls and tilts."""
    count = draw(st.integers(7, 10))
    row = REAR.replace(
        ball_diameter=draw(st.floats(4.5e-3, 6.5e-3)),
        ball_count=count,
        pitch_diameter=draw(st.floats(22e-3, 26e-3)),
        contact_angle=draw(st.floats(0.5, 0.95)),
        cone_conformity=draw(st.floats(0.52, 0.6)),
        cup_conformity=draw(st.floats(0.52, 0.6)),
        phase=draw(st.floats(-3, 3)),
    )
    if not faults:
        return row
    oversize = tuple(draw(st.lists(lengths, min_size=count, max_size=count)))
    return row.replace(ball_oversize=oversize, cone_tilt=draw(tilts), cup_tilt=draw(tilts))


@st.composite
def pairs(draw, *, faults=True):
    """Draw a pair of two different rows."""
    return Pair(
        left=draw(rows(faults=faults)),
        right=draw(rows(faults=faults)),
        row_spacing=draw(st.floats(40e-3, 75e-3)),
        axial_compliance=draw(st.sampled_from((0.0, 1e-9, 1.5e-8, 4e-8))),
    )


# Nothing, or at least a weight of one gram; lighter loads on a loose hub are beneath the model.
loads = st.tuples(
    *(st.floats(-1000, 1000).map(lambda force: force if abs(force) > 0.01 else 0.0),) * 3,
    *(st.floats(-30, 30).map(lambda moment: moment if abs(moment) > 0.001 else 0.0),) * 2,
)
end_plays = st.floats(-0.06e-3, 0.15e-3)


def forces_of_balls(pair, solution):
    """Return the force and moment (..., 5) [N, N·m] the balls put on the shell, about mid-span.

    Plain statics from the reported ball loads and contact angles: each ball pushes the cup inboard and
    outward along its line of contact, through the groove centre of the cup where that stood at the start.
    """
    total = np.zeros((*solution.preload.shape, 5))
    for side, row, state in ((-1, pair.left, solution.left), (1, pair.right, solution.right)):
        psi = row.phase + 2 * np.pi * np.arange(row.ball_count) / row.ball_count
        arm = (row.cup_conformity - 0.5) * row.ball_diameter
        x = side * (pair.row_spacing / 2 + arm * np.sin(row.contact_angle))
        radius = row.pitch_diameter / 2 - arm * np.cos(row.contact_angle)
        along = -side * state.ball_load * np.sin(state.contact_angle)
        outward = state.ball_load * np.cos(state.contact_angle)
        y, z = outward * np.cos(psi), outward * np.sin(psi)
        about_y = radius * np.sin(psi) * along - x * z
        about_z = x * y - radius * np.cos(psi) * along
        total += np.stack([part.sum(-1) for part in (along, y, z, about_y, about_z)], axis=-1)
    return total


def turned_load(load, angle):
    """Return a load (5,) turned about the axle."""
    cos, sin = np.cos(angle), np.sin(angle)
    x, y, z, my, mz = load
    return np.array([x, y * cos - z * sin, y * sin + z * cos, my * cos - mz * sin, my * sin + mz * cos])
