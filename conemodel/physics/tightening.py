"""Locknut tightened on its cone: lock force, what holds the cone while the nut turns, where the far side slips.

All functions take keywords in SI and broadcast over arrays. Forces are along the axle; the lock force F is
the compression of the stack between locknut and cone before any clamp.
"""

import numpy as np

from conemodel.base.units import Floats
from conemodel.physics.domain import require
from conemodel.physics.thread import thread_friction_arm, thread_torque_arm


def lock_torque(
    *,
    force: Floats,
    diameter: Floats,
    pitch: Floats,
    thread_friction: Floats,
    face_friction: Floats,
    face_radius: Floats,
) -> Floats:
    """Return the torque M = F [P/2π + μG d2/(2 cos 30°) + μK rK] [N·m] that tightens a nut to `force`.

    The book prints the same with 0.16 P and 0.58 d2, rounded.

    Args:
        force: F [N].
        diameter: nominal thread diameter [m].
        pitch: P [m].
        thread_friction: μG [-], 0 or more.
        face_friction: μK [-], 0 or more.
        face_radius: mean friction radius under the nut rK = Dkm/2 [m], 0 or more.

    Source: [VDI2230]
    """
    return force * _tightening_arm(diameter, pitch, thread_friction, face_friction, face_radius)


def lock_force(
    *,
    torque: Floats,
    diameter: Floats,
    pitch: Floats,
    thread_friction: Floats,
    face_friction: Floats,
    face_radius: Floats,
) -> Floats:
    """Return the force F [N] that a nut tightened with `torque` [N·m] makes: the reverse of `lock_torque`.

    Other arguments as for `lock_torque`.

    Source: [VDI2230]

    >>> thread = {"diameter": 10e-3, "pitch": 1e-3, "thread_friction": 0.12}
    >>> print(f"{lock_force(torque=12.0, face_friction=0.12, face_radius=6.5e-3, **thread):.0f} N")
    7562 N
    """
    return torque / _tightening_arm(diameter, pitch, thread_friction, face_friction, face_radius)


def holding_torque(
    *,
    force: Floats,
    diameter: Floats,
    pitch: Floats,
    thread_friction: Floats,
    face_friction: Floats,
    face_radius: Floats,
) -> Floats:
    """Return the torque F [μK rK + P/2π - μG d2/(2 cos 30°)] [N·m] that keeps the cone from following.

    The turning nut drags the cone inward by the face between them and its load pushes the same way; the
    cone's own thread resists. At or below zero the cone stays by itself. The sign does not depend on F.

    Arguments as for `lock_torque`; `face_friction` acts between the cone and whatever turns against it (0
    where a keyed washer keeps the nut's drag off the cone).

    Source: [VDI2230], the friction of thread and face; put together here as a balance of torques on the cone.
    """
    drag = _face_arm(face_friction, face_radius)
    resist = thread_torque_arm(diameter=diameter, pitch=pitch, friction=thread_friction, tightening=False)
    return force * (drag - resist)


def unheld_preload(
    *,
    force: Floats,
    diameter: Floats,
    pitch: Floats,
    thread_friction: Floats,
    face_friction: Floats,
    face_radius: Floats,
) -> Floats:
    """Return the axial load [N] of the balls that stops a cone nobody holds from running in with its nut.

    N = F [1 + μK rK / (P/2π + μG d2/(2 cos 30°))]: the cone's thread then carries N - F and is being
    tightened. 0 where `holding_torque` is not above zero: the nut then drags an unloaded cone nowhere.
    Friction of the bearing itself is left out.

    Arguments as for `lock_torque`.

    Source: [VDI2230], the friction of thread and face; put together here as a balance of torques on the cone.
    """
    drag = _face_arm(face_friction, face_radius)
    climb = thread_torque_arm(diameter=diameter, pitch=pitch, friction=thread_friction, tightening=True)
    resist = thread_torque_arm(diameter=diameter, pitch=pitch, friction=thread_friction, tightening=False)
    return np.where(drag > resist, force * (1 + drag / climb), 0.0)[()]


def far_side_slip_torque(
    *, force: Floats, diameter: Floats, pitch: Floats, thread_friction: Floats
) -> Floats:
    """Return the torque [N·m] at which the axle turns inside the locked cone and nut of the other side.

    2 F μG d2/(2 cos 30°): both threads rub; one climbs while the other descends, so the leads cancel.
    Arguments as for `lock_torque`, of the far side.

    Source: [VDI2230], the friction of a thread; put together here as a balance of torques on the axle.
    """
    return 2 * force * thread_friction_arm(diameter=diameter, pitch=pitch, friction=thread_friction)


def _face_arm(friction: Floats, radius: Floats) -> Floats:
    require(
        (np.asarray(friction) >= 0) & (np.asarray(radius) >= 0), "face friction and radius must be 0 or more"
    )
    return friction * radius


def _tightening_arm(
    diameter: Floats, pitch: Floats, thread_friction: Floats, face_friction: Floats, face_radius: Floats
) -> Floats:
    thread = thread_torque_arm(diameter=diameter, pitch=pitch, friction=thread_friction, tightening=True)
    return thread + _face_arm(face_friction, face_radius)
