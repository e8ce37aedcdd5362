"""Terms of a hundred random hubs, held against springs, bars and rings of balls that share no code with the package."""

from dataclasses import replace
from math import pi, tan

import numpy as np
import pytest

import conemodel as cm
from conemodel.parts import library
from conemodel.parts.bearing import Pair
from conemodel.parts.hub import Hub
from conemodel.parts.scenario import Scenario
from conemodel.solve.equilibrium.pair import solve_pair
from conemodel.solve.equilibrium.unloaded import search_end_play
from conemodel.solve.stages.clamp import close_clamp
from conemodel.solve.stages.terms import pair_of, setting_terms
from tests.solve.stages.spring_and_beam.axle import ClampedHalf, bar_shortening
from tests.solve.stages.spring_and_beam.balls import Ring, Rings
from tests.solve.stages.spring_and_beam.joint import LockedSide, force_of_torque, thread_compliance

WITHIN = 0.02
"""Thread friction is rounded to sums of small angles in the package, as VDI 2230 does; here it is not."""
LOCKNUT = 5e-3
REAR = cm.load_scenario(library.SCENARIOS / "touring-rear.toml")
NUTTED = cm.load_scenario(library.SCENARIOS / "city-nutted.toml")


def random_hub(seed: int) -> Scenario:
    """Return an invented hub: sizes, lock and clamp drawn evenly, nobody's drift, balls as shipped.

    Its threads are no tighter than 40 µm: in a tighter one a locknut that a clamp has unloaded comes to bear on its
    other flank, which the package leaves out (up to 2 µm of push at 6 µm of backlash).
    """
    draw = np.random.default_rng(seed)
    start = NUTTED if seed % 3 == 0 else REAR
    diameter = draw.uniform(9e-3, 12e-3)
    plain = draw.uniform(10e-3, 40e-3) if seed % 2 else 0.0
    axle = start.axle.replace(
        thread_diameter=diameter,
        bore=draw.uniform(5.1e-3, 6e-3),
        length=0.175,
        thread_clearance=draw.uniform(40e-6, 150e-6),
        thread_core_share=draw.uniform(0, 1),
        thread_bridging=0.0,
        plain_length=plain,
        plain_diameter=diameter,
    )
    stack = start.stack.left.replace(
        locknut_length=LOCKNUT,
        washer_outer_diameter=draw.uniform(14e-3, 19e-3),
        thread_friction=draw.uniform(0.1, 0.2),
        face_friction=draw.uniform(0.1, 0.2),
    )
    changed = start.replace(
        hub=_hub_with(
            start.hub, distance=draw.uniform(66e-3, 110e-3), separation=draw.uniform(10.5e-3, 18e-3)
        ),
        axle=axle,
        stack=start.stack.replace(left=stack, right=stack),
        clamp=start.clamp.replace(force=draw.uniform(2e3, 9e3), torque=None, pick_up=None),
    )
    seats = ("dropouts", "spacer on axle end") if start is REAR else ("dropouts",)
    return changed.with_setting(
        technique=draw.choice(["nut turned", "both", "cone turned out"]),
        lock_torque=draw.uniform(5, 25),
        clamp_seat=draw.choice(seats),
        drift=0.0,
        cone_held=True,
        axle_held="vice",
    )


def _hub_with(hub: Hub, *, distance: float, separation: float) -> Hub:
    """Return the hub on which usual cones (threads 5 mm outboard of their balls) and locknuts stand so far apart."""
    return hub.replace(row_spacing=distance - 10e-3, over_locknut_width=distance + 2 * separation + LOCKNUT)


def ring(*, outer: float, inner: float) -> float:
    return pi / 4 * (outer**2 - inner**2)


def root_area(hub: Scenario) -> float:
    root = hub.axle.thread_diameter - 1.226869 * hub.axle.thread_pitch  # ISO 68-1, from memory
    return ring(outer=root, inner=hub.axle.bore)


def side_of(hub: Scenario, *, torque: float) -> tuple[LockedSide, LockedSide]:
    """Return a side of the hub before and after it is locked with `torque` [N·m]; both sides are alike."""
    axle, stack, area = hub.axle, hub.stack.left, root_area(hub)
    separation = (hub.hub.over_locknut_width - hub.hub.row_spacing - 10e-3 - LOCKNUT) / 2
    young = 206e9
    thread = thread_compliance(
        diameter=axle.thread_diameter, root_area=area, young=young, core_share=axle.thread_core_share
    )
    washers = ring(outer=stack.washer_outer_diameter, inner=axle.thread_diameter)
    backlash = (axle.thread_clearance or 0.0) * tan(pi / 6)
    side = LockedSide(
        cone_thread=thread,
        nut_thread=thread,
        segment=separation / (young * area),
        stack=separation / (young * washers),
        cone_backlash=backlash,
        nut_backlash=backlash,
    )
    force = force_of_torque(
        torque=torque,
        diameter=axle.thread_diameter,
        pitch=axle.thread_pitch,
        friction=stack.thread_friction,
        face=(stack.face_outer_diameter + axle.thread_diameter)
        / 4
        * stack.face_friction
        / stack.thread_friction,
    )
    return side, side.lock(force=force, technique=hub.setting.technique)


@pytest.mark.parametrize("seed", range(100))
def test_what_locking_and_clamping_do_is_what_springs_do(seed: int) -> None:
    hub = random_hub(seed)
    terms, clamp = setting_terms(hub), close_clamp(hub)
    loose, locked = side_of(hub, torque=hub.setting.lock_torque)
    lock_travel = locked.at_rest()[0] - loose.at_rest()[0]
    lengths = terms.lengths["locked"]
    stretched = max(abs(length) for key, length in lengths.items() if key != "thread_slack")
    assert sum(lengths.values()) == pytest.approx(lock_travel, abs=WITHIN * stretched)

    _, far = side_of(hub.with_setting(technique="nut turned"), torque=hub.stack.right.lock_torque)
    for side, state in ((locked, clamp.left), (far, clamp.right)):
        travel = side.clamped_travel(force=clamp.force, entry=state.entry)
        # of a clamp that has unloaded the nut the cone carries what it exceeds the lock by: a small difference
        rounded = WITHIN / 4 * clamp.force * side.cone_thread if state.unlocked else 0.0
        assert -state.push == pytest.approx(travel, rel=WITHIN, abs=rounded)


@pytest.mark.parametrize("seed", range(100))
def test_the_axle_shortens_as_a_bar_of_two_sections_does(seed: int) -> None:
    hub = random_hub(seed)
    axle, clamp = hub.axle, close_clamp(hub)
    lengths = [hub.hub.row_spacing + 10e-3 - axle.plain_length, axle.plain_length]
    plain = ring(outer=axle.plain_diameter, inner=axle.bore)
    force = 0.0 if hub.clamp.kind == "nuts" else clamp.force
    shorter = bar_shortening(force=force, lengths=lengths, areas=[root_area(hub), plain], young=206e9)
    assert clamp.shortening == pytest.approx(shorter, rel=WITHIN)


def clamp_term(hub: Scenario, *, bridging: float, core: float) -> float:
    """Return what the package takes off end play under the clamp [m], its two shares of the threads given."""
    given = hub.replace(axle=hub.axle.replace(thread_bridging=bridging, thread_core_share=core))
    return -sum(close_clamp(given).lengths().values())


def clamped_halves(hub: Scenario, *, area: float) -> float:
    """Return how far both races of a steel hub come together [m], its threads carrying all along."""
    axle, stack = hub.axle, hub.stack.right
    size, middle, nut = axle.thread_diameter, hub.cone_distance / 2, 2.5e-3
    mesh = stack.cone.thread_length / 2
    locknut = middle + hub.thread_separation("right")
    half = ClampedHalf(
        cone=(middle - mesh, middle + mesh),
        nut=(locknut - nut, locknut + nut),
        race=middle - mesh,
        young=206e9,
        axle_area=area,
        cone_area=ring(outer=stack.face_outer_diameter, inner=size),
        stack_area=ring(outer=stack.washer_outer_diameter, inner=size),
        teeth=thread_compliance(diameter=size, root_area=area, young=206e9, core_share=0.0),
    )
    return 2 * half.race_travel(force=close_clamp(hub).force)


@pytest.mark.parametrize("name", ["touring-rear", "road-front"])
def test_the_range_of_the_clamp_term_holds_what_threads_that_carry_all_along_give(name: str) -> None:
    """Bars on distributed springs, at root area inside the range; at stress area 4 % below its lower end at most.

    That model also lets nut and cone shorten under the force they bridge, which the package leaves out.
    """
    hub = cm.load_scenario(library.SCENARIOS / f"{name}.toml")
    most = clamp_term(hub, bridging=0.0, core=1.0)
    least = clamp_term(hub, bridging=1.0, core=0.0)
    assert least < clamped_halves(hub, area=root_area(hub)) < most
    stress = hub.axle.thread_diameter - 0.9382 * hub.axle.thread_pitch  # ISO 898, from memory
    low = clamped_halves(hub, area=ring(outer=stress, inner=hub.axle.bore))
    assert 0.96 * least < low < most
    middle = clamp_term(hub, bridging=0.5, core=hub.axle.thread_core_share)
    assert low < middle < most


def rings_of(pair: Pair) -> Rings:
    """Return the rings of a pair whose rows and grooves are alike."""
    row = pair.left
    ring_of_balls = Ring(
        ball=row.ball_diameter,
        count=row.ball_count,
        pitch=row.pitch_diameter,
        angle=row.contact_angle,
        groove=row.cone_conformity,
        young=row.young,
        poisson=row.poisson,
    )
    return Rings(ring=ring_of_balls, spacing=pair.row_spacing, yielding=pair.axial_compliance)


@pytest.mark.parametrize("seed", range(100))
def test_preload_and_every_ball_are_those_of_rings_at_least_energy(seed: int) -> None:
    """Rider, side load, chain and brake in one load; both hold to the balance of forces, so 0.01 %."""
    pair, draw = pair_of(random_hub(seed)), np.random.default_rng(1000 + seed)
    load = draw.uniform(-1, 1, 5) * [150.0, 1200.0, 1200.0, 40.0, 40.0]
    end_play = draw.uniform(-30e-6, 20e-6)
    found = solve_pair(pair, end_play=end_play, load=load)
    rest = rings_of(pair).rest(end_play=end_play, load=load)
    assert float(found.preload) == pytest.approx(rest.preload, rel=1e-4)
    balls = np.concatenate((found.left.ball_load, found.right.ball_load))
    assert balls == pytest.approx(rest.balls, rel=1e-4, abs=0.05)


@pytest.mark.parametrize("tilt", [3e-3, 6e-3, 9e-3])
@pytest.mark.parametrize("preload", [50.0, 400.0])
def test_cones_tilted_opposite_ways_take_the_end_play_that_rings_say(tilt: float, preload: float) -> None:
    """Both turn a cone truly, which draws its circle in; as a small turn it would take some 4 % more. So 0.5 %."""
    pair = pair_of(REAR)
    tilted = pair.replace(
        left=pair.left.replace(cone_tilt=(tilt, 0.0)), right=pair.right.replace(cone_tilt=(-tilt, 0.0))
    )
    taken = search_end_play(tilted, preload=preload) - search_end_play(pair, preload=preload)
    by_rings = replace(rings_of(pair), tilts=(tilt, -tilt)).tightened_by_tilt(preload=preload)
    assert taken == pytest.approx(by_rings, rel=0.005)
