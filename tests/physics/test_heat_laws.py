"""Growth by heat against laws of similar shapes, the exact row kernel and rings cut into shells."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from conemodel.base.errors import OutOfDomain
from conemodel.physics import heat

ROW = {"ball": 6.35e-3, "pitch": 20e-3, "plane": 30e-3}
STEEL, ALLOY = heat.EXPANSION["steel"], heat.EXPANSION["aluminium"]


def row(angle, *, ball, pitch, plane, shell, cup, cone, axle, follows=0.0):
    """Return end play added at one row [m], each strain given; the cup held in its shell at the balls' plane."""
    across, along = ball / 2 * np.cos(angle), ball / 2 * np.sin(angle)
    track = pitch / 2 + across
    return heat.row_end_play_from_growth(
        contact_angle=angle,
        cup_outboard=shell * plane - cup * along,
        cup_radial=(cup + follows * (shell - cup)) * track,
        cone_outboard=axle * plane + cone * along,
        cone_radial=cone * (pitch / 2 - across),
        ball_growth=cone * ball,
    )


@given(st.floats(0.2, 1.2), st.floats(-60, 100), st.floats(3e-3, 7e-3), st.floats(16e-3, 30e-3))
def test_a_hub_of_one_material_grows_into_a_similar_hub(angle, warming, ball, pitch):
    strain = STEEL * warming
    same = dict.fromkeys(("shell", "cup", "cone", "axle"), strain)
    assert row(angle, ball=ball, pitch=pitch, plane=30e-3, **same) == pytest.approx(0.0, abs=1e-15)


@pytest.mark.parametrize("follows", [0.0, 1.0])
@pytest.mark.parametrize("part", ["shell", "cup", "cone", "axle"])
def test_signs_of_each_part_alone(part, follows):
    strains = dict.fromkeys(("shell", "cup", "cone", "axle"), 0.0) | {part: 1e-4}
    added = row(np.radians(40), follows=follows, **ROW, **strains)
    # cups apart close; a wider cup opens; a larger cone and larger balls close; cones apart open
    expected = {"shell": -1, "cup": 1, "cone": -1, "axle": 1}[part]
    assert np.sign(added) == expected


@pytest.mark.parametrize(("follows", "micrometre"), [(0.0, -55.2), (1.0, -27.9)])
def test_alloy_hub_with_steel_cups_80_kelvin_warmer_by_hand(follows, micrometre):
    # Shell 60 mm · (23 - 11.5)e-6 · 80 = 55.2 µm; a cup that follows: 2 · 12.432 mm · 0.92e-3 · cot 40° = 27.3 µm.
    steel, alloy = STEEL * 80, ALLOY * 80
    added = 2 * row(np.radians(40), **ROW, shell=alloy, cup=steel, cone=steel, axle=steel, follows=follows)
    assert added * 1e6 == pytest.approx(micrometre, abs=0.05)


def test_a_hundred_random_hubs_against_the_exact_triangle_of_the_row():
    """The groove centres' distance after growth, solved for the end play at which it is again its free length.

    Growth is of first order: within 2 % of what moves, up to 60 K between any two parts.
    """
    random = np.random.default_rng(8)
    for _ in range(100):
        angle, f = random.uniform(0.45, 0.95), random.uniform(0.54, 0.6)
        sizes = {"ball": random.uniform(4.5e-3, 7e-3), "pitch": random.uniform(16e-3, 26e-3)}
        plane, d = random.uniform(25e-3, 45e-3), sizes["ball"]
        shell, cup, cone, axle = random.uniform(-30, 30, 4) * (ALLOY, STEEL, STEEL, STEEL)
        arm = (f - 0.5) * d
        along, across = arm * np.sin(angle), arm * np.cos(angle)
        x = (plane * (1 + shell) + along * (1 + cup)) - (plane * (1 + axle) - along * (1 + cone))
        r = (sizes["pitch"] / 2 + across) * (1 + cone) - (sizes["pitch"] / 2 - across) * (1 + cup)
        free = f * d * (1 + cup) + f * d * (1 + cone) - d * (1 + cone)
        exact = np.sqrt(free**2 - r**2) - x  # cone outboard by this much until the row just touches
        added = row(angle, **sizes, plane=plane, shell=shell, cup=cup, cone=cone, axle=axle)
        moved = plane * abs(shell - axle) + sizes["pitch"] / 2 * abs(cup - cone) / np.tan(angle)
        assert added == pytest.approx(exact, abs=0.02 * moved)


def lame_share(a, c, b, ring, shell, ring_poisson, shell_poisson):
    """Return the same from Lamé's constants u = A r + B/r of both rings, one linear system; stress over strain."""

    def radial(young, poisson, at):  # σ_r of A r + B/r under plane stress
        return young * np.array([1 / (1 - poisson), -1 / (1 + poisson) / at**2])

    zero = np.zeros(2)
    system = np.array(
        [
            [*radial(ring, ring_poisson, a), *zero],  # nothing presses on the bore
            [*zero, *radial(shell, shell_poisson, b)],  # nor on the outside
            [*radial(ring, ring_poisson, c), *-radial(shell, shell_poisson, c)],  # equal pressure
            [c, 1 / c, -c, -1 / c],  # the shell's free growth by c is where they meet
        ]
    )
    grown = np.linalg.solve(system, [0.0, 0.0, 0.0, c])
    return (grown[0] * a + grown[1] / a) / a


@given(st.floats(1.05, 1.6), st.floats(1.02, 1.8), st.floats(0.1, 10), st.floats(0, 0.45))
def test_share_of_a_pressed_ring_solves_lames_rings(joint, outside, stiffer, poisson):
    a, c = 12.4e-3, 12.4e-3 * joint
    b = c * outside
    found = heat.pressed_ring_share(
        bore=2 * a,
        joint=2 * c,
        outside=2 * b,
        ring_young=206e9,
        shell_young=206e9 / stiffer,
        ring_poisson=poisson,
    )
    assert found == pytest.approx(lame_share(a, c, b, 206e9, 206e9 / stiffer, poisson, 0.33), rel=1e-9)


def test_a_thin_ring_follows_and_a_thin_shell_is_held():
    sizes = {"bore": 25e-3, "ring_young": 206e9, "shell_young": 71e9}
    assert heat.pressed_ring_share(joint=25.001e-3, outside=60e-3, **sizes) == pytest.approx(1.0, abs=2e-3)
    assert heat.pressed_ring_share(joint=31e-3, outside=31.001e-3, **sizes) == pytest.approx(0.0, abs=1e-3)


def test_the_middle_of_the_demo_hub():
    # By hand: 2·15.4²/(206·83.4) over (391/83.4 - 0.3)/206 + (637/163 + 0.33)/71 = 0.0276/0.0810.
    share = heat.pressed_ring_share(
        bore=24.8e-3, joint=30.8e-3, outside=40e-3, ring_young=206e9, shell_young=71e9
    )
    assert share == pytest.approx(0.34, abs=0.01)


def test_arrays_and_edges():
    growth = heat.thermal_growth(length=60e-3, expansion=ALLOY, warming=np.array([0.0, 20.0, -30.0]))
    assert growth * 1e6 == pytest.approx([0.0, 27.6, -41.4])
    with pytest.raises(OutOfDomain, match="expansion"):
        heat.thermal_growth(length=1.0, expansion=-1e-6, warming=1.0)
    with pytest.raises(OutOfDomain, match="contact angle"):
        row(0.0, **ROW, shell=0.0, cup=0.0, cone=0.0, axle=0.0)
    rings = {"bore": 24e-3, "joint": 30e-3, "outside": 40e-3, "ring_young": 206e9, "shell_young": 71e9}
    for wrong in (
        {"joint": 24e-3},
        {"outside": 29e-3},
        {"bore": 0.0},
        {"shell_young": 0.0},
        {"ring_poisson": 0.6},
    ):
        with pytest.raises(OutOfDomain):
            heat.pressed_ring_share(**rings | wrong)


def test_a_warm_fit_loosens_and_a_cold_one_tightens():
    warming = np.array([80.0, -20.0])
    taken = heat.fit_taken_by_heat(joint=31e-3, ring_growth=STEEL * warming, shell_growth=ALLOY * warming)
    # By hand: 31 mm · 11.5e-6 · 80 = 28.5 µm.
    assert taken * 1e6 == pytest.approx(np.array([28.52, -7.13]), abs=0.01)
