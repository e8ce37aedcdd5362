"""Tables of a hub: the same whatever was solved before or beside it, and true between their points."""

import numpy as np
import pytest

from conemodel.base.batch_cache import forget_all
from conemodel.base.errors import NotConverged
from conemodel.parts.bearing import Pair
from conemodel.solve.curves.fatigue import life_of
from conemodel.solve.curves.hub_tables import HubTables, MountedHub, all_tables, life_curves, tables_of
from conemodel.solve.curves.unloaded_tables import unloaded_tables
from conemodel.solve.equilibrium.unloaded import search_end_play, solve_unloaded
from conemodel.solve.equilibrium.wheel_positions import solve_positions
from tests.solve.hubs import FRONT, REAR, pair_of

LOAD = (0.0, 600.0, 0.0, 0.0, 0.0)
OPEN = REAR.replace(cone_conformity=0.6, cup_conformity=0.58)
TILTED = pair_of(REAR.replace(cup_tilt=(2e-3, 0.0), cone_tilt=(0.0, 2e-3)))
PAIRS = (
    pair_of(),
    pair_of(OPEN, REAR),
    pair_of().replace(axial_compliance=0.0),
    pair_of(FRONT),
    pair_of(REAR.replace(ball_count=8), REAR),
    pair_of(REAR.replace(phase=0.1)),
    TILTED,
    pair_of(REAR.replace(cone_tilt=(1e-3, 0.0))),
)


def mounted(pair: Pair) -> MountedHub:
    return MountedHub(pair, 0.311, 0.073, LOAD)


def numbers(tables: HubTables) -> list[bytes]:
    """Every number of the tables, to the last digit."""
    free = tables.unloaded
    curves = (free.preload, free.cone_pressure, free.torque, free.closing, tables.rim_play, tables.life)
    return [field.tobytes() for curve in (*curves, tables.axle_end_play or ()) for field in curve]


@pytest.fixture(scope="module")
def alone() -> dict[Pair, list[bytes]]:
    found = {}
    for pair in PAIRS:
        forget_all()
        found[pair] = numbers(tables_of(mounted(pair)))
    return found


@pytest.mark.parametrize("seed", range(6))
def test_tables_do_not_depend_on_what_is_solved_beside_a_hub_or_before_it(
    alone: dict[Pair, list[bytes]], seed: int
) -> None:
    """Hubs of all kinds in random lots, in a random order, some of them known before: to the last digit."""
    dice = np.random.default_rng(seed)
    forget_all()
    for _ in range(3):
        lot = [PAIRS[i] for i in dice.permutation(len(PAIRS))[: dice.integers(1, 6)]]
        if dice.random() < 0.3:
            unloaded_tables(lot[-1]).end_play_at_preload(40.0)
        for pair, tables in zip(lot, all_tables(map(mounted, lot)), strict=True):
            assert numbers(tables) == alone[pair]


def test_a_table_allows_for_the_give_of_axle_and_shell() -> None:
    """Each of its points, solved by itself with the give among the unknowns, comes to the same balance."""
    for pair in (PAIRS[1], pair_of(OPEN).replace(axial_compliance=4e-8), TILTED):
        curve = unloaded_tables(pair).preload
        solved = solve_unloaded(pair, curve.x)
        assert curve.height == pytest.approx(solved.preload.mean(axis=1), rel=1e-6, abs=1e-5)


@pytest.mark.parametrize("pair", [PAIRS[0], PAIRS[1], TILTED])
def test_end_play_at_a_preload_is_the_one_searched_for(pair: Pair) -> None:
    """Bisection on the balance of forces itself comes to the same nanometre, at any number of preloads at once."""
    preload = np.array([[5.0, 40.0, 300.0], [2e3, 1.2e4, 2.5e4]])
    found = unloaded_tables(pair).end_play_at_preload(preload)
    assert found.shape == preload.shape
    for place, each in np.ndenumerate(preload):
        assert found[place] == pytest.approx(search_end_play(pair, preload=float(each)), abs=2e-9)


def test_a_preload_no_hub_survives_is_refused() -> None:
    with pytest.raises(NotConverged, match="no end play down to"):
        unloaded_tables(PAIRS[0]).end_play_at_preload(np.array([40.0, 1e9]))


def test_life_between_the_points_of_its_curve() -> None:
    """Solved again half way between the points, life is off by hundredths of the best at most."""
    for pair in PAIRS[:2]:
        (curve,) = life_curves([(pair, LOAD)])
        between = (curve.x[1:] + curve.x[:-1]) / 2
        solved, best = (
            life_of(pair, solve_positions(pair, end_play=between, load=LOAD)),
            np.exp(curve.height.max()),
        )
        assert np.exp(curve.at(between)) / best == pytest.approx(solved / best, abs=0.03)
