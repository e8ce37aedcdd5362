"""The five stages of a setting: contact, backed off, locked, clamped, ridden.

End play is a sum; every step of the mechanic adds terms to it. This module writes down the terms; the balance
of forces at each end play is `solve.equilibrium.pair`'s.
"""

from dataclasses import dataclass
from functools import lru_cache

from conemodel.base.errors import NotConverged
from conemodel.parts.bearing import Pair
from conemodel.parts.scenario import Scenario
from conemodel.physics.thread import thread_torque_arm
from conemodel.solve.curves.hub_curves import end_play_at_preload
from conemodel.solve.equilibrium.unloaded import TIGHTEST
from conemodel.solve.stages.clamp import ClampState, close_clamp, preload_compliance
from conemodel.solve.stages.locknut import SHARE_OF_NUT, Joint, lock_up

STAGES = ("contact", "backed_off", "locked", "clamped", "ridden")
"""The stages of a setting, in order."""


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
class Steps:
    """The terms of every stage, and the joint and clamp they come from."""

    terms: dict[str, tuple[Term, ...]]
    joint: Joint
    clamp: ClampState

    def end_play(self, stage: str) -> float:
        """Return the end play after a stage [m]."""
        upto = STAGES[: STAGES.index(stage) + 1]
        return sum(term.length for name in upto for term in self.terms[name])


def steps_of(scenario: Scenario) -> Steps:
    """Return the terms of end play, stage by stage, for a scenario's setting.

    Errors: `NotConverged` where the finger preload cannot be found.
    """
    joint, clamp = lock_up(scenario), close_clamp(scenario)
    contact = _contact(scenario)
    backed_off = _backed_off(scenario)
    before = sum(term.length for term in (*contact, *backed_off))
    terms = {
        "contact": contact,
        "backed_off": backed_off,
        "locked": _locked(scenario, joint, before),
        "clamped": clamp_terms(clamp),
        "ridden": (),
    }
    return Steps(terms=terms, joint=joint, clamp=clamp)


def finger_preload(scenario: Scenario) -> float:
    """Return the preload that screwing the cone in by finger gives [N]. Source: [VDI2230] for the thread."""
    axle, stack = scenario.axle, scenario.stack.side(scenario.hub.adjustable_side)
    arm = thread_torque_arm(
        diameter=axle.thread_diameter,
        pitch=axle.thread_pitch,
        friction=stack.thread_friction,
        tightening=True,
    )
    return scenario.setting.finger_torque / float(arm)


@lru_cache(maxsize=256)
def contact_end_play(pair: Pair, preload: float) -> float:
    """Return the end play at which a pair carries a preload [N], [m]."""
    return end_play_at_preload(pair, preload=preload)


@lru_cache(maxsize=256)
def pair_of(scenario: Scenario) -> Pair:
    """Return the scenario's pair of rows with everything that gives axially in series."""
    return scenario.pair(axial_compliance=preload_compliance(scenario))


def _contact(scenario: Scenario) -> tuple[Term, ...]:
    """Return what the fingers do: screwed in until the balls are just pinched."""
    return (
        Term(
            key="finger",
            label="pinched by finger",
            length=contact_end_play(pair_of(scenario), finger_preload(scenario)),
            assumed=True,
        ),
    )


def _backed_off(scenario: Scenario) -> tuple[Term, ...]:
    """Return what turning the cone out does: nothing where the axle is free to turn with it."""
    turned = 0.0 if scenario.setting.axle_held == "nothing" else scenario.setting.back_off
    length = turned * scenario.axle.lead_per_radian
    return (
        Term(key="back_off", label="cone turned out" if length >= 0 else "cone turned in", length=length),
    )


def _locked(scenario: Scenario, joint: Joint, before: float) -> tuple[Term, ...]:
    """Return what locking does to a cone that stood at end play `before` [m]."""
    nut = SHARE_OF_NUT[scenario.setting.technique]
    terms: list[Term] = []
    if nut < 1.0:
        backed = (1 - nut) * joint.force * joint.gives.behind_cone
        terms.append(Term(key="cone_backed_out", label="cone backed onto the nut", length=backed))
    if nut > 0.0:
        terms += _pushed_by_nut(scenario, joint, nut)
        so_far = before + sum(term.length for term in terms)
        terms.append(_turned_with_nut(scenario, joint, nut, so_far))
    return tuple(terms)


def _pushed_by_nut(scenario: Scenario, joint: Joint, nut: float) -> tuple[Term, ...]:
    """Return how far the nut pushes the cone along its thread, doing a share `nut` of the closing."""
    return (
        Term(
            key="thread_slack",
            label="thread slack taken up",
            length=-nut * (joint.backlash - joint.taken),
            assumed=scenario.axle.thread_clearance is None,
        ),
        Term(
            key="cone_thread",
            label="cone's thread gives",
            length=-nut * joint.force * joint.gives.cone_thread,
        ),
    )


def _turned_with_nut(scenario: Scenario, joint: Joint, nut: float, so_far: float) -> Term:
    """Return how far the cone turns in with the nut from end play `so_far` [m], to the balls if nothing holds it."""
    if joint.runs_in:
        stop = _stopped_by_the_balls(pair_of(scenario), joint.stop_preload)
        return Term(key="drift", label="cone ran in with the nut", length=min(stop - so_far, 0.0))
    return Term(key="drift", label="cone turned in with the nut", length=-nut * joint.turned_in, assumed=True)


def _stopped_by_the_balls(pair: Pair, preload: float) -> float:
    """Return the end play at which the balls stop a cone that is driven in [m]; `TIGHTEST` where nothing does."""
    try:
        return contact_end_play(pair, preload)
    except NotConverged:
        return TIGHTEST


def clamp_terms(clamp: ClampState) -> tuple[Term, ...]:
    """Return what closing the clamp does, term by term."""
    return (
        Term(
            key="axle_shortening",
            label="axle shortens under the clamp",
            length=-clamp.shortening,
            assumed=clamp.assumed,
        ),
        Term(
            key="cone_thread_clamp",
            label="clamp pushes cones along their threads",
            length=-(clamp.left.push + clamp.right.push),
            assumed=clamp.assumed,
        ),
    )
