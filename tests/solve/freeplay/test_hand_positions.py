"""Felt play read from curves is the felt play worked out for itself."""

import numpy as np
import pytest

import conemodel as cm
from conemodel.parts import library
from conemodel.parts.bearing import Row
from conemodel.solve.curves.hub_tables import HubTables, MountedHub, tables_of
from conemodel.solve.freeplay.hand_positions import CURVE_END, end_plays_at, solve_axial_play, solve_felt_play
from conemodel.solve.stages.terms import pair_of
from tests.solve import hubs

FOLDER = library.SCENARIOS
ENDS = np.array([-2e-5, 0.0, 1e-6, 7e-6, 3.1e-5, 1.07e-4, 2.9e-4, 6e-4])
ARMS = {"rim_radius": 0.311, "axle_arm": 0.073}


def tables(name: str) -> HubTables:
    pair = pair_of(cm.load_scenario(FOLDER / f"{name}.toml"))
    return tables_of(MountedHub(pair=pair, **ARMS, load=(0.0, 600.0, 0.0, 0.0, 0.0)))


@pytest.mark.parametrize(
    ("name", "rel", "absolute"),
    [("touring-rear", 2e-4, 2e-9), ("thru-axle", 3e-4, 2e-9), ("bent-axle", 2e-2, 4e-6)],
)
def test_curves_give_what_each_case_gives(name: str, rel: float, absolute: float) -> None:
    """Two ways to the same number; a bent axle's play begins with a kink, which a curve rounds off."""
    hub = tables(name)
    each = solve_felt_play(hub.mounted.pair, ENDS, **ARMS)
    for read, worked_out in zip(hub.play_at(ENDS), each, strict=True):
        assert read == pytest.approx(worked_out, rel=rel, abs=absolute)


@pytest.mark.parametrize("row", [hubs.REAR.replace(ball_count=n) for n in (6, 7, 8, 9)])
def test_half_a_pitch_of_an_upright_hub_is_as_good_as_the_whole(row: Row) -> None:
    """A row a hair out of place is looked at all round, and nothing but the proof's nanometre tells it apart."""
    upright, hair = hubs.pair_of(row), hubs.pair_of(row.replace(phase=1e-12))
    ends = np.array([4e-6, 3e-5, 2e-4])
    for half, whole in zip(
        solve_felt_play(upright, ends, **ARMS), solve_felt_play(hair, ends, **ARMS), strict=True
    ):
        assert half == pytest.approx(whole, abs=1e-9)


def test_beyond_the_curve_each_case_is_worked_out() -> None:
    hub, far = tables("touring-rear"), np.array([1.5 * CURVE_END])
    assert hub.play_at(far)[0] == solve_felt_play(hub.mounted.pair, far, **ARMS)[0]


def test_tables_made_without_the_axle_end_say_so() -> None:
    hub = tables_of(tables("touring-rear").mounted._replace(axle_arm=None))
    with pytest.raises(ValueError, match="without the axle end"):
        hub.play_at(ENDS)


def test_a_curve_read_backwards_comes_back() -> None:
    curve = tables("road-front").rim_play
    for play in (2e-5, 1e-4, 5e-4):
        assert curve.at(end_plays_at((curve,), np.array([play])))[0] == pytest.approx(play, rel=1e-3)


def test_play_along_the_axle_is_the_end_play_itself() -> None:
    """By the definition of end play; a bound where cones lean: they only take room away."""
    true = hubs.pair_of(hubs.REAR)
    assert solve_axial_play(true, ENDS) == pytest.approx(np.maximum(ENDS, 0.0), abs=2e-9)
    left, right = true.left, true.right
    leaning = true.replace(
        left=left.replace(cone_tilt=(3e-3, 0.0)), right=right.replace(cone_tilt=(-3e-3, 0.0))
    )
    assert np.all(solve_axial_play(leaning, ENDS) <= np.maximum(ENDS, 0.0) * (1 + 2e-5) + 2e-9)
    assert solve_axial_play(leaning, ENDS)[4] < ENDS[4] - 1e-6
