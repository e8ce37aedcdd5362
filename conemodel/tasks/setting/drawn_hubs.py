"""Hubs drawn over everything that is assumed of one, all together: how likely a setting is loose, right or tight.

As in a study of many hubs, but of this hub and this setting. The hubs are the same ones whatever was asked before.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from conemodel.base.lagrange import lagrange_weights
from conemodel.base.units import Array, Floats
from conemodel.parts.distributions import UncertainTurn
from conemodel.parts.scenario import Scenario
from conemodel.parts.unknowns.hands import MARK_ERROR
from conemodel.solve.curves.hub_tables import HubTables
from conemodel.solve.stages.inputs import Inputs, inputs_over
from conemodel.solve.stages.locknut import SHARE_OF_NUT, other_side
from conemodel.solve.stages.terms import STAGES, finger_preload, setting_terms
from conemodel.tasks.setting.assumption import Assumption
from conemodel.tasks.setting.chances import Chances
from conemodel.tasks.setting.good_range import Window, find_states

HUBS = 2048
"""Hubs drawn; a share of them errs by a hundredth, less where they differ evenly."""

SEED = 20
"""Of the draw: any number, always the same, so that an answer does not change from one look to the next."""


class Solved(NamedTuple):
    """A hub as solved: its tables, its good range, its end play ridden [m], the cone where the fingers left it."""

    tables: HubTables
    window: Window
    end_play: float


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnHubs:
    """Hubs that may all be the one described; every array has shape (n,).

    Attributes:
        end_plays: by stage, from contact on, the cone where the fingers left it [m].
        tight_edge, loose_edge: of the good range [m].
        hand_error: by how much a turn of the cone and locking it again miss what was meant [m].
    """

    end_plays: Mapping[str, Array]
    tight_edge: Array
    loose_edge: Array
    hand_error: Array

    @property
    def end_play(self) -> Array:
        """End play as it rides, the cone where the fingers left it (n,) [m]."""
        return self.end_plays["ridden"]

    def chances_at(self, moved: Floats) -> Chances:
        """Return how likely a cone backed off by `moved` [m] is loose, right or tight."""
        found = find_states(self.end_play + moved, self.tight_edge, self.loose_edge)
        tight, right, loose = (float(np.mean(found == state)) for state in (-1, 0, 1))
        return Chances(loose=loose, right=right, tight=tight)

    def chances_after(self, moved: float, turns: Array) -> tuple[Array, Array]:
        """Return the chance of right and of tight after each of `turns` (t,) [m] from where a cone stands `moved` out.

        Tight is what is turned in too far, whatever the good range's width; the hand's error is counted in.
        """
        now = self.end_play + moved + self.hand_error
        least, most = np.sort(self.tight_edge - now), np.sort(self.loose_edge - now)
        not_tight, loose = (np.searchsorted(edge, turns, side="right") / now.size for edge in (least, most))
        return np.maximum(not_tight - loose, 0.0), 1.0 - not_tight

    def cautious_turn(self, moved: float, *, tight: float) -> float:
        """Return the turn furthest in [m] that leaves a chance of `tight` of ending too tight."""
        return float(np.quantile(self.tight_edge - self.end_play - moved - self.hand_error, 1.0 - tight))


def draw_hubs(
    scenario: Scenario, own: Solved, cases: Iterable[tuple[Assumption, tuple[Solved, Solved]]]
) -> DrawnHubs:
    """Return hubs drawn over all assumptions of a scenario whose cone stands where the fingers left it.

    Args:
        scenario: the hub described.
        own: it as solved.
        cases: every assumption, with the hub as solved at both its ends.

    Raises:
        NotConverged: the finger preload cannot be found.
    """
    random = np.random.default_rng(SEED)
    known = {each.name: (each, ends) for each, ends in cases}
    drawn = {
        name: spread.at(_evenly(random)) for each, _ in known.values() for name, spread in each.drawn.items()
    }
    hand = UncertainTurn.of(MARK_ERROR).at(_evenly(random))
    if "drift" in drawn:  # locked again, the cone turns in by another drift
        again = known["drift"][0].drawn["drift"].at(_evenly(random))
        hand = hand - SHARE_OF_NUT[scenario.setting.technique] * (again - drawn["drift"])
    axes = {
        name: _Axis(drawn[next(iter(each.drawn))], each, ends)
        for name, (each, ends) in known.items()
        if name in (*SOLVED_FOR, *ADDED_IN)
    }
    solved_for = [axes[name] for name in SOLVED_FOR]
    tight, loose = _edges(own, solved_for)
    return DrawnHubs(
        end_plays=_end_plays(scenario, own, drawn, solved_for, _added(own, axes)),
        tight_edge=tight,
        loose_edge=loose,
        hand_error=hand * scenario.axle.lead_per_radian,
    )


SOLVED_FOR = ("conformity", "thread_give")
"""Assumptions that change the hub itself: its good range, and where the fingers leave the cone."""

ADDED_IN = {
    "key_clearance": "locked",
    "dropout_give": "clamped",
    "ends_stiffened": "clamped",
    "heat": "ridden",
}
"""Assumptions that are no inputs of the terms of end play, with the stage in which they add to it."""


class _Axis(NamedTuple):
    """What is known at the ends of one assumption only: values drawn (n,), and the hub at both ends."""

    drawn: Array
    assumption: Assumption
    ends: tuple[Solved, Solved]

    def change(self, own: Array, low: Array, high: Array) -> Array:
        """Return what a quantity (n,) or () differs from its `own` at the values drawn: a parabola."""
        (spread,) = self.assumption.drawn.values()
        values = {spread.low: low, spread.high: high} | {self.assumption.own: own}
        weights = lagrange_weights(self.drawn, tuple(values))
        return np.asarray(
            sum(weight * (value - own) for weight, value in zip(weights.T, values.values(), strict=True))
        )


def _evenly(random: np.random.Generator) -> Array:
    """Return one number in each of `HUBS` equal parts of 0 to 1, in random order (McKay 1979, a Latin hypercube)."""
    return np.asarray((random.permutation(HUBS) + random.random(HUBS)) / HUBS)


def _edges(own: Solved, axes: Iterable[_Axis]) -> tuple[Array, Array]:
    """Return the tight and the loose edge of every hub: each limit is smooth where the first to bind is not."""
    found: dict[str, Array] = {}
    for number, limit in enumerate(own.window.limits):
        edge = np.full(HUBS, limit.edge)
        for axis in axes:
            low, high = (np.array(end.window.limits[number].edge) for end in axis.ends)
            edge = edge + axis.change(np.array(limit.edge), low, high)
        first = np.minimum if limit.side == "loose" else np.maximum
        found[limit.side] = first(found.get(limit.side, edge), edge)
    unlimited = {"tight": own.window.tight_edge, "loose": own.window.loose_edge}
    tight, loose = (found.get(side, np.full(HUBS, edge)) for side, edge in unlimited.items())
    return tight, loose


def _end_plays(
    scenario: Scenario,
    own: Solved,
    drawn: Mapping[str, Array],
    axes: Iterable[_Axis],
    added: Mapping[str, Array],
) -> dict[str, Array]:
    """Return the end play of every hub after each stage [m]: the inputs of its terms, and what is `added` in each."""
    inputs = inputs_drawn(scenario, drawn)
    pressed = np.broadcast_to(finger_preload(scenario, inputs), (HUBS,))
    contact = own.tables.unloaded.end_play_at_preload(pressed)
    changes = (
        axis.change(contact, *(end.tables.unloaded.end_play_at_preload(pressed) for end in axis.ends))
        for axis in axes
    )
    contact = contact + sum(changes)
    terms = setting_terms(scenario, inputs, contact=contact)
    found, more = {}, np.zeros(HUBS)
    for stage in STAGES:
        more = more + added.get(stage, 0.0)
        found[stage] = np.broadcast_to(terms.end_play(stage), (HUBS,)) + more
    return found


def _added(own: Solved, axes: Mapping[str, _Axis]) -> dict[str, Array]:
    """Return what the assumptions of `ADDED_IN` add to end play in each stage, by what they do at their ends [m]."""
    added: dict[str, Array] = {}
    for name in (name for name in ADDED_IN if name in axes):
        low, high = (np.array(end.end_play) for end in axes[name].ends)
        change = axes[name].change(np.array(own.end_play), low, high)
        added[ADDED_IN[name]] = added.get(ADDED_IN[name], 0.0) + change
    return added


def inputs_drawn(scenario: Scenario, drawn: Mapping[str, Array]) -> Inputs[Array]:
    """Return what the terms of end play take of hubs by what is `drawn` of them (n,) [SI], named as in assumptions."""
    side = scenario.hub.adjustable_side
    alike = ("finger_torque", "lock_torque", "drift", "backlash", "thread_bridging", "clamp_force")
    far = other_side(side)
    frictions = {
        name: {side: drawn[name], far: getattr(scenario.stack.side(far), name)}
        for name in ("thread_friction", "face_friction")
    }
    return inputs_over(
        scenario,
        thread_compliance=np.asarray(scenario.axle.thread_compliance_at(drawn["core_share"])),
        **{name: drawn[name] for name in alike if name in drawn},
        **frictions,
    )
