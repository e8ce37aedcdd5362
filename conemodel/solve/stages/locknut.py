"""The locked joint of one side: what tightening locknut and cone against each other does to the cone."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal, NamedTuple

from conemodel.parts.hub import Axle, Side, Stack
from conemodel.parts.scenario import Scenario
from conemodel.physics.joint import (
    annulus_area,
    far_side_slip_torque,
    holding_torque,
    lock_force,
    section_compliance,
    stack_share,
    stack_share_axle_end,
    stack_share_nutted,
    unheld_preload,
)
from conemodel.physics.thread import thread_torque_arm

Entry = Literal["locknut", "axle end", "axle nut"]
"""Where the clamp's force enters the axle on one side."""

SHARES = {"locknut": stack_share, "axle end": stack_share_axle_end, "axle nut": stack_share_nutted}
"""Which law gives the share of the clamp that goes through stack and cone, by where it enters."""

SHARE_OF_NUT = {"nut turned": 1.0, "cone turned out": 0.0, "both": 0.5}
"""How much of the closing is done by the nut, by technique; "both" is taken as half and half (assumption)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gives:
    """Axial give of what the locking force passes through on one side, per newton [m/N]."""

    cone_thread: float
    nut_thread: float
    segment: float
    stack: float

    @property
    def behind_cone(self) -> float:
        """Give of everything the cone is jammed against: nut thread, axle segment and stack [m/N]."""
        return self.nut_thread + self.segment + self.stack

    def share(self, entry: Entry) -> float:
        """Return the share of the clamp force that goes through stack and cone, by where it enters [-]."""
        return float(
            SHARES[entry](
                nut_thread=self.nut_thread,
                segment=self.segment,
                stack=self.stack,
                cone_thread=self.cone_thread,
            )
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """The adjustable side once locked.

    Attributes:
        gives: axial give of its members [m/N].
        force: locking force between nut and cone [N].
        backlash: axial backlash of the cone on its thread [m]; taken: how much of it was up before [m].
        holding_torque: what a spanner must hold the cone with [N·m]; not above zero where it stays by itself.
        turned_in: how far the cone turns in with the nut, as an axial length [m].
        runs_in: the cone is not kept from turning and follows the nut until the balls stop it.
        stop_preload: preload at which a cone that runs in stops [N].
        axle_torque: torque that locking puts into the axle [N·m].
        far_side_slips: the spanners on the far side cannot keep the axle from turning in its cone and nut.
    """

    gives: Gives
    force: float
    backlash: float
    taken: float
    holding_torque: float
    turned_in: float
    runs_in: bool
    stop_preload: float
    axle_torque: float
    far_side_slips: bool


@lru_cache(maxsize=256)
def gives_of(axle: Axle, stack: Stack) -> Gives:
    """Return the axial gives of one side's members. Source: [VDI2230]."""
    length = stack.thread_separation
    return Gives(
        cone_thread=axle.thread_give,
        nut_thread=axle.thread_give,
        segment=float(section_compliance(length=length, area=axle.root_area, young=axle.young)),
        stack=float(
            section_compliance(
                length=length,
                area=annulus_area(outer=stack.washer_outer_diameter, inner=axle.thread_diameter),
                young=axle.young,
            )
        ),
    )


@lru_cache(maxsize=256)
def lock_force_of(axle: Axle, stack: Stack, torque: float) -> float:
    """Return the locking force a torque [N·m] at the locknut gives [N]. Source: [VDI2230]."""
    return float(
        lock_force(
            torque=torque,
            diameter=axle.thread_diameter,
            pitch=axle.thread_pitch,
            thread_friction=stack.thread_friction,
            face_friction=stack.face_friction,
            face_radius=face_radius(axle, stack),
        )
    )


def face_radius(axle: Axle, stack: Stack) -> float:
    """Return the mean radius of the face under the locknut [m]."""
    return (stack.face_outer_diameter + axle.thread_diameter) / 4


def other_side(side: Side) -> Side:
    """Return the other side of the hub."""
    return "right" if side == "left" else "left"


class _Grip(NamedTuple):
    """What friction makes of a locking force: fields as in `Joint`, and what the far side can hold [N·m]."""

    holding_torque: float
    stop_preload: float
    axle_torque: float
    slip_torque: float


@lru_cache(maxsize=256)
def _grip_of(axle: Axle, stack: Stack, far: Stack, force: float) -> _Grip:
    """Return what friction makes of a locking `force` [N]. Source: [VDI2230]."""
    thread = {"diameter": axle.thread_diameter, "pitch": axle.thread_pitch}
    face = {
        "thread_friction": stack.thread_friction,
        "face_friction": stack.face_friction,
        "face_radius": face_radius(axle, stack),
    }
    slip = far_side_slip_torque(
        force=lock_force_of(axle, far, far.lock_torque), **thread, thread_friction=far.thread_friction
    )
    arm = thread_torque_arm(**thread, friction=stack.thread_friction, tightening=True)
    return _Grip(
        holding_torque=float(holding_torque(force=force, **thread, **face)),
        stop_preload=float(unheld_preload(force=force, **thread, **face)),
        axle_torque=force * float(arm),
        slip_torque=float(slip),
    )


def lock_up(scenario: Scenario) -> Joint:
    """Return the joint of the adjustable side as the setting locks it."""
    axle, setting = scenario.axle, scenario.setting
    side = scenario.hub.adjustable_side
    stack, far = scenario.stack.side(side), scenario.stack.side(other_side(side))
    force = lock_force_of(axle, stack, setting.lock_torque)
    grip = _grip_of(axle, stack, far, force)
    free = not setting.cone_held and not stack.keyed_washer and setting.technique != "cone turned out"
    turn = setting.drift if setting.cone_held or not stack.keyed_washer else stack.key_clearance
    axle_torque = grip.axle_torque
    if stack.keyed_washer and not setting.cone_held and setting.technique != "cone turned out":
        # nothing but the axle takes up what the nut is turned with: its face turns the washer, the key the axle
        axle_torque = setting.lock_torque
    return Joint(
        gives=gives_of(axle, stack),
        force=force,
        backlash=axle.backlash,
        taken=axle.backlash if setting.slack_taken else 0.0,
        holding_torque=grip.holding_torque,
        turned_in=turn * axle.lead_per_radian,
        runs_in=free and grip.holding_torque > 0.0 and force > 0.0,
        stop_preload=grip.stop_preload,
        axle_torque=axle_torque,
        far_side_slips=setting.axle_held == "far spanners" and axle_torque > grip.slip_torque,
    )
