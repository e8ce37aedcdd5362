"""The five stages of a setting: contact, backed off, locked, clamped, ridden.

End play is a sum; every step of the mechanic adds terms to it. The terms are written down here once, for one hub
or for many of a kind; the balance of forces at each end play is `solve.equilibrium.pair`'s.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Generic, overload

import numpy as np

from conemodel.base.batch_cache import keep_answers
from conemodel.base.errors import NotConverged
from conemodel.base.units import Floats, Number
from conemodel.parts.bearing import Pair
from conemodel.parts.scenario import Scenario
from conemodel.physics.thread import thread_torque_arm
from conemodel.solve.curves.unloaded_tables import unloaded_tables
from conemodel.solve.equilibrium.unloaded import TIGHTEST
from conemodel.solve.stages.adjustable_side import AdjustableSide, find_adjustable_side
from conemodel.solve.stages.clamp import ClampState, close_clamp
from conemodel.solve.stages.compliances import preload_compliance
from conemodel.solve.stages.heat import heat_length
from conemodel.solve.stages.inputs import Inputs, inputs_of
from conemodel.solve.stages.locknut import SHARE_OF_NUT, Joint, lock_up

STAGES = ("contact", "backed_off", "locked", "clamped", "ridden")
"""The stages of a setting, in order."""

LABELS = {
    "finger": "pinched by finger",
    "slack_back": "cone falls back on its thread",
    "back_off": "cone turned out",
    "cone_backed_out": "cone backed onto the nut",
    "thread_slack": "thread slack taken up",
    "cone_thread": "cone's thread gives",
    "drift": "cone turned in with the nut",
    "axle_shortening": "axle shortens under the clamp",
    "cone_thread_clamp": "clamp pushes cones along their threads",
    "dropouts": "dropouts out of parallel bow the axle",
    "heat": "parts grow with heat",
    "cup_moved": "cups moved in the shell",
}
"""Every term of end play by its stable name, with its words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """One thing that moved the cone against its cup.

    Attributes:
        key: stable name; label: what to call it on screen.
        length: what it adds to end play [m].
        assumed: it rests on something nobody measured.
    """

    key: str
    label: str
    length: float
    assumed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingTerms(Generic[Number]):
    """What every stage of a setting adds to end play, and the joint and clamp it comes from.

    Attributes:
        scenario: the hub, or the kind of many hubs.
        lengths: by stage and by key [m]: numbers for one hub, shape (n,) for n hubs.
        joint: the locked side; clamp: the closed clamp.
    """

    scenario: Scenario
    lengths: Mapping[str, Mapping[str, Number]]
    joint: Joint[Number]
    clamp: ClampState[Number]

    def end_play(self, stage: str) -> Number:
        """Return the end play after a stage [m]."""
        upto = STAGES[: STAGES.index(stage) + 1]
        total: Any = sum(length for name in upto for length in self.lengths[name].values())
        return total  # type: ignore[no-any-return]

    @property
    def judged_end_play(self) -> Number:
        """End play by which a setting is judged: as the hub rides [m]."""
        return self.end_play("ridden")

    @property
    def terms(self) -> dict[str, tuple[Term, ...]]:
        """Each stage's terms with their words, of one hub."""
        return {stage: tuple(map(self._term, each, each.values())) for stage, each in self.lengths.items()}

    def _term(self, key: str, length: Number) -> Term:
        """Return one term with its words."""
        rests_on = {
            "finger": True,
            "slack_back": self.scenario.axle.thread_clearance is None,
            "thread_slack": self.scenario.axle.thread_clearance is None,
            "drift": not self.joint.runs_in,
            "axle_shortening": self.clamp.assumed,
            "cone_thread_clamp": self.clamp.assumed,
            "dropouts": True,
            "heat": True,
        }
        label = LABELS[key]
        if key == "drift" and self.joint.runs_in:
            label = "cone ran in with the nut"
        elif key == "back_off":
            label = label_of_turn(length)
        return Term(key=key, label=label, length=float(length), assumed=rests_on.get(key, False))


def label_of_turn(length: Floats) -> str:
    """Return what to call a turn of the cone by `length` along its thread [m]."""
    return LABELS["back_off"] if length >= 0 else "cone turned in"


@overload
def setting_terms(scenario: Scenario) -> SettingTerms[float]: ...
@overload
def setting_terms(
    scenario: Scenario, inputs: Inputs[Number], *, contact: Number | None = None
) -> SettingTerms[Number]: ...
def setting_terms(
    scenario: Scenario, inputs: Inputs[Any] | None = None, *, contact: Any = None
) -> SettingTerms[Any]:
    """Return the terms of end play, stage by stage, of one hub or of many of its kind.

    Args:
        scenario: the hub, or the kind of many.
        inputs: what differs between many hubs; the scenario's own where not given.
        contact: end play that the fingers leave [m]; found from the pair where not given.

    Raises:
        NotConverged: the finger preload cannot be found.
    """
    given = inputs or inputs_of(scenario)
    joint, clamp = lock_up(scenario, given), close_clamp(scenario, given)
    if contact is None:
        contact = contact_end_play(pair_of(scenario), float(finger_preload(scenario, given)))
    # an axle that nothing holds turns with its cone
    turned = 0.0 if scenario.setting.axle_held == "nothing" else given.back_off
    out = turned * scenario.axle.lead_per_radian
    touching = find_adjustable_side(scenario.setting.contact_found, slack=given.backlash)
    loose = touching.loosened()
    fallen_back = {"slack_back": touching.slack_taken} if touching.nut_touches else {}
    nut = SHARE_OF_NUT[scenario.setting.technique]
    before = contact + sum(fallen_back.values()) + out
    _, lengths = tighten(scenario, loose.turned(out), joint, nut=nut, before=before)
    return SettingTerms(
        scenario=scenario,
        lengths={
            "contact": {"finger": contact},
            "backed_off": {**fallen_back, "back_off": out},
            "locked": _possible(lengths, nut),
            "clamped": clamp.lengths(),
            "ridden": ridden_lengths(scenario),
        },
        joint=joint,
        clamp=clamp,
    )


def ridden_lengths(scenario: Scenario) -> dict[str, Any]:
    """Return what riding adds to end play, by key [m]: warmth, and cups that crept after the cone was set."""
    lengths = {
        "heat": heat_length(scenario),
        "cup_moved": scenario.condition.cup_moved_left + scenario.condition.cup_moved_right,
    }
    return {key: length for key, length in lengths.items() if length != 0.0}


@overload
def finger_preload(scenario: Scenario) -> float: ...
@overload
def finger_preload(scenario: Scenario, inputs: Inputs[Number]) -> Number: ...
def finger_preload(scenario: Scenario, inputs: Inputs[Any] | None = None) -> Any:
    """Return the preload that screwing the cone in by finger gives [N]. Source: [VDI2230] for the thread."""
    given, side = inputs or inputs_of(scenario), scenario.hub.adjustable_side
    return given.finger_torque / cone_arm(scenario, friction=given.thread_friction[side])


def cone_arm(scenario: Scenario, *, friction: Floats | None = None) -> Floats:
    """Return the torque on the adjustable cone per newton of preload it makes [m]. Source: [VDI2230]."""
    axle, stack = scenario.axle, scenario.stack.side(scenario.hub.adjustable_side)
    return thread_torque_arm(
        diameter=axle.thread_diameter,
        pitch=axle.thread_pitch,
        friction=stack.thread_friction if friction is None else friction,
        tightening=True,
    )


@keep_answers(size=256)
def contact_end_play(pair: Pair, preload: float) -> float:
    """Return the end play at which a pair carries a preload [N], [m]."""
    return float(unloaded_tables(pair).end_play_at_preload(preload))


@lru_cache(maxsize=256)
def pair_of(scenario: Scenario) -> Pair:
    """Return the scenario's pair of rows with everything that gives axially in series."""
    return scenario.pair(axial_compliance=preload_compliance(scenario))


def tighten(
    scenario: Scenario,
    side: AdjustableSide[Number],
    joint: Joint[Number],
    *,
    nut: float,
    before: Number,
) -> tuple[AdjustableSide[Number], dict[str, Number]]:
    """Return the adjustable side with its locknut tightened, and what that adds to end play, by key [m].

    Args:
        scenario: the hub, or the kind of many.
        side: before it is tightened.
        joint: as it will be locked.
        nut: share of the closing done by the nut [-].
        before: end play before it is tightened [m].
    """
    turned_in: Any = 0.0 if joint.runs_in else joint.turned_in
    after, lengths = side.tightened(joint, nut=nut, turned_in=turned_in)
    if joint.runs_in:
        stop = _stopped_by_the_balls(pair_of(scenario), float(joint.stop_preload))
        run: Any = np.minimum(stop - before - sum(lengths.values()), 0.0)[()]
        return after.turned(run), {**lengths, "drift": run}
    return after, lengths


def _possible(lengths: Mapping[str, Number], nut: float) -> dict[str, Number]:
    """Return the lengths of locking that its technique can have, the nut doing a share `nut` of the closing."""
    by_cone = {"cone_backed_out"}
    return {key: length for key, length in lengths.items() if (1 - nut if key in by_cone else nut) > 0.0}


def _stopped_by_the_balls(pair: Pair, preload: float) -> float:
    """Return the end play at which the balls stop a cone that is driven in [m]; `TIGHTEST` where nothing does."""
    try:
        return contact_end_play(pair, preload)
    except NotConverged:
        return TIGHTEST
