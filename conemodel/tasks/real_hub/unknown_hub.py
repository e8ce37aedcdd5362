"""A real hub and a hand of which nobody knows all: what is assumed of them, and what they would then show.

Every unknown is drawn as a standard normal number, turned into its quantity by the spread the program assumes of it:
so a hub is a point `z`, and what is believed before the first reading is the same bell along every axis. The terms of
end play are those of every prediction; a turn of the cone only adds to them.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Literal, NamedTuple

import numpy as np
from scipy.special import ndtr, ndtri

from conemodel.base.units import MM, Array, Floats
from conemodel.parts.distributions import Uncertain
from conemodel.parts.priors import Beliefs
from conemodel.parts.real_hub import State
from conemodel.parts.scenario import Scenario
from conemodel.parts.unknowns.hands import RIM_PUSH
from conemodel.parts.unknowns.hub import WHEEL_STIFFNESS
from conemodel.parts.unknowns.senses import FELT_AT_RIM, FELT_RIPPLE
from conemodel.solve.curves.hub_tables import HubTables
from conemodel.solve.stages.terms import finger_preload, setting_terms
from conemodel.solve.wheel.hub_drag import TWIRL_SPEED, grease_torque
from conemodel.tasks.hand.felt_hub import FeltHub, felt_hub
from conemodel.tasks.hand.procedure import SPREAD_FACTOR
from conemodel.tasks.setting.assumptions import assumptions_of
from conemodel.tasks.setting.drawn_hubs import inputs_drawn
from conemodel.tasks.setting.scenario_tables import tables_for

STAGE_OF: dict[State, str] = {"nut loose": "backed_off", "locked": "locked", "clamped": "clamped"}
"""The stage of a prediction after which a hub stands so."""

WITHOUT_COMPARING = 2.0
"""How much more drag must differ to be noticed with nothing beside it to compare [-]: as `Scatter` has it, a guess."""

POINTS = 4000
"""Points over which a curve is read backwards: some tens of nanometres of end play each."""

DRAWN = 400
"""Hubs drawn for what is assumed of them: a mean errs by a twentieth of its spread."""

PROCEDURE = {
    "back_off": 0.0,
    "technique": "nut turned",
    "cone_held": True,
    "contact_found": "nut loose",
    "axle_held": "vice",
}
"""How the hub is worked on, as the printed page says it."""


class Shown(NamedTuple):
    """What n hubs and hands show; every array has shape (n,).

    Attributes:
        end_play: by state, the cone where the fingers left it [m].
        slack: axial, of the cone on its thread [m].
        felt_play: least play at the rim that the hand feels [m]; felt_play_at: end play that has it [m].
        felt_drag: least torque from preload that the hand feels [N·m]; felt_drag_at: end play that has it [m].
        push: each way at the rim where none was stated [N]; stiffness: of the wheel there [N/m].
        play_factor: free play at the rim over what is computed [-].
    """

    end_play: Mapping[State, Array]
    slack: Array
    felt_play: Array
    felt_play_at: Array
    felt_drag: Array
    felt_drag_at: Array
    push: Array
    stiffness: Array
    play_factor: Array

    @property
    def clamp_give(self) -> Array:
        """What closing the clamp takes off end play (n,) [m]."""
        return np.asarray(self.end_play["locked"] - self.end_play["clamped"])


@dataclass(frozen=True, kw_only=True)
class UnknownHub:
    """One hub as described, worked on as the page says, with everything that nobody measured of it and of the hand."""

    scenario: Scenario

    @cached_property
    def spreads(self) -> dict[str, Uncertain]:
        """What is assumed of the hub, by name of the input, and of push and wheel [SI]."""
        drawn = {name: spread for one in assumptions_of(self.scenario) for name, spread in one.drawn.items()}
        known = {name: spread for name, spread in drawn.items() if name in INPUTS}
        return known | {"push": Uncertain.of(RIM_PUSH), "stiffness": Uncertain.of(WHEEL_STIFFNESS)}

    @cached_property
    def factors(self) -> dict[str, tuple[float, float]]:
        """The usual value [SI] of what scatters as a ratio, and the factor either way that holds two thirds."""
        level = float(grease_torque(self.scenario, speed=TWIRL_SPEED)) + self.scenario.condition.seal_torque
        return {
            "felt_play": (MM.to_si(FELT_AT_RIM.usual), SPREAD_FACTOR),
            "felt_drag": (WITHOUT_COMPARING * FELT_RIPPLE.usual * level, SPREAD_FACTOR),
            "play_factor": (1.0, 1.0 + Beliefs().play_model),
        }

    @property
    def size(self) -> int:
        """How many unknowns there are."""
        return len(self.spreads) + len(self.factors)

    @cached_property
    def felt(self) -> FeltHub:
        """The hub as hands meet it."""
        return felt_hub(self.scenario)

    @cached_property
    def tables(self) -> HubTables:
        """What follows from its end play."""
        return tables_for(self.scenario)

    @property
    def lead(self) -> float:
        """How far the cone moves along the axle per turn [m/rad]."""
        return self.scenario.axle.lead_per_radian

    def show(self, z: Array) -> Shown:
        """Return what hubs at `z` (n, size) show.

        Raises:
            NotConverged: no balance of forces was found.
        """
        columns = iter(z.T)
        drawn = {name: _spread_at(name, spread, next(columns)) for name, spread in self.spreads.items()}
        hand = {name: usual * factor ** next(columns) for name, (usual, factor) in self.factors.items()}
        inputs = inputs_drawn(self.scenario, drawn)
        contact = self.tables.unloaded.end_play_at_preload(finger_preload(self.scenario, inputs))
        terms = setting_terms(self.scenario, inputs, contact=contact)
        return Shown(
            end_play={state: terms.end_play(stage) + np.zeros(len(z)) for state, stage in STAGE_OF.items()},
            slack=inputs.backlash + np.zeros(len(z)),
            felt_play=hand["felt_play"],
            felt_play_at=self.end_play_of_play(hand["felt_play"] / hand["play_factor"]),
            felt_drag=hand["felt_drag"],
            felt_drag_at=self.end_play_of_drag(hand["felt_drag"]),
            push=drawn["push"],
            stiffness=drawn["stiffness"],
            play_factor=hand["play_factor"],
        )

    @cached_property
    def assumed(self) -> Shown:
        """What `DRAWN` hubs show as they are assumed, always the same ones."""
        return self.show(np.random.default_rng(DRAWN).standard_normal((DRAWN, self.size)))

    def show_hand(self, coarser: float) -> Shown:
        """Return what the usual hub shows to a hand that is so many times as coarse as the usual one [-]."""
        shown = self.show(np.zeros((1, self.size)))
        play, drag = coarser * shown.felt_play, coarser * shown.felt_drag
        return shown._replace(felt_play=play, felt_drag=drag)

    def hand_at(self, what: Literal["play", "drag"], z: Array) -> float:
        """Return how far the hand of a hub `z` (size,) lies from the usual one, in standard deviations [-]."""
        place = list(self.factors).index(f"felt_{what}")
        return float(z[len(self.spreads) + place])

    def end_play_of_play(self, play: Floats) -> Array:
        """Return the end play [m] that has a free play at the rim [m] of any shape."""
        ends, plays, _ = self._curves
        felt = plays > 0
        return np.asarray(np.interp(play, plays[felt], ends[felt]))

    def end_play_of_drag(self, torque: Floats) -> Array:
        """Return the end play [m] at which preload makes a torque [N·m] of any shape."""
        ends, _, torques = self._curves
        return np.asarray(np.interp(-np.asarray(torque), -torques, ends))

    def rim_play(self, end_play: Array) -> Array:
        """Return the free play at the rim [m] at each end play (n,) [m]."""
        ends, plays, _ = self._curves
        beyond = np.maximum(end_play - ends[-1], 0.0) * plays[-1] / ends[-1]
        return np.asarray(np.interp(end_play, ends, plays) + beyond)

    def rim_give(self, push: Array, stiffness: Array) -> Array:
        """Return what wheel and bearing give at the rim under a push each way (n,) [N], stop to stop [m]."""
        felt = self.felt
        ends = (np.interp(side * push, felt.force, felt.movement) for side in (1.0, -1.0))
        out, back = ends
        return np.asarray(out - back + 2 * push / stiffness)

    @cached_property
    def _curves(self) -> tuple[Array, Array, Array]:
        """End plays (n,), rising [m], with free play at the rim [m] and torque from preload [N·m] at each."""
        play, torque = self.tables.rim_play, self.tables.unloaded.torque
        ends = np.linspace(torque.x[0], play.x[-1], POINTS)
        plays = np.where(ends > play.x[0], play.at(np.maximum(ends, play.x[0])), 0.0)
        return ends, np.maximum(plays, 0.0), torque.at(np.minimum(ends, torque.x[-1]))


INPUTS = frozenset({
    "finger_torque", "lock_torque", "drift", "backlash", "core_share", "thread_bridging", "clamp_force",
    "thread_friction", "face_friction",
})  # fmt: skip
"""Assumptions that are inputs of the terms of end play; the others move a reading by less than it errs by."""


GUESSED = frozenset({"lock_torque", "drift", "backlash", "clamp_force"})
"""Of those, lengths, turns, forces and torques whose ends are guesses: beyond them is unlikely, not impossible."""

TAIL = float(ndtri(0.9))
"""Past nine in ten on either side such a quantity goes on in its logarithm as steeply as there [standard deviations].
Held between its ends, it would stop answering near them, and the little room left would pass for knowledge."""


def _spread_at(name: str, spread: Uncertain, z: Array) -> Array:
    """Return a quantity [SI] at numbers (n,) that are standard normal."""
    if name not in GUESSED or spread.low <= 0 or spread.low == spread.high:
        return spread.at(ndtr(z))
    inside, small = np.clip(z, -TAIL, TAIL), 1e-3
    edge = np.sign(z) * TAIL
    steep = np.log(spread.at(ndtr(edge)) / spread.at(ndtr(edge * (1 - small)))) / (TAIL * small)
    return np.asarray(spread.at(ndtr(inside)) * np.exp(steep * np.maximum(np.abs(z) - TAIL, 0.0)))


def unknown_hub(scenario: Scenario) -> UnknownHub:
    """Return the hub of a scenario, worked on as the printed page says."""
    return UnknownHub(scenario=scenario.with_setting(**PROCEDURE))
