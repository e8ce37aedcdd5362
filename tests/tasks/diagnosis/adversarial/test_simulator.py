"""Whether the simulator is honest: on a usual hub it must say what the package's forward sums say, by other means.

Where they stay apart the reason stands beside the tolerance.
"""

import ast
from pathlib import Path

import numpy as np
import pytest

from conemodel.parts.scenario import Scenario
from conemodel.solve.equilibrium.unloaded import solve_unloaded
from conemodel.solve.freeplay.hand_positions import solve_felt_play
from conemodel.solve.stages.clamp import close_clamp
from conemodel.solve.stages.terms import pair_of
from conemodel.solve.wheel.ball_drag import load_drag
from conemodel.solve.wheel.rocking import rocking_curve
from conemodel.tasks.diagnosis.assumed_hub import usual_hub
from tests.tasks.diagnosis.adversarial.clamp import taken_by_tilt
from tests.tasks.diagnosis.adversarial.hub import AXLE, RIM, Hub, draw_hub, rows_of
from tests.tasks.diagnosis.adversarial.mechanic import DIVISION, GAUGE, _read
from tests.tasks.diagnosis.adversarial.rows import bring_to_rest
from tests.tasks.diagnosis.adversarial.truth import BREATH, along_axle, at_axle_end, at_rim, find_truth, move
from tests.tasks.diagnosis.adversarial.turning import torque_of

REAR = usual_hub("rear")
FOLDER = Path(__file__).parent
ASKS_THE_PACKAGE = {"trial.py", "calibration.py", "__main__.py"}
ENDS = np.array((-30e-6, 0.0, 20e-6, 100e-6))
AROUND = np.radians(np.arange(0, 40, 5.0))
"""Azimuths over one ball pitch, nine balls."""


def nominal(count: int = 1, **changes: object) -> list[Hub]:
    """Return hubs with the usual hub's sizes, looked at once."""
    usual: dict[str, object] = {
        "angle": np.radians(40),
        "cone_groove": 0.56,
        "cup_groove": 0.56,
        "spacing": 83e-3,
        "core_share": REAR.axle.thread_core_share,
        "clamp": 5e3,
        "wheel": 60e3,
        "lean": np.zeros(2),
        "opened": 0.1e-3,
        "earlier": None,
        "missed": 0.0,
        "faults": (),
    }
    return [Hub(**{**usual, **changes}) for _ in range(count)]  # type: ignore[arg-type]


def over_a_ball_pitch(end_play: float, way: str, push: float) -> float:
    """Return how far a nominal hub moves at the rim or the axle end, mean over where its balls stand [m]."""
    count = len(AROUND)
    ways = at_rim(AROUND) if way == "rim" else at_axle_end(AROUND)
    end_plays = np.full(count, end_play)
    return float(move(rows_of(nominal(count)), end_play=end_plays, way=ways, push=push).mean())


def test_it_starts_from_the_sizes_of_the_usual_hub():
    hub, axle, stack = REAR.hub, REAR.axle, REAR.stack.left
    sizes = (axle.thread_diameter, axle.thread_pitch, axle.bore)
    assert pytest.approx(sizes) == (AXLE.thread, AXLE.pitch, AXLE.bore)
    assert pytest.approx(axle.length) == 2 * AXLE.end
    assert pytest.approx(hub.over_locknut_width) == hub.row_spacing + 2 * AXLE.outside
    assert pytest.approx((stack.cone.ball_place, stack.cone.thread_length)) == (
        AXLE.on_cone,
        AXLE.cone_thread,
    )
    assert pytest.approx((stack.washer_outer_diameter, stack.face_outer_diameter)) == (AXLE.washer, AXLE.face)
    rows = rows_of(nominal())
    for row in (hub.left, hub.right):
        assert row.ball_count == rows.count
        assert pytest.approx((row.ball_diameter, row.pitch_diameter)) == (rows.ball, rows.pitch)
    assert pytest.approx(RIM) == REAR.wheel.rim_radius


def test_what_draws_and_reads_knows_nothing_of_the_package():
    for path in FOLDER.glob("*.py"):
        if path.name in ASKS_THE_PACKAGE or path.name.startswith("test_"):
            continue
        names = [
            node.module if isinstance(node, ast.ImportFrom) else node.names[0].name
            for node in ast.walk(ast.parse(path.read_text()))
            if isinstance(node, ast.Import | ast.ImportFrom)
        ]
        assert not [name for name in names if str(name).startswith("conemodel")], path.name


@pytest.mark.parametrize("place", ["rim", "axle end"])
def test_free_play_is_that_of_the_forward_core(place):
    rim, axle_end = solve_felt_play(pair_of(REAR), ENDS, rim_radius=RIM, axle_arm=AXLE.end)
    for end_play, core in zip(ENDS, rim if place == "rim" else axle_end, strict=True):
        # what a breath squeezes the balls by: under half a micrometre at the rim; the rest is where the balls stand
        assert over_a_ball_pitch(end_play, place, BREATH) == pytest.approx(core, rel=5e-3, abs=1e-6)


@pytest.mark.parametrize("push", [2.0, 5.0])
def test_a_push_moves_the_rim_as_far_as_in_the_forward_core(push):
    pair = pair_of(REAR)
    curves = [rocking_curve(pair, end_play=ENDS, rim_radius=RIM, force=way * push).bearing for way in (1, -1)]
    ways = at_rim(np.full(len(ENDS), -np.pi / 2))  # the bottom of the wheel, where the forward core pushes
    hubs = rows_of(nominal(len(ENDS)))
    moved = move(hubs, end_play=ENDS, way=ways, push=push)
    assert moved == pytest.approx(curves[0] - curves[1], abs=0.2e-6)  # a rod of another section


def test_free_movement_along_the_axle_is_end_play_by_definition():
    ends = np.array((5e-6, 50e-6, 150e-6))
    found = move(rows_of(nominal(3)), end_play=ends, way=along_axle(3), push=BREATH)
    assert found == pytest.approx(ends, abs=0.05e-6)


def test_preload_and_torque_are_those_of_the_forward_core():
    ends = np.array((-10e-6, -30e-6, -50e-6))
    rows, pair = rows_of(nominal(3)), pair_of(REAR)
    core = solve_unloaded(pair, ends)
    own = bring_to_rest(rows, end_play=ends, load=np.zeros((3, 5))).preload
    assert own == pytest.approx(core.preload.mean(axis=-1), rel=0.04)  # a stiffer rod: its stress section
    torque = torque_of(rows, end_play=ends, dent=np.zeros(3))
    core_torque = load_drag(pair, core).torque.mean(axis=-1)
    assert torque.level == pytest.approx(core_torque, rel=0.08)  # the same, and a rounded rating
    assert torque.swing == pytest.approx(0.0, abs=1e-5)


def test_the_clamp_takes_what_it_takes_in_the_forward_core():
    """Rod by its stress section here, joined threads there: nobody's measurement; within a twentieth."""
    state = close_clamp(REAR.replace(clamp=REAR.clamp.replace(force=5e3)))
    core = state.shortening + state.left.push + state.right.push
    assert find_truth(nominal()).closing[0] == pytest.approx(core, rel=0.05)


def leaning(lean: float, **frame: float) -> Scenario:
    """Return the usual hub between dropouts that lean outward [rad], in a stiff frame, its axle free to bend."""
    angles = {"left_dropout_angle": lean, "right_dropout_angle": lean, "angular_compliance": 0.0}
    axle = REAR.axle.replace(ends_stiffened=0.0)
    return REAR.replace(frame=REAR.frame.replace(**angles, **frame), axle=axle)


def test_leaning_dropouts_take_what_they_take_in_the_forward_core():
    lean = np.radians(0.5)
    tilt = np.zeros((1, 2, 2))
    tilt[0, :, 0] = AXLE.slopes(spacing=83e-3, lean=np.array((lean, lean)), force=5e3)
    taken = float(taken_by_tilt(rows_of(nominal()), tilt)[0])
    assert -taken == pytest.approx(close_clamp(leaning(lean)).dropouts, rel=0.05)


def test_every_hub_is_the_same_whatever_else_is_drawn():
    first, again = (draw_hub(np.random.default_rng([1, 7, 0]), again=True) for _ in range(2))
    assert (first.opened, first.clamp, first.faults) == (again.opened, again.clamp, again.faults)


def test_what_is_drawn_is_what_was_fixed():
    """The project fixed the list beforehand: ranges are kept, factors hold two thirds, one of ten has two faults."""
    hubs = [draw_hub(np.random.default_rng([2, number]), again=False) for number in range(2000)]
    inside = {
        "angle": (np.radians(36), np.radians(44)), "cone_groove": (0.53, 0.62), "cup_groove": (0.53, 0.62),
        "spacing": (80.5e-3, 85.5e-3), "core_share": (0, 1),
    }  # fmt: skip
    for name, (low, high) in inside.items():
        drawn = np.array([getattr(hub, name) for hub in hubs])
        assert low <= drawn.min() < low + 0.05 * (high - low)
        assert high - 0.05 * (high - low) < drawn.max() <= high
    assert max(abs(hub.lean).sum() for hub in hubs) == pytest.approx(np.radians(1), rel=0.01)
    for name, middle, either_way in (("clamp", 5e3, 1.4), ("wheel", 60e3, 1.3)):
        drawn = np.log(np.array([getattr(hub, name) for hub in hubs]) / middle)
        assert (np.abs(drawn) < np.log(either_way)).mean() == pytest.approx(0.68, abs=0.03)
    assert np.mean([len(hub.faults) == 2 for hub in hubs]) == pytest.approx(0.1, abs=0.02)
    assert np.mean([not hub.faults for hub in hubs]) == pytest.approx(0.7, abs=0.03)


def test_a_gauge_errs_evenly_within_its_limits():
    """±0.02 mm is a range as all others: nothing beyond but what reading to a division adds, spread a/√3.

    Of 4000 readings the spread is known to about a part in a hundred.
    """
    dice = np.random.default_rng(7)
    play = dice.uniform(0.3e-3, 0.5e-3, 4000)
    error = np.array([_read(one, dice) for one in play]) - play
    assert np.abs(error).max() <= GAUGE + DIVISION / 2
    assert error.std() == pytest.approx(np.hypot(GAUGE / 3**0.5, DIVISION / 12**0.5), rel=0.03)
