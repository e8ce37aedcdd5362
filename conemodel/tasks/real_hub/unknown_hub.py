"""A real hub and a hand of which nobody knows all: what is assumed of them, and what they would then show.

Every unknown is drawn as a standard normal number, turned into its quantity by the spread the program assumes of it:
so a hub is a point `z`, and what is believed before the first reading is the same bell along every axis. The terms of
end play are those of every prediction; a turn of the cone only adds to them.
"""

from dataclasses import dataclass
from functools import cached_property
from typing import Any, Literal

import numpy as np
from scipy.special import ndtr

from conemodel.base.batch_cache import keep_answers
from conemodel.base.units import DEG, MM, Array, Floats
from conemodel.parts.distributions import Uncertain, standard_error
from conemodel.parts.priors import Beliefs
from conemodel.parts.real_hub import State
from conemodel.parts.scenario import Scenario
from conemodel.parts.unknowns.hands import AXLE_PUSH_GIVE, DRIFT, MARK_ERROR, RIM_PUSH
from conemodel.parts.unknowns.hub import WHEEL_STIFFNESS
from conemodel.parts.unknowns.senses import FELT_AT_RIM, FELT_RIPPLE
from conemodel.solve.curves.hub_tables import HubTables
from conemodel.solve.stages.terms import finger_preload, setting_terms
from conemodel.solve.wheel.hub_drag import TWIRL_SPEED, grease_torque
from conemodel.tasks.hand.felt_hub import FeltHub, felt_hub
from conemodel.tasks.hand.procedure import SPREAD_FACTOR
from conemodel.tasks.real_hub.guessed_spreads import quantity_at
from conemodel.tasks.real_hub.shown import Shown
from conemodel.tasks.setting.assumptions import assumptions_of
from conemodel.tasks.setting.drawn_hubs import inputs_drawn
from conemodel.tasks.setting.good_range import Window, window_of
from conemodel.tasks.setting.scenario_tables import tables_for

STAGE_OF: dict[State, str] = {"nut loose": "backed_off", "locked": "locked", "clamped": "clamped"}
"""The stage of a prediction after which a hub stands so."""

WITHOUT_COMPARING = 2.0
"""How much more drag must differ to be noticed with nothing beside it to compare [-]: as `Scatter` has it, a guess."""

POINTS = 4000
"""Points over which a curve is read backwards: some tens of nanometres of end play each."""

DRAWS = 2000
"""Hubs drawn of those assumed, and about the likeliest: an end of an interval errs by a few hundredths of its width."""

SEED = 7
"""Of the draw: any number, always the same, so that the same readings give the same answer."""

PROCEDURE = {
    "back_off": 0.0,
    "technique": "nut turned",
    "cone_held": True,
    "contact_found": "nut loose",
    "axle_held": "vice",
}
"""How the hub is worked on, as the printed page says it."""


@dataclass(frozen=True, kw_only=True)
class UnknownHub:
    """One hub as described, worked on as the page says, with everything that nobody measured of it and of the hand."""

    scenario: Scenario
    marks: int = 0
    """At how many pen marks the cone stood."""

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
        return len(self.spreads) + len(self.factors) + (OF_MARKS + AT_MARK * self.marks if self.marks else 0)

    @cached_property
    def mark_errors(self) -> tuple[float, float]:
        """Standard errors of a turn from a mark, and of one locking against others [m]."""
        turn, drift = (standard_error(each, DEG) for each in (MARK_ERROR, DRIFT))
        return DEG.to_si(turn) * self.lead, DEG.to_si(drift) * self.lead

    @cached_property
    def felt(self) -> FeltHub:
        """The hub as hands meet it."""
        return felt_hub(self.scenario)

    @cached_property
    def tables(self) -> HubTables:
        """What follows from its end play."""
        return tables_for(self.scenario)

    @cached_property
    def window(self) -> Window:
        """Its good range."""
        return window_of(self.scenario)

    @property
    def lead(self) -> float:
        """How far the cone moves along the axle per turn [m/rad]."""
        return self.scenario.axle.lead_per_radian

    def show(self, z: Array) -> Shown:
        """Return what hubs at `z` (n, size) show.

        Raises:
            NotConverged: no balance of forces was found.
        """
        columns = iter(z[:, : len(self.spreads) + len(self.factors)].T)
        drawn = {name: quantity_at(name, spread, next(columns)) for name, spread in self.spreads.items()}
        hand = {name: usual * factor ** next(columns) for name, (usual, factor) in self.factors.items()}
        inputs = inputs_drawn(self.scenario, drawn)
        contact = self.tables.unloaded.end_play_at_preload(finger_preload(self.scenario, inputs))
        at_marks = z[:, len(self.spreads) + len(self.factors) :]
        if self.marks:
            contact = contact * CONTACT_MODEL ** at_marks[:, 0]
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
            **self._at_marks(at_marks),
        )

    def _at_marks(self, z: Array) -> dict[str, Any]:
        """Return what a hub shows at its marks, by numbers that are standard normal (n, `OF_MARKS` + all at marks)."""
        turn, drift = self.mark_errors
        turned, drifted, closed, *off = (
            z[:, OF_MARKS:].reshape(len(z), AT_MARK, self.marks).transpose(1, 0, 2)
        )
        give = AXLE_GIVE.at(ndtr(z[:, 1])) if self.marks else np.full(len(z), AXLE_GIVE.top)
        # each mark is turned to from the one before: what the hand erred by stays
        return {
            "axle_give": give,
            "turned": turn * np.cumsum(turned, axis=1),
            "drifted": drift * drifted,
            "closed": CLOSING * closed,
            "gauge_off": dict(zip(STAGE_OF, off, strict=True)),
        }

    @cached_property
    def draws(self) -> Array:
        """Numbers that are standard normal, for `DRAWS` hubs (n, size), always the same ones."""
        return np.random.default_rng(SEED).standard_normal((DRAWS, self.size))

    @cached_property
    def assumed(self) -> Shown:
        """What hubs show as they are assumed, all as likely."""
        return self.show(self.draws)

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


CONTACT_MODEL = 1.08
"""Factor either way that holds two thirds of what finger contact leaves over what is computed [-]: contact angles of 36
to 44° and grooves of 0.54 to 0.60 move it so far. It is asked of play at marks only."""

CLOSING = 0.05
"""Standard error of one closing of a clamp against others, as a share of what it takes off end play [-]. A guess."""

OF_MARKS, AT_MARK = 2, 3 + len(STAGE_OF)
"""Unknowns that marks bring: finger contact and what a push gives; and each of them: the turn to it, the drift and the
closing there, and what the gauge errs by in each state."""

AXLE_GIVE = Uncertain.of(AXLE_PUSH_GIVE)
"""What a push along the axle adds to the play read there, stop to stop [m/N]."""


def unknown_hub(scenario: Scenario, *, marks: int = 0) -> UnknownHub:
    """Return the hub of a scenario, worked on as the printed page says, its cone stood at some `marks`."""
    return _unknown_hub(scenario.with_setting(**PROCEDURE), marks)


@keep_answers(size=32)
def _unknown_hub(scenario: Scenario, marks: int) -> UnknownHub:
    """Return an unknown hub, which keeps what it works out of itself."""
    return UnknownHub(scenario=scenario, marks=marks)
