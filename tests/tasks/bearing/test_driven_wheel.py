"""A wheel that is driven or braked: what chain and brake put on the balls, and what that does to life.

Expected values: laws (balance of forces, mirror symmetry, steadiness), and that no chain pull is no chain. The loads
themselves are held against statics in `tests/physics` and `tests/solve/stages`.
"""

import numpy as np
import pytest

from conemodel.parts import library
from conemodel.parts.riding import Brake, Drive, DriveKind
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.bearing.ball_loads import loads_of
from conemodel.tasks.bearing.fatigue_life import life_ratio
from conemodel.tasks.bearing.load_cases import cases_of, load_of, shares_of
from conemodel.tasks.setting.good_range import window_of

END_PLAY = -10e-6
KINDS: tuple[DriveKind, ...] = ("screw-on freewheel", "cassette", "fixed sprocket")


def rear(**changes: object) -> Scenario:
    plain = {"drive": Drive(), "brake": Brake()}
    return load_scenario(library.SCENARIOS / "touring-rear.toml").replace(**{**plain, **changes})


def driven(kind: DriveKind = "cassette", **drive: object) -> Scenario:
    return rear(drive=Drive(kind=kind, **drive))  # type: ignore[arg-type]


def worst(scenario: Scenario, case: str = "pedalling") -> tuple[float, float]:
    found = loads_of(scenario, case, end_play=END_PLAY).worst  # type: ignore[arg-type]
    return float(found.ball_load.value), float(found.cone_pressure.value)


def test_a_wheel_without_chain_or_brake_has_no_such_load():
    assert cases_of(rear()) == ("straight", "side", "impact")
    assert cases_of(rear(drive=Drive(kind="cassette"), brake=Brake(kind="rim")))[3:] == (
        "pedalling",
        "braking",
    )


def test_no_pull_is_no_chain():
    idle = driven(pedal_force=0.0)
    assert load_of(idle, "pedalling") == pytest.approx(load_of(idle, "straight"), abs=1e-12)


@pytest.mark.parametrize("kind", KINDS)
def test_worst_ball_and_pressure_rise_with_the_pull_and_never_jump(kind):
    forces = np.linspace(0.0, 600.0, 25)
    found = np.array([worst(driven(kind, pedal_force=force)) for force in forces])
    # a pull that only unloads the other row leaves the worst ball for a while: rising from there on
    steps = np.diff(found[:, 0])
    lowest = int(found[:, 0].argmin())
    assert np.all(steps[lowest:] > 0)
    assert found[-1, 0] > 1.5 * found[0, 0]
    assert np.all(np.diff(found[lowest:, 1]) > 0)
    # no step is more than its neighbours could make of it
    assert np.abs(np.diff(steps)).max() < 0.25 * np.abs(steps).max()


@pytest.mark.parametrize("kind", KINDS)
def test_a_drive_on_the_other_side_is_the_mirror_image(kind):
    right, left = (
        loads_of(driven(kind, side=side), "pedalling", end_play=END_PLAY) for side in ("right", "left")
    )
    # each is a solution of its own, balanced to 1e-6
    assert right.worst.ball_load.value == pytest.approx(left.worst.ball_load.value, rel=1e-6)
    assert np.sort(right.right.ball_load) == pytest.approx(np.sort(left.left.ball_load), rel=1e-6, abs=1e-6)


@pytest.mark.parametrize("case", ["pedalling", "braking"])
def test_the_balls_balance_what_chain_brake_and_road_put_on_the_shell(case):
    hub = rear(drive=Drive(kind="cassette"), brake=Brake(kind="disc"))
    found = loads_of(hub, case, end_play=END_PLAY)
    force = np.zeros(3)
    for row, outward in ((found.left, -1.0), (found.right, 1.0)):
        # a ball pushes its cup outward from the axle, and inboard: its contact line meets the axle outboard
        inboard = -outward * np.sin(row.contact_angle)
        across = np.cos(row.contact_angle)
        parts = np.stack((inboard, across * np.cos(row.azimuth), across * np.sin(row.azimuth)))
        force += (row.ball_load * parts).sum(axis=-1)
    size = np.abs(found.load).max()
    assert force == pytest.approx(-np.array(found.load[:3]), abs=1e-6 * size)


def test_a_freewheel_outboard_of_its_row_loads_a_ball_more_than_a_cassette_inboard_of_it():
    # levers about the rows: 25 mm outside the row lifts the other row and loads this one by more than the pull
    assert worst(driven("screw-on freewheel"))[0] > 1.2 * worst(driven("cassette"))[0]


def test_under_a_chain_the_best_is_tighter_and_shorter_but_the_good_range_stays():
    plain, pulled = rear(), driven("screw-on freewheel", pedal_force=500.0)
    assert life_ratio(pulled).best < life_ratio(plain).best
    assert window_of(pulled) == window_of(plain)


def test_shares_add_up_to_all_turns_and_the_named_ones_come_first():
    hub = rear(drive=Drive(kind="cassette"), brake=Brake(kind="rim"))
    shares = shares_of(hub)
    assert sum(shares.values()) == pytest.approx(1.0)
    assert shares["pedalling"] == hub.mix.pedalling
    assert shares_of(hub, side_share=0.9)["pedalling"] == pytest.approx(0.1)
