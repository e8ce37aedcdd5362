"""How a hub behaves over its end play: preload, pressure, torque, free play and life as curves, solved once a hub.

Callers take the tables of a hub and pass them on. A hub's tables are the same to the last digit
whatever was solved before it or beside it, so the caches here save time and change no number.
"""

from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from conemodel.base.batch_cache import BatchCache
from conemodel.base.monotone_cubic import MonotoneCubic
from conemodel.base.units import Array
from conemodel.parts.bearing import Pair
from conemodel.parts.mounting import Wheel
from conemodel.solve.curves.fatigue import life_of
from conemodel.solve.curves.unloaded_tables import (
    KEPT,
    UnloadedTables,
    all_unloaded_tables,
    end_plays_of,
    solve_in_batches,
)
from conemodel.solve.equilibrium.wheel_positions import (
    batch_key_of,
    lies_in_mirror,
    select_case,
    solve_positions_of,
)
from conemodel.solve.freeplay.hand_positions import (
    HandPosition,
    axle_end_position,
    play_curves,
    rim_position,
    solve_felt_play,
)

LIFE_END_PLAYS = 1e-6 * np.array(
    (-150, -115, -88, -68, -53, -42, -34, -28, -22, -16.5, -11, -6, 0, 10, 40, 100), dtype=np.float64
)
"""End plays of a life curve's points [m]; monotone cubics in life's logarithm miss it by some hundredths of the best.

They stand closest where life rises to its best and falls from it, under loads as riders make them.
"""

NO_END = 1e30
"""Life taken where no ball carries anything [revolutions]."""

Load = tuple[float, float, float, float, float]
"""Force along x, y, z and moment about y, z on the shell at mid-span [N, N·m]."""


class MountedHub(NamedTuple):
    """All that a hub's tables depend on: its rows, where hands take hold [m], and the load of the road.

    `axle_arm` is None where nobody feels at the axle end.
    """

    pair: Pair
    rim_radius: float
    axle_arm: float | None
    load: Load


@dataclass(frozen=True, slots=True, kw_only=True)
class HubTables:
    """Everything about a hub that follows from its end play [m] alone.

    Attributes:
        mounted: the hub, and where it is felt and loaded.
        unloaded: what it is without load.
        rim_play, axle_end_play: free play there, stop to stop [m]; None where nobody feels.
        life: natural logarithm of its life in revolutions under the road's load [-].
    """

    mounted: MountedHub
    unloaded: UnloadedTables
    rim_play: MonotoneCubic
    axle_end_play: MonotoneCubic | None
    life: MonotoneCubic

    def play_at(self, end_play: Array) -> tuple[Array, Array]:
        """Return free play at the rim and at the axle end for each end play (n,) [m].

        It is read from the curves as far as they go, and each looser hub is worked out for itself.

        Raises:
            ValueError: the tables hold nothing of the axle end.
        """
        pair, rim_radius, axle_arm, _ = self.mounted
        if axle_arm is None or self.axle_end_play is None:
            raise ValueError("these tables were made without the axle end")
        rim, end = (c.at(np.clip(end_play, c.x[0], c.x[-1])) for c in (self.rim_play, self.axle_end_play))
        beyond = end_play > self.rim_play.x[-1]
        if beyond.any():
            far = solve_felt_play(pair, end_play[beyond], rim_radius=rim_radius, axle_arm=axle_arm)
            rim[beyond], end[beyond] = far
        return rim, end


def tables_of(mounted: MountedHub) -> HubTables:
    """Return the tables of one hub.

    Raises:
        NotConverged: no balance of forces was found.
    """
    return all_tables((mounted,))[0]


def all_tables(hubs: Iterable[MountedHub]) -> list[HubTables]:
    """Return the tables of several hubs; what is not known of them is solved together.

    Raises:
        NotConverged: no balance of forces was found.
    """
    asked = list(hubs)
    unloaded = all_unloaded_tables(hub.pair for hub in asked)
    lives = life_curves((hub.pair, hub.load) for hub in asked)
    rims = [rim_position(hub.pair, hub.rim_radius) for hub in asked]
    ends = {hub: axle_end_position(hub.pair, hub.axle_arm) for hub in asked if hub.axle_arm is not None}
    places = (*rims, *ends.values())
    play = dict(zip(places, _play_cache(places), strict=True))
    return [
        HubTables(
            mounted=hub,
            unloaded=free,
            life=life,
            rim_play=play[rim],
            axle_end_play=play[ends[hub]] if hub in ends else None,
        )
        for hub, free, life, rim in zip(asked, unloaded, lives, rims, strict=True)
    ]


def life_curves(loaded: Iterable[tuple[Pair, Load]]) -> tuple[MonotoneCubic, ...]:
    """Return `HubTables.life` of each pair under its load on the shell [N, N·m].

    Raises:
        NotConverged: no balance of forces was found.
    """
    return _life_cache(loaded)


def road_load(wheel: Wheel, *, side: bool) -> Load:
    """Return the road's load on the shell at mid-span: straight up, or with the side load at the tyre as well.

    y points up; the tyre touches the road at -y, one rim radius down. Shape (5,): N and N·m.
    """
    across = wheel.side_load if side else 0.0
    return across, wheel.radial_load, 0.0, 0.0, across * wheel.rim_radius


def _solve_plays(places: Sequence[HandPosition]) -> list[MonotoneCubic]:
    """Return free play at each of `places`; those of one kind are solved together."""
    return solve_in_batches(places, lambda place: batch_key_of(place.pair), play_curves)


def _solve_lives(loaded: Sequence[tuple[Pair, Load]]) -> list[MonotoneCubic]:
    """Return the logarithm of life of each pair under its load; those of one kind are solved together."""

    def together(lot: list[tuple[Pair, Load]]) -> list[MonotoneCubic]:
        pairs = [pair for pair, _ in lot]
        ends = end_plays_of(pairs, LIFE_END_PLAYS)
        loads = np.array([load for _, load in lot])[:, None, None]
        solution = solve_positions_of(pairs, end_play=ends, load=loads)
        lives = [life_of(pair, select_case(solution, i)) for i, pair in enumerate(pairs)]
        return [
            MonotoneCubic.through(*at) for at in zip(ends, np.log(np.minimum(lives, NO_END)), strict=True)
        ]

    def kind_of(each: tuple[Pair, Load]) -> Hashable:
        pair, load = each
        return batch_key_of(pair), lies_in_mirror(np.array(load))

    return solve_in_batches(loaded, kind_of, together)


_play_cache = BatchCache(_solve_plays, size=2 * KEPT)
_life_cache = BatchCache(_solve_lives, size=KEPT)
