"""The good range: the end plays, once clamped, that leave no felt play and an acceptable preload."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

import numpy as np
import numpy.typing as npt

from conemodel.base.monotone_cubic import MonotoneCubic, find_last_zero
from conemodel.base.units import MM, MPA, NEWTON_MM, ONE, Array, Unit
from conemodel.parts.scenario import Scenario
from conemodel.parts.setting import Limits, State
from conemodel.solve.curves.hub_tables import NO_END, HubTables
from conemodel.solve.curves.unloaded_tables import LOOSE_END, TIGHT_END
from conemodel.solve.equilibrium.wheel_positions import touching_end_play
from conemodel.solve.freeplay.hand_positions import end_plays_at
from conemodel.tasks.setting.scenario_tables import tables_for

NOWHERE = 10e-3
"""Edge of a limit on tightness that no end play meets [m]: looser than any hub, so that no setting is good."""

EDGE_DIGITS = 12
"""Edges are given to the picometre, so that they are the same whichever hubs were solved along with one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """One limit of the good range.

    Attributes:
        name: its field in the scenario's limits; label: in words.
        side: the side of the range it bounds.
        edge: end play at which it is just met [m]; the end of the range looked at where it never is.
        value: the limit itself, SI; unit: what to print it in.
        binding: it is the first to be met on its side.
    """

    name: str
    label: str
    side: Literal["loose", "tight"]
    edge: float
    value: float
    unit: Unit
    binding: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """The good range of a hub, clamped.

    Attributes:
        loose_edge, tight_edge: its ends, end play [m]; tight_edge is the smaller.
        target: end play to aim at, the middle [m].
        limits: every limit that is switched on.
    """

    loose_edge: float
    tight_edge: float
    limits: tuple[Limit, ...]

    @property
    def target(self) -> float:
        """End play to aim at [m]: the middle, where the hand has most room for error on both sides."""
        return (self.loose_edge + self.tight_edge) / 2

    @property
    def width(self) -> float:
        """Width [m]; not above zero where no setting is good."""
        return self.loose_edge - self.tight_edge

    def state(self, end_play: float) -> State:
        """Return where a clamped end play [m] lies."""
        if end_play > self.loose_edge:
            return "loose"
        return "tight" if end_play < self.tight_edge else "right"


def find_states(end_play: Array, tight_edge: Array, loose_edge: Array) -> npt.NDArray[np.int64]:
    """Return -1 for tight, 0 for right and 1 for loose, all (n,); a reversed range has nothing right in it."""
    return np.where(end_play > loose_edge, 1, np.where(end_play < tight_edge, -1, 0))


def window_of(scenario: Scenario) -> Window:
    """Return the good range of a scenario's hub once clamped; it does not depend on the setting.

    Raises:
        NotConverged: no balance of forces was found.
    """
    return window_in(tables_for(scenario), scenario.limits)


def window_in(tables: HubTables, limits: Limits) -> Window:
    """Return the good range of a hub once clamped."""
    return windows_in((tables,), (limits,))[0]


def windows_in(tables: Sequence[HubTables], limits: Sequence[Limits]) -> tuple[Window, ...]:
    """Return the good range of each hub (h,) under its limits (h,); all hubs are sound, or none."""
    asked = [(each.mounted, limit) for each, limit in zip(tables, limits, strict=True)]
    different = {key: _Hub(each, key[1]) for key, each in zip(asked, tables, strict=True)}
    known = dict(zip(different, _work_out(list(different.values())), strict=True))
    return tuple(known[key] for key in asked)


class _Hub(NamedTuple):
    """All that a good range depends on."""

    tables: HubTables
    limits: Limits


class _Rule(NamedTuple):
    """A limit before it is known where it is met: words, side, unit, and what finds its edges for some hubs."""

    label: str
    side: Literal["loose", "tight"]
    unit: Unit
    edges: Callable[[Sequence[_Hub]], Iterable[float]]


def _work_out(hubs: Sequence[_Hub]) -> Iterator[Window]:
    """Yield the good range of each of `hubs`."""
    edges: list[dict[str, float]] = [{} for _ in hubs]
    for name, rule in _RULES.items():
        asked = [number for number, hub in enumerate(hubs) if name not in hub.limits.off]
        found = rule.edges([hubs[number] for number in asked]) if asked else ()
        for number, met in zip(asked, found, strict=True):
            edges[number][name] = round(float(met), EDGE_DIGITS)
    yield from map(_window, hubs, edges)


def _window(hub: _Hub, edges: Mapping[str, float]) -> Window:
    """Return the good range of a hub from the edges of the limits that are switched on, by name."""
    touching = touching_end_play(hub.tables.mounted.pair)
    loose = [edge for name, edge in edges.items() if _RULES[name].side == "loose"]
    tight = [edge for name, edge in edges.items() if _RULES[name].side == "tight"]
    ends = {
        "loose": min(loose, default=touching + LOOSE_END),
        "tight": max(tight, default=touching + TIGHT_END),
    }
    limits = tuple(_limit(name, edge, ends, hub.limits) for name, edge in edges.items())
    return Window(loose_edge=ends["loose"], tight_edge=ends["tight"], limits=limits)


def _limit(name: str, edge: float, ends: Mapping[str, float], limits: Limits) -> Limit:
    """Return a limit that is met at `edge` [m]; it binds where that is the end of the range on its side."""
    label, side, unit, _ = _RULES[name]
    value = getattr(limits, name)
    return Limit(
        name=name, label=label, side=side, edge=edge, value=value, unit=unit, binding=edge == ends[side]
    )


def _rim_play_edges(hubs: Sequence[_Hub]) -> Array:
    """Return where each rim has the play that may just be felt [m]."""
    return end_plays_at(
        [hub.tables.rim_play for hub in hubs], np.array([hub.limits.rim_play for hub in hubs])
    )


def _torque_edges(hubs: Sequence[_Hub]) -> Array:
    """Return above which end play each hub turns lightly enough [m]."""
    return _last_above(
        hubs, [hub.tables.unloaded.torque for hub in hubs], [hub.limits.torque for hub in hubs]
    )


def _pressure_edges(hubs: Sequence[_Hub]) -> Array:
    """Return above which end play each hub's cones are pressed little enough [m]."""
    falling = [hub.tables.unloaded.cone_pressure for hub in hubs]
    return _last_above(hubs, falling, [hub.limits.cone_pressure for hub in hubs])


def _last_above(hubs: Sequence[_Hub], falling: Sequence[MonotoneCubic], values: Sequence[float]) -> Array:
    """Return the end play [m] above which each hub's curve, falling with end play, stays under its value."""
    ends, height, slope = (np.stack(field, axis=-1) for field in zip(*falling, strict=True))
    over = height - np.array(values)
    tightest = np.array([touching_end_play(hub.tables.mounted.pair) for hub in hubs]) + TIGHT_END
    inside = np.where(over[0] <= 0, tightest, np.maximum(find_last_zero(ends, over, slope), tightest))
    return np.asarray(np.where((over[-1] > 0) & (over[0] > 0), NOWHERE, inside))


def _life_edges(hubs: Sequence[_Hub]) -> Array:
    """Return the tightest end play [m] at which each hub has its share of its best life under the straight load."""
    ends, life, _ = (
        np.stack(field, axis=-1) for field in zip(*(hub.tables.life for hub in hubs), strict=True)
    )
    # where nothing loads the balls somewhere, the best life has no end: every end play counts as good as the best
    share = np.where((life < np.log(NO_END)).all(0), life, 0.0)
    share -= share.max(0)
    looser = np.arange(len(share))[:, None] > share.argmax(0)
    rising = np.minimum.accumulate(np.where(looser, 0.0, share)[::-1])[::-1]
    over = rising - np.log([hub.limits.life_ratio for hub in hubs])
    return np.asarray(np.where(over[0] >= 0, ends[0], find_last_zero(ends, over)))


_RULES = {
    "rim_play": _Rule("no play felt at the rim", "loose", MM, _rim_play_edges),
    "torque": _Rule("turning torque from preload", "tight", NEWTON_MM, _torque_edges),
    "cone_pressure": _Rule("pressure on the cone", "tight", MPA, _pressure_edges),
    "life_ratio": _Rule("fatigue life against its best", "tight", ONE, _life_edges),
}
"""Every limit by its field in `Limits`."""
