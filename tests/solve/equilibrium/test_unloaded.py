"""The search for the end play of a preload, against scipy's root finder on the same balance of forces."""

import numpy as np
import pytest
from scipy.optimize import brentq

from conemodel.base.errors import NotConverged
from conemodel.solve.equilibrium.unloaded import search_end_play, solve_unloaded
from tests.solve.hubs import FRONT, REAR, pair_of


@pytest.mark.parametrize("pair", [pair_of(), pair_of(FRONT), pair_of(REAR, FRONT)])
@pytest.mark.parametrize("preload", [1e-3, 1.0, 60.0, 3000.0])
def test_the_end_play_of_a_preload_is_where_scipy_finds_it(pair, preload):
    """To a picometre or two: each search is carried to one."""

    def missing(end_play):
        return float(solve_unloaded(pair, np.array([end_play])).preload.mean()) - preload

    found = search_end_play(pair, preload=preload)
    assert found == pytest.approx(brentq(missing, -1e-3, 1e-4, xtol=1e-13), abs=3e-12)


def test_a_preload_out_of_reach_is_said_to_be():
    with pytest.raises(NotConverged, match="no end play"):
        search_end_play(pair_of(), preload=1e9)
