"""The terms of end play of many hubs of one kind at once, which differ in threads, hands, friction and clamp.

The same terms under the same keys as `solve.stages.terms` gives for one hub; a test holds the two together.
"""

from dataclasses import dataclass

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.hub import Axle, Side
from conemodel.parts.scenario import Scenario
from conemodel.physics.joint import engaged_thread_compliance, lock_force, nut_unloading_force
from conemodel.physics.thread import axial_backlash, thread_torque_arm
from conemodel.solve.stages.clamp import ClampSide, axle_compliance, close_clamp
from conemodel.solve.stages.locknut import SHARE_OF_NUT, SHARES, face_radius, gives_of

SIDES: tuple[Side, Side] = ("left", "right")


@dataclass(frozen=True, slots=True, kw_only=True)
class Draw:
    """n hubs of one kind; every field has shape (n,).

    Attributes:
        back_off: turn out from finger contact, as it came out [rad]; drift: turn in while locking [rad].
        finger_torque, lock_torque: [N·m].
        thread_fit: 0 for the tightest thread the tolerance classes allow, 1 for the loosest [-].
        thread_give: share of the stretch inside an engaged thread that moves the cone [-].
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
    thread_friction: Array
    face_friction: Array
    groove: Array
    clamp_force: Array


def finger_preloads(scenario: Scenario, draw: Draw) -> Array:
    """Return the preload that screwing each cone in by finger gives, (n,) [N]. Source: [VDI2230]."""
    arm = thread_torque_arm(
        diameter=scenario.axle.thread_diameter,
        pitch=scenario.axle.thread_pitch,
        friction=draw.thread_friction,
        tightening=True,
    )
    return np.asarray(draw.finger_torque / arm)


def backlashes(axle: Axle, fit: Array) -> Array:
    """Return the axial backlash of cones on their threads for each `fit` (n,) [-], 0 to 1: (n,) [m]."""
    low, high = axle.pitch_clearance_range
    return np.asarray(axial_backlash(pitch_diameter_clearance=low + fit * (high - low)))


def crowd_terms(scenario: Scenario, draw: Draw, *, contact: Array) -> dict[str, Array]:
    """Return every term of the clamped end play by its key, each (n,) [m].

    The setting's technique and taken slack count; its cone is held and its axle fast. `contact` (n,) [m] is the
    end play that the fingers leave.
    """
    axle, setting, lead = scenario.axle, scenario.setting, scenario.axle.lead_per_radian
    nut = SHARE_OF_NUT[setting.technique]
    give = _thread_gives(axle, draw)
    side = scenario.hub.adjustable_side
    force = _lock_forces(scenario, side, draw, draw.lock_torque)
    terms = {"finger": contact, "back_off": draw.back_off * lead}
    if nut < 1.0:
        terms["cone_backed_out"] = (1 - nut) * force * _behind_cone(scenario, side, give)
    if nut > 0.0:
        slack = backlashes(axle, draw.thread_fit)
        terms["thread_slack"] = 0.0 * slack if setting.slack_taken else -nut * slack
        terms["cone_thread"] = -nut * force * give
        terms["drift"] = -nut * draw.drift * lead
    squeezed = 0.0 if scenario.clamp.kind == "nuts" else axle_compliance(axle)
    terms["axle_shortening"] = -draw.clamp_force * squeezed
    states = close_clamp(scenario).sides
    left, right = (_push(scenario, name, states[name], draw, give) for name in SIDES)
    terms["cone_thread_clamp"] = -(left + right)
    return terms


def _thread_gives(axle: Axle, draw: Draw) -> Array:
    """Return the give of each engaged thread [m/N]. Source: [VDI2230]."""
    give = engaged_thread_compliance(
        diameter=axle.thread_diameter,
        young=axle.young,
        root_area=axle.root_area,
        core_share=draw.thread_give,
    )
    return np.asarray(give)


def _lock_forces(scenario: Scenario, side: Side, draw: Draw, torque: Array | float) -> Array:
    """Return the locking forces of one side [N]. Source: [VDI2230]."""
    force = lock_force(
        torque=torque,
        diameter=scenario.axle.thread_diameter,
        pitch=scenario.axle.thread_pitch,
        thread_friction=draw.thread_friction,
        face_friction=draw.face_friction,
        face_radius=face_radius(scenario.axle, scenario.stack.side(side)),
    )
    return np.asarray(force)


def _behind_cone(scenario: Scenario, side: Side, thread: Array) -> Array:
    """Return the give of everything the cone of one side is jammed against, with threads of give `thread` [m/N]."""
    plain = gives_of(scenario.axle, scenario.stack.side(side))
    return thread + plain.segment + plain.stack


def _push(scenario: Scenario, side: Side, state: ClampSide, draw: Draw, thread: Array) -> Array:
    """Return how far each clamp pushes the cone of one side along its thread [m]."""
    stack = scenario.stack.side(side)
    adjusted = side == scenario.hub.adjustable_side
    torque = draw.lock_torque if adjusted else stack.lock_torque
    locked = _lock_forces(scenario, side, draw, torque)
    plain = gives_of(scenario.axle, stack)
    share = SHARES[state.entry](
        nut_thread=thread, segment=plain.segment, stack=plain.stack, cone_thread=thread
    )
    shared = draw.clamp_force * share
    if state.entry == "axle end":
        return shared * thread
    limit = nut_unloading_force(lock_force=locked, share=share)
    return np.where(draw.clamp_force <= limit, shared, draw.clamp_force - locked) * thread
