"""One kind of hub as tables over what differs from hub to hub: groove radius and thread compliance.

Preload, pressure and good range of a hundred thousand hubs cannot each be solved for; they are solved at a few
nodes and interpolated smoothly. Sound hubs only: they first touch at zero end play, wherever their balls stand.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.interpolate import PchipInterpolator

from conemodel.base.batch_cache import keep_answers
from conemodel.base.lagrange import lagrange_weights
from conemodel.base.units import Array
from conemodel.parts.scenario import Scenario
from conemodel.solve.equilibrium.unloaded import solve_unloaded
from conemodel.solve.stages.terms import pair_of
from conemodel.tasks.setting.assumptions import with_conformity
from conemodel.tasks.setting.good_range import window_of

END_PLAYS = -1e-6 * np.concatenate(
    (np.arange(600, 150, -50.0), np.arange(150, 30, -10.0), np.arange(30, 5, -2.5), np.arange(5, -0.5, -1.0))
)
"""End plays of a table [m], up to where the balls just touch."""

TIGHTEST = float(END_PLAYS[0])
"""Tightest end play of a table [m]; a tighter hub is shown as this tight."""

Nodes = tuple[float, ...]


@dataclass(frozen=True, slots=True)
class LookupTable:
    """Values over (x, groove, core share): monotone cubics along x, a parabola along each of the others.

    `curve` takes x (n,) to the values at all nodes (n, grooves, core_shares).
    """

    curve: PchipInterpolator
    grooves: Nodes
    core_shares: Nodes

    def at(self, x: Array, groove: Array, core_share: Array) -> Array:
        """Return the values of n hubs, (n,)."""
        return blend(
            np.asarray(self.curve(x)),
            lagrange_weights(groove, self.grooves),
            lagrange_weights(core_share, self.core_shares),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class KindTables:
    """What a kind of hub becomes, for any hub of it.

    Attributes:
        climb: N^(2/3) over end play [N^(2/3)], nearly straight; squeeze: its reverse [m].
        pressure: square of the worst pressure on a cone over end play [Pa²], nearly straight.
        edges: end play at which each limit of the good range is met, (grooves, core_shares) [m], with its side.
    """

    climb: LookupTable
    squeeze: LookupTable
    pressure: LookupTable
    edges: tuple[tuple[str, Array], ...]
    grooves: Nodes
    core_shares: Nodes

    def preload(self, end_play: Array, groove: Array, core_share: Array) -> Array:
        """Return the preload of n hubs, mean over the wheel's positions, (n,) [N]."""
        climb = self.climb.at(_clip(end_play), groove, core_share)
        return np.asarray(np.maximum(climb, 0.0) ** 1.5)

    def cone_pressure(self, end_play: Array, groove: Array, core_share: Array) -> Array:
        """Return the worst pressure on a cone from preload alone, (n,) [Pa]."""
        squared = self.pressure.at(_clip(end_play), groove, core_share)
        return np.sqrt(np.maximum(squared, 0.0))

    def end_play(self, preload: Array, groove: Array, core_share: Array) -> Array:
        """Return the end play at which n hubs carry a `preload` (n,) [N]: (n,) [m]."""
        return self.squeeze.at(preload ** (2 / 3), groove, core_share)

    def window(self, groove: Array, core_share: Array) -> tuple[Array, Array]:
        """Return the tight and the loose edge of the good range of n hubs, each (n,) [m]."""
        across, along = lagrange_weights(groove, self.grooves), lagrange_weights(core_share, self.core_shares)
        tight, loose = np.full(groove.shape, -np.inf), np.full(groove.shape, np.inf)
        for side, nodes in self.edges:
            edge = blend(nodes[None], across, along)
            if side == "loose":
                loose = np.minimum(loose, edge)
            else:
                tight = np.maximum(tight, edge)
        return tight, loose


def _clip(end_play: Array) -> Array:
    return np.clip(end_play, TIGHTEST, 0.0)


def blend(nodes: Array, across: Array, along: Array) -> Array:
    """Return values at nodes (n or 1, i, j) weighed by (n, i) and (n, j): (n,)."""
    return np.asarray(
        np.einsum("nij,ni,nj->n", np.broadcast_to(nodes, (len(across), *nodes.shape[1:])), across, along)
    )


def nodes_between(low: float, high: float) -> Nodes:
    """Return the ends and the middle of a range, or its one value."""
    return (low,) if low == high else (low, (low + high) / 2, high)


@keep_answers(size=64)
def tables_of(kind: Scenario, *, grooves: Nodes, core_shares: Nodes) -> KindTables:
    """Return the tables of one kind of hub with nodes at `grooves` and thread `core_shares` [-].

    Raises:
        NotConverged: no balance of forces was found.
    """
    scenarios = [
        [
            with_conformity(kind.replace(axle=kind.axle.replace(thread_core_share=core_share)), groove)
            for core_share in core_shares
        ]
        for groove in grooves
    ]
    solved = np.array([[_solve(scenario) for scenario in row] for row in scenarios])
    preload, pressure = np.moveaxis(solved, (2, 3), (0, 1))
    climb = preload ** (2 / 3)
    heights = np.linspace(0.0, climb[0].min(), 80)
    flat = climb.reshape(len(END_PLAYS), -1)
    back = np.stack([PchipInterpolator(column[::-1], END_PLAYS[::-1])(heights) for column in flat.T], axis=-1)
    return KindTables(
        climb=LookupTable(PchipInterpolator(END_PLAYS, climb), grooves, core_shares),
        squeeze=LookupTable(
            PchipInterpolator(heights, back.reshape(-1, *climb.shape[1:])), grooves, core_shares
        ),
        pressure=LookupTable(PchipInterpolator(END_PLAYS, pressure**2), grooves, core_shares),
        edges=_edges(scenarios),
        grooves=grooves,
        core_shares=core_shares,
    )


def _solve(scenario: Scenario) -> tuple[Array, Array]:
    """Return preload [N] and worst cone pressure [Pa] over `END_PLAYS`; just touching, both are zero."""
    solution = solve_unloaded(pair_of(scenario), END_PLAYS)
    rows = (solution.left, solution.right)
    pressure = np.max([row.cone_pressure.max(axis=(-2, -1)) for row in rows], axis=0)
    found = solution.preload.mean(axis=-1)
    found[-1] = pressure[-1] = 0.0
    return found, pressure


def _edges(scenarios: Sequence[Sequence[Scenario]]) -> tuple[tuple[str, Array], ...]:
    """Return the edge of every limit at every node; each is smooth where the first to bind is not."""
    limits = [[window_of(scenario).limits for scenario in row] for row in scenarios]
    first = limits[0][0]
    return tuple(
        (limit.side, np.array([[found[number].edge for found in row] for row in limits]))
        for number, limit in enumerate(first)
    )
