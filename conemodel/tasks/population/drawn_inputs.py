"""What differs from hub to hub in a population, drawn from evenly spread numbers."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from conemodel.base.units import Array
from conemodel.parts import unknowns
from conemodel.parts.hub import SIDES
from conemodel.parts.population import Population
from conemodel.parts.scenario import Scenario
from conemodel.physics.thread import axial_backlash
from conemodel.solve.stages.clamp_force import ASSUMED
from conemodel.solve.stages.inputs import Inputs

INPUTS: Mapping[str, str] = {
    "kind": "kind of hub",
    "thread_fit": unknowns.joint.THREAD_FIT.words,
    "clamp_force": unknowns.joint.CLAMP_FORCE.words,
    "drift": unknowns.hands.DRIFT.words,
    "back_off_error": unknowns.hands.BACK_OFF_ERROR.words,
    "finger_torque": unknowns.hands.FINGER_TORQUE.words,
    "lock_torque": unknowns.hands.LOCK_TORQUE.words,
    "thread_friction": "friction in the threads",
    "face_friction": "friction under the locknut",
    "groove": unknowns.hub.GROOVE.words,
    "thread_give": unknowns.joint.CORE_SHARE.words,
    "thread_bridging": unknowns.joint.THREAD_BRIDGING.words,
}
"""What differs from hub to hub, independent of each other, with its words."""

EXTRAS = ("second_drift", "second_error", "key", "feeler", "dial")
"""Further numbers that only the tools need: a second locking, and the errors of key, feeler and gauge."""

COLUMNS = (*INPUTS, *EXTRAS)
"""Numbers drawn for each hub, in order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Draw:
    """What is drawn for n hubs of one kind; every field has shape (n,).

    Attributes:
        back_off: turn out from finger contact, as it came out [rad]; drift: turn in while locking [rad].
        finger_torque, lock_torque: [N·m].
        thread_fit: 0 for the tightest thread the tolerance classes allow, 1 for the loosest [-].
        thread_give: share of the stretch inside an engaged thread that moves the cone [-].
        thread_bridging: where the axle's shortening lies in its range [-].
        thread_friction, face_friction: of both sides [-].
        groove: groove radius of all four races over the ball's diameter [-].
        clamp_force: [N].
    """

    back_off: Array
    drift: Array
    finger_torque: Array
    lock_torque: Array
    thread_fit: Array
    thread_give: Array
    thread_bridging: Array
    thread_friction: Array
    face_friction: Array
    groove: Array
    clamp_force: Array

    def inputs(self, kind: Scenario) -> Inputs[Array]:
        """Return what the terms of end play take of these hubs."""
        axle = kind.axle
        low, high = axle.pitch_clearance_range
        clearance = low + self.thread_fit * (high - low)
        return Inputs(
            finger_torque=self.finger_torque,
            back_off=self.back_off,
            lock_torque=self.lock_torque,
            drift=self.drift,
            backlash=np.asarray(axial_backlash(pitch_diameter_clearance=clearance)),
            thread_compliance=np.asarray(axle.thread_compliance_at(self.thread_give)),
            thread_bridging=self.thread_bridging,
            thread_friction=dict.fromkeys(SIDES, self.thread_friction),
            face_friction=dict.fromkeys(SIDES, self.face_friction),
            clamp_force=self.clamp_force,
            clamp_source=ASSUMED,
        )


def draw_inputs(population: Population, clamp: str, shares: Mapping[str, Array], back_off: float) -> Draw:
    """Return the inputs that evenly spread numbers stand for."""
    hands, threads = population.hands, population.threads
    return Draw(
        back_off=back_off + hands.back_off_error.at(shares["back_off_error"]),
        drift=hands.drift.at(shares["drift"]),
        finger_torque=hands.finger_torque.at(shares["finger_torque"]),
        lock_torque=hands.lock_torque.at(shares["lock_torque"]),
        thread_fit=threads.fit.at(shares["thread_fit"]),
        thread_give=threads.give.at(shares["thread_give"]),
        thread_bridging=threads.bridging.at(shares["thread_bridging"]),
        thread_friction=threads.friction.at(shares["thread_friction"]),
        face_friction=population.face_friction.at(shares["face_friction"]),
        groove=population.groove.at(shares["groove"]),
        clamp_force=population.clamp_force.of(clamp).at(shares["clamp_force"]),
    )
