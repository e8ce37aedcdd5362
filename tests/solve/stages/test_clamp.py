"""Closing the clamp: its force, where it enters, what it squeezes."""

import numpy as np
import pytest

import conemodel as cm
from conemodel.base.units import DEG, MM, UM
from conemodel.parts import library
from conemodel.parts.scenario import Scenario
from conemodel.solve.stages.clamp import close_clamp
from conemodel.solve.stages.clamp_force import clamp_force
from conemodel.solve.stages.compliances import Entry, axle_compliance, compliances_of, preload_compliance
from tests.hand_calculated_hub import hand_calculated

FOLDER = library.SCENARIOS


def hub(name: str) -> Scenario:
    return cm.load_scenario(FOLDER / f"{name}.toml")


def with_clamp(scenario: Scenario, **changes: object) -> Scenario:
    return scenario.replace(clamp=scenario.clamp.replace(**changes))


@pytest.mark.parametrize(("pick_up", "kilonewton"), [(45, 4.8), (60, 8.3)])
def test_a_levers_pick_up_angle_gives_the_clamp_force(pick_up: float, kilonewton: float) -> None:
    """By hand, k ε (1 - cos φ) with k = 13 kN/mm, ε = 1.25 mm; k here follows from the parts, so 12 %."""
    scenario = with_clamp(hub("touring-rear"), pick_up=DEG.to_si(pick_up), hand_force=1000.0)
    force, source = clamp_force(scenario)
    assert force / 1e3 == pytest.approx(kilonewton, rel=0.12)
    assert source == "from the lever's pick-up angle"


def test_a_lever_that_bites_at_a_quarter_turn_would_yield_the_rod() -> None:
    """An M5 rod of class 8.8 yields near 9 kN. Source: VDI 2230 stress area, computed."""
    scenario = with_clamp(hub("touring-rear"), pick_up=DEG.to_si(90), hand_force=1000.0)
    force, source = clamp_force(scenario)
    assert force / 1e3 == pytest.approx(9.08, abs=0.05)
    assert source == "capped where the rod yields"


def test_the_hand_caps_the_force_at_200_newton_on_the_lever() -> None:
    """200 N at the lever is the most a quick release may ask for (EN 14766:2005, 4.10.5); here it is a short one."""
    long, short = (
        clamp_force(with_clamp(hub("touring-rear"), pick_up=DEG.to_si(60), lever_length=length))
        for length in (60e-3, 30e-3)
    )
    assert long[1] == "from the lever's pick-up angle"
    assert short[1] == "capped by what the hand can close"
    assert short[0] < long[0]


def test_the_axle_shortens_by_hookes_law() -> None:
    """M10 × 1, bore 5.1, 100 mm at the thread root, steel, 5 kN: 0.061 mm. By hand."""
    rear = hand_calculated(hub("touring-rear"))
    assert MM.from_si(5000 * axle_compliance(rear)) == pytest.approx(0.061, abs=0.0005)


def test_a_plain_part_of_the_axle_is_stiffer_than_its_thread() -> None:
    rear = hub("touring-rear")
    plain = rear.replace(axle=rear.axle.replace(plain_length=60e-3, plain_diameter=10e-3))
    assert axle_compliance(plain) < axle_compliance(rear)


def test_the_give_in_series_with_the_balls_is_that_of_its_parts() -> None:
    """Axle 1.21e-5, shell 0.45e-5, two jammed cones 0.05e-5 each: 1.77e-5 mm/N. By hand."""
    assert preload_compliance(hand_calculated(hub("touring-rear"))) == pytest.approx(1.77e-8, rel=0.01)


def test_the_clamp_is_squeezed_by_force_in_proportion() -> None:
    lost = [
        close_clamp(with_clamp(hub("touring-rear"), force=force)).shortening
        for force in (0.0, 2500.0, 5000.0)
    ]
    assert lost[0] == 0.0
    assert lost[2] == pytest.approx(2 * lost[1])


def test_where_the_clamp_enters_follows_from_kind_seat_and_protrusion() -> None:
    rear = hub("touring-rear")
    entries = {
        seat: tuple(side.entry for side in close_clamp(rear.with_setting(clamp_seat=seat)).sides.values())
        for seat in ("dropouts", "spacers on locknuts", "spacer on axle end", "one side in frame")
    }
    assert entries["dropouts"] == entries["spacers on locknuts"] == ("locknut", "locknut")
    assert entries["spacer on axle end"] == entries["one side in frame"] == ("axle end", "locknut")
    assert [side.entry for side in close_clamp(hub("city-nutted")).sides.values()] == ["axle nut", "axle nut"]
    assert [side.entry for side in close_clamp(hub("proud-axle")).sides.values()] == ["axle end", "axle end"]
    assert close_clamp(hub("proud-axle").with_setting(clamp_seat="spacers on locknuts")).proud == ()


@pytest.mark.parametrize(
    ("entry", "outside", "end"), [("locknut", 0.0, 0.0), ("axle nut", 1.0, 0.0), ("axle end", 0.0, 1.0)]
)
def test_the_share_of_each_entry_solves_its_own_spring_network(
    entry: Entry, outside: float, end: float
) -> None:
    """Statics of nut, stack, cone and the axle between their threads, written as one linear system per entry.

    Unknown: force s through the stack, n from nut to axle, t tension of the axle's segment. The clamp of 1 N pushes
    the nut's face, or the axle's end where `end` is 1; where `outside` is 1 the axle beyond the nut pulls with 1 N.
    """
    rear = hub("touring-rear")
    g = compliances_of(rear, "left", thread=rear.axle.thread_compliance)
    system = np.array(
        [
            [1.0, 1.0, 0.0],  # balance of the nut: s + n is what pushes its face
            [
                0.0,
                1.0,
                1.0,
            ],  # balance of the axle at the nut: its tension is the pull beyond, less n and the end's push
            [g.stack + g.cone_thread, -g.nut_thread, g.segment],  # the nut moves alike on both paths
        ]
    )
    stack = np.linalg.solve(system, [1.0 - end, outside - end, 0.0])[0]
    assert g.share(entry) == pytest.approx(stack, rel=1e-12)


def test_an_overwhelmed_locknut_is_reported() -> None:
    """The nut's thread is slack once T > F/(1 - Φ): then the whole clamp goes through the stack."""
    weak = hub("touring-rear").with_setting(lock_torque=1.0)
    state = close_clamp(with_clamp(weak, force=8000.0)).left
    assert state.unlocked
    held = close_clamp(with_clamp(hub("touring-rear"), force=8000.0)).left
    assert not held.unlocked
    assert state.push > held.push
    assert UM.from_si(held.push) < 5
