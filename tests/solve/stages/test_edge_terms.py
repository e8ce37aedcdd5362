"""Heat and dropouts of a hundred random hubs, as they stand in the sum of end play, held against beams, rings and bars.

The second model shares no code with the package; its expansions are put in from the package's own table, which is no
physics. Two per cent throughout: of a term, or where growths cancel of the largest growth.
"""

from dataclasses import replace
from math import cos, inf, pi, radians

import numpy as np
import pytest

import conemodel as cm
from conemodel.parts import library
from conemodel.parts.cone import Cone
from conemodel.parts.heat import Heat
from conemodel.parts.hub import SIDES
from conemodel.parts.scenario import Scenario
from conemodel.parts.shell import Shell
from conemodel.physics.heat import EXPANSION
from conemodel.solve.stages.inputs import inputs_over
from conemodel.solve.stages.terms import setting_terms
from tests.solve.stages.spring_and_beam.axle import Beam, ring_inertia
from tests.solve.stages.spring_and_beam.balls import Ring, Rings
from tests.solve.stages.spring_and_beam.heat import ALLOY, STEEL, Cup, WarmPair

WITHIN = 0.02
REAR = cm.load_scenario(library.SCENARIOS / "touring-rear.toml")
HUBS = pytest.mark.parametrize("seed", range(100))
WARM_STEEL = replace(STEEL, expansion=EXPANSION["steel"])
WARM_ALLOY = replace(ALLOY, expansion=EXPANSION["aluminium"])


def random_rows(draw: np.random.Generator) -> Scenario:
    """Return an invented hub with two equal rows of even balls."""
    row = REAR.hub.left.replace(
        ball_diameter=draw.uniform(4.7e-3, 6.4e-3),
        pitch_diameter=draw.uniform(20e-3, 26e-3),
        contact_angle=radians(draw.uniform(38, 48)),
        cone_conformity=(groove := draw.uniform(0.54, 0.6)),
        cup_conformity=groove,
    )
    spacing = draw.uniform(50e-3, 80e-3)
    # their threads stand 2 (b - 5 mm) further apart than the rows: 5 to 25 mm
    cone = Cone(length=20e-3, ball_place=5e-3 + draw.uniform(5e-3, 25e-3) / 2, thread_length=10e-3)
    return REAR.replace(
        hub=REAR.hub.replace(left=row, right=row, row_spacing=spacing),
        stack=REAR.stack.replace(**{side: REAR.stack.side(side).replace(cone=cone) for side in SIDES}),
    )


def skew(hub: Scenario, draw: np.random.Generator) -> Scenario:
    """Return the hub between dropouts that lean, alike or each its own way, a clamp holding what it can."""
    angle = radians(draw.uniform(0.6, 1.8))
    other = angle if draw.random() < 0.5 else radians(draw.uniform(-0.6, 1.8))
    # which face opens first when they lean unlike is left to the beam's own test
    force = draw.uniform(300, 1500) if other == angle else 30e3
    return hub.replace(
        frame=hub.frame.replace(
            left_dropout_angle=angle, right_dropout_angle=other, angular_compliance=draw.uniform(0, 2e-4)
        ),
        axle=hub.axle.replace(ends_stiffened=draw.uniform(0, 1)),
        clamp=hub.clamp.replace(force=force, pick_up=None, torque=None),
    )


def cones_by_beam(hub: Scenario) -> tuple[float, float]:
    """Return how a beam between those dropouts tilts its cones [rad]: its middle bends, its ends are all but rigid."""
    over, cones, stiff = hub.hub.over_locknut_width, hub.cone_distance, hub.axle.ends_stiffened
    end = stiff * (over - cones) / 2
    root = hub.axle.thread_diameter - 1.226869 * hub.axle.thread_pitch  # ISO 68-1, from memory
    bends = STEEL.young * ring_inertia(outer=root, inner=hub.axle.bore)
    beam = Beam(lengths=[over - 2 * end], bending=[bends], elements=200)
    frame, face = hub.frame, hub.stack.left.face_outer_diameter / 2
    bow = beam.bow(
        angles=(frame.left_dropout_angle, -frame.right_dropout_angle),
        yielding=frame.angular_compliance,
        most=face * (hub.clamp.force or inf),
    )
    return bow.slope((over - cones) / 2 - end), bow.slope((over + cones) / 2 - end)


def rings_of(hub: Scenario) -> Rings:
    row = hub.hub.left
    ring = Ring(
        ball=row.ball_diameter,
        count=row.ball_count,
        pitch=row.pitch_diameter,
        angle=row.contact_angle,
        groove=row.cone_conformity,
    )
    return Rings(ring=ring, spacing=hub.hub.row_spacing, yielding=1e-8)


@HUBS
def test_dropouts_out_of_parallel_take_what_a_bowed_beam_and_tilted_rings_say(seed: int) -> None:
    draw = np.random.default_rng(seed)
    hub = skew(random_rows(draw), draw)
    tilts = cones_by_beam(hub)
    # the rings turn about the other axis across the axle: their balls start a quarter turn back
    rings = replace(rings_of(hub), tilts=tilts, phase=-pi / 2)
    by_rings = -rings.tightened_by_tilt(preload=100.0)
    assert setting_terms(hub).lengths["clamped"]["dropouts"] == pytest.approx(by_rings, rel=WITHIN)


def test_dropouts_are_one_term_for_one_hub_and_for_many() -> None:
    """And only where the hub is clamped in them."""
    hub = skew(REAR, np.random.default_rng(1))
    forces = np.array([200.0, 800.0, 5e3])
    none = np.zeros(forces.size)
    many = setting_terms(hub, inputs_over(hub, clamp_force=forces), contact=none).lengths["clamped"]
    for force, length in zip(forces, many["dropouts"], strict=True):
        alone = hub.replace(clamp=hub.clamp.replace(force=float(force), pick_up=None, torque=None))
        assert setting_terms(alone).lengths["clamped"]["dropouts"] == pytest.approx(length, abs=1e-9)
    assert 0 > many["dropouts"][0] > many["dropouts"][1] >= many["dropouts"][2]
    on_spacers = hub.with_setting(clamp_seat="spacers on locknuts")
    assert "dropouts" not in setting_terms(on_spacers).lengths["clamped"]
    assert "dropouts" not in setting_terms(REAR).lengths["clamped"]


@HUBS
@pytest.mark.parametrize("alone", [True, False])
def test_a_warm_hub_loses_what_warm_rings_and_bars_say(seed: int, alone: bool) -> None:
    """The shell alone warm, or the axle too; the press fit holds."""
    draw = np.random.default_rng(seed)
    hub = random_rows(draw)
    row = hub.hub.left
    track = row.pitch_diameter / 2 + row.ball_diameter / 2 * cos(row.contact_angle)
    seat = track + draw.uniform(1.5e-3, 3e-3)
    outer = seat + draw.uniform(2e-3, 8e-3)
    fit = Cup(inner=track, seat=seat, outer=outer, interference=80e-6, cup=WARM_STEEL, shell=WARM_ALLOY)
    shell, axle = draw.uniform(5, 20), 0.0 if alone else draw.uniform(5, 20)
    warm = hub.replace(
        hub=hub.hub.replace(shell=Shell(cup_outer_diameter=2 * seat, outer_diameter_at_cup=2 * outer)),
        heat=Heat(shell_warming=shell, axle_warming=axle),
    )
    pair = WarmPair(
        ball=row.ball_diameter,
        pitch=row.pitch_diameter,
        angle=row.contact_angle,
        groove=row.cone_conformity,
        spacing=hub.hub.row_spacing,
        seats=hub.hub.row_spacing,
        fit=fit,
        axle=WARM_STEEL,
    )
    by_balls = pair.end_play_gained(shell=shell, cups=shell, balls=axle, axle=axle)
    largest = WARM_ALLOY.expansion * shell * hub.hub.row_spacing
    assert setting_terms(warm).lengths["ridden"]["heat"] == pytest.approx(by_balls, abs=WITHIN * largest)


def test_a_hub_of_steel_keeps_its_play_when_warmed_throughout() -> None:
    """Similarity: every dimension grows alike."""
    alike = REAR.replace(
        hub=REAR.hub.replace(shell=Shell(material="steel")), heat=Heat(shell_warming=80.0, axle_warming=80.0)
    )
    assert setting_terms(alike).lengths["ridden"].get("heat", 0.0) == pytest.approx(0.0, abs=1e-15)
    assert setting_terms(REAR).lengths["ridden"] == {}


def test_a_longer_axle_opens_by_its_own_growth() -> None:
    """An axle of another metal moves its cones by its growth up to their threads; the steel of the cones comes off."""
    hot = REAR.replace(heat=Heat(axle_warming=50.0))
    alloy = hot.replace(axle=hot.axle.replace(material="aluminium"))
    more = (EXPANSION["aluminium"] - EXPANSION["steel"]) * 50.0 * hot.cone_distance
    found = [setting_terms(each).lengths["ridden"]["heat"] for each in (hot, alloy)]
    assert found[1] - found[0] == pytest.approx(more)


def test_cups_that_creep_in_open_the_bearing_one_to_one() -> None:
    moved = REAR.replace(condition=REAR.condition.replace(cup_moved_left=12e-6, cup_moved_right=-4e-6))
    before, after = setting_terms(REAR), setting_terms(moved)
    assert after.end_play("clamped") == before.end_play("clamped")
    assert after.end_play("ridden") - before.end_play("ridden") == pytest.approx(8e-6, abs=1e-15)
