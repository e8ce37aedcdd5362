"""Hubs worked out together come to what each comes to alone."""

import numpy as np
import pytest

from conemodel.parts.bearing import Pair, Row
from conemodel.solve.equilibrium.arrays import arrays_of_pairs
from conemodel.solve.equilibrium.unloaded import solve_unloaded, solve_unloaded_pairs
from conemodel.solve.equilibrium.wheel_positions import solve_positions, solve_positions_of
from conemodel.solve.freeplay.free_play import (
    axle_end_direction,
    rim_direction,
    solve_free_play,
    solve_free_plays,
)
from tests.solve.hubs import REAR, pair_of

RIM = rim_direction(0.311)
LOAD = (0.0, 600.0, 0.0, 0.0, 0.0)
OPEN = REAR.replace(cone_conformity=0.6, cup_conformity=0.58)
SOUND = (pair_of(), pair_of(OPEN, REAR), pair_of().replace(axial_compliance=0.0))
TILTED = tuple(pair_of(REAR.replace(cup_tilt=(tilt, 0.0), cone_tilt=(0.0, tilt))) for tilt in (2e-3, 4e-3))
ENDS = 1e-6 * np.array([[-40.0, 5.0], [-30.0, 10.0], [-20.0, 15.0]])


@pytest.mark.parametrize("pairs", [SOUND, TILTED])
def test_balance_of_forces_of_several_hubs(pairs: tuple[Pair, ...]) -> None:
    """To the last digit, whatever is solved beside a hub: sums run in one order and each case has its own steps."""
    loaded = solve_positions_of(pairs, end_play=ENDS[: len(pairs)], load=LOAD)
    free = solve_unloaded_pairs(pairs, ENDS[: len(pairs)])
    for i, pair in enumerate(pairs):
        for ends in (ENDS[i], ENDS[i, :1]):  # one case by itself as well
            alone, cases = solve_positions(pair, end_play=ends, load=LOAD), slice(len(ends))
            assert (loaded.shell_motion[i, cases] == alone.shell_motion).all()
            assert (loaded.left.ball_load[i, cases] == alone.left.ball_load).all()
            assert (loaded.right.cone_pressure[i, cases] == alone.right.cone_pressure).all()
            assert (free.preload[i, cases] == solve_unloaded_pairs((pair,), ends[None]).preload[0]).all()
        assert free.preload[i] == pytest.approx(solve_unloaded(pair, ENDS[i]).preload, rel=1e-6, abs=1e-5)


@pytest.mark.parametrize("pairs", [SOUND, TILTED])
@pytest.mark.parametrize("count", [1, 3, 700])
def test_free_play_of_several_hubs(pairs: tuple[Pair, ...], count: int) -> None:
    """To the last digit as well, one end play or more than are worked out in one go."""
    ends = 1e-6 * np.linspace(60.0, -20.0, count)
    together = solve_free_plays(arrays_of_pairs(pairs), end_play=ends[None], direction=RIM[None, None])
    for i, pair in enumerate(pairs):
        alone = solve_free_play(pair, end_play=ends, direction=RIM)
        for field in ("low", "high", "slope", "feasible"):
            assert (getattr(together, field)[i] == getattr(alone, field)).all()


def test_free_play_grows_as_its_slope_says() -> None:
    """Against the difference of two travels, whose own error is the proof's 2e-10 m over a step of 2e-7 m."""
    step, ends = 1e-7, 1e-6 * np.array([3.0, 12.0, 33.0, 200.0])
    for pair in (SOUND[0], SOUND[1], TILTED[0]):
        slope = solve_free_play(pair, end_play=ends, direction=RIM).slope
        wider, less = (
            solve_free_play(pair, end_play=ends + way, direction=RIM).travel for way in (step, -step)
        )
        assert slope == pytest.approx((wider - less) / (2 * step), rel=1e-3, abs=2e-3)


def test_a_tight_hub_has_no_slope() -> None:
    assert solve_free_play(SOUND[0], end_play=-1e-5, direction=RIM).slope == 0


@pytest.mark.parametrize("load", [LOAD, (90.0, 600.0, 0.0, 0.0, 28.0)])
@pytest.mark.parametrize("left", [REAR, OPEN, REAR.replace(ball_count=8)])
def test_positions_seen_in_a_mirror_are_those_worked_out(left: Row, load: tuple[float, ...]) -> None:
    """A ball phase a hair out of place takes the other road: every position is solved for itself."""
    upright, hair = pair_of(left, REAR), pair_of(left.replace(phase=1e-12), REAR)
    mirrored, each = (solve_positions(pair, end_play=[-2e-5, 3e-5], load=load) for pair in (upright, hair))
    assert mirrored.preload == pytest.approx(each.preload, rel=1e-6, abs=1e-5)
    assert mirrored.shell_motion == pytest.approx(each.shell_motion, rel=1e-5, abs=1e-10)
    for row, other in ((mirrored.left, each.left), (mirrored.right, each.right)):
        assert row.ball_load == pytest.approx(other.ball_load, rel=1e-5, abs=1e-4)
        assert row.contact_angle == pytest.approx(other.contact_angle, rel=1e-5)
        assert row.cup_pressure == pytest.approx(other.cup_pressure, rel=1e-5, abs=1e4)


def test_hubs_that_cannot_be_solved_together_are_refused() -> None:
    fewer = pair_of(REAR.replace(ball_count=8))
    with pytest.raises(ValueError, match="equally many balls"):
        solve_positions_of((SOUND[0], fewer), end_play=ENDS[:2], load=LOAD)
    with pytest.raises(ValueError, match="uniform"):
        solve_positions_of((SOUND[0], TILTED[0]), end_play=ENDS[:2], load=LOAD)


def test_a_mirrored_hub_stops_alike_both_ways() -> None:
    """Left and right changed about, the rim's way out is its way in; a hair of unlikeness takes the other road."""
    hair = pair_of(REAR, REAR.replace(cup_conformity=REAR.cup_conformity + 1e-12))
    hubs = arrays_of_pairs((SOUND[0], hair, TILTED[0], pair_of(REAR.replace(phase=0.3))))
    assert hubs.are_mirror_symmetric.tolist() == [True, False, False, True]
    for direction in (RIM, rim_direction(0.311, 0.4), axle_end_direction(0.065), (0.1, 0.2, 0.0, 0.0, 0.01)):
        found = solve_free_plays(
            hubs, end_play=np.full((1, 1), 3e-5), direction=np.array(direction)[None, None]
        )
        for field in ("travel", "low", "high"):
            mirrored, other = getattr(found, field)[:2, 0]
            assert mirrored == pytest.approx(other, abs=2e-10)
        assert found.slope[0, 0] == pytest.approx(found.slope[1, 0], rel=1e-3)
