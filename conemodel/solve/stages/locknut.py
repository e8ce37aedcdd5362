"""The locked joint of the adjustable side: what tightening locknut and cone against each other does to the cone."""

from dataclasses import dataclass
from typing import Any, Generic, overload

import numpy as np

from conemodel.base.units import Number
from conemodel.parts.axle import Axle
from conemodel.parts.hub import Side, Stack
from conemodel.parts.scenario import Scenario
from conemodel.parts.setting import Setting
from conemodel.physics.thread import thread_torque_arm
from conemodel.physics.tightening import far_side_slip_torque, holding_torque, lock_force, unheld_preload
from conemodel.solve.stages.compliances import Compliances, compliances_of
from conemodel.solve.stages.inputs import Inputs, inputs_of

SHARE_OF_NUT = {"nut turned": 1.0, "cone turned out": 0.0, "both": 0.5}
"""How much of the closing is done by the nut, by technique; "both" is taken as half and half (assumption)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint(Generic[Number]):
    """The adjustable side once locked: numbers for one hub, shape (n,) for n hubs.

    Attributes:
        compliances: axial, of its members [m/N].
        force: locking force between nut and cone [N].
        backlash: axial, of the cone on its thread [m].
        holding_torque: what a spanner must hold the cone with [N·m]; not above zero where it stays by itself.
        turned_in: how far the cone turns in with the nut, as an axial length [m].
        runs_in: the cone is not kept from turning and follows the nut until the balls stop it.
        stop_preload: preload at which a cone that runs in stops [N].
        axle_torque: torque that locking puts into the axle [N·m].
        far_side_slips: the spanners on the far side cannot keep the axle from turning in its cone and nut.
    """

    compliances: Compliances[Number]
    force: Number
    backlash: Number
    holding_torque: Number
    turned_in: Number
    runs_in: bool
    stop_preload: Number
    axle_torque: Number
    far_side_slips: bool


@overload
def lock_up(scenario: Scenario) -> Joint[float]: ...
@overload
def lock_up(scenario: Scenario, inputs: Inputs[Number]) -> Joint[Number]: ...
def lock_up(scenario: Scenario, inputs: Inputs[Any] | None = None) -> Joint[Any]:
    """Return the joint of the adjustable side as the setting locks it, for one hub or for `inputs` of many.

    Whether the cone runs in or the far side slips is told of one hub only; of many, their kind's hold counts.

    Source: [VDI2230]
    """
    given = inputs or inputs_of(scenario)
    axle, setting = scenario.axle, scenario.setting
    side = scenario.hub.adjustable_side
    stack, far = scenario.stack.side(side), other_side(side)
    force = lock_force_on(scenario, side, given.lock_torque, given)
    thread = {"diameter": axle.thread_diameter, "pitch": axle.thread_pitch}
    face = {
        "thread_friction": given.thread_friction[side],
        "face_friction": given.face_friction[side],
        "face_radius": face_radius(axle, stack),
    }
    hold = holding_torque(force=force, **thread, **face)
    turns_nut = setting.technique != "cone turned out"
    free = not setting.cone_held and not stack.keyed_washer and turns_nut
    arm = thread_torque_arm(**thread, friction=given.thread_friction[side], tightening=True)
    # nothing but the axle takes up what the nut is turned with: its face turns the washer, the key the axle
    keyed_alone = stack.keyed_washer and not setting.cone_held and turns_nut
    axle_torque = given.lock_torque if keyed_alone else force * arm
    slip = far_side_slip_torque(
        force=lock_force_on(scenario, far, scenario.stack.side(far).lock_torque, given),
        **thread,
        thread_friction=given.thread_friction[far],
    )
    if setting.cone_held:
        turn = given.drift
    elif stack.keyed_washer:
        turn = stack.key_clearance
    else:  # what does not run in stays where it is by the friction of its own thread
        turn = 0.0
    return Joint(
        compliances=compliances_of(scenario, side, thread=given.thread_compliance),
        force=force,
        backlash=given.backlash,
        holding_torque=hold,
        turned_in=turn * axle.lead_per_radian,
        runs_in=free and bool(np.all(hold > 0.0) and np.all(force > 0.0)),
        stop_preload=unheld_preload(force=force, **thread, **face),
        axle_torque=axle_torque,
        far_side_slips=setting.axle_held == "far spanners" and bool(np.any(axle_torque > slip)),
    )


def lock_force_on(scenario: Scenario, side: Side, torque: Any, inputs: Inputs[Any] | None = None) -> Any:
    """Return the locking force a `torque` [N·m] at one side's locknut gives [N], for one hub or for `inputs` of many.

    Source: [VDI2230]
    """
    axle, given = scenario.axle, inputs or inputs_of(scenario)
    return lock_force(
        torque=torque,
        diameter=axle.thread_diameter,
        pitch=axle.thread_pitch,
        thread_friction=given.thread_friction[side],
        face_friction=given.face_friction[side],
        face_radius=face_radius(axle, scenario.stack.side(side)),
    )


def slack_share(setting: Setting) -> float:
    """Return how much of the thread slack is gone from end play once locked [-], contact found as the setting says."""
    return SHARE_OF_NUT[setting.technique] - (1.0 if setting.contact_found == "nut snug" else 0.0)


def face_radius(axle: Axle, stack: Stack) -> float:
    """Return the mean radius of the face under the locknut [m]."""
    return (stack.face_outer_diameter + axle.thread_diameter) / 4


def other_side(side: Side) -> Side:
    """Return the other side of the hub."""
    return "right" if side == "left" else "left"
