"""The joint of locknut, washers and cone on the axle: its compliance, and how a clamp's force divides in it.

All functions take keywords in SI and broadcast over arrays. Forces are along the axle; the lock force F is
the compression of the stack between locknut and cone before any clamp.
"""

import numpy as np

from conemodel.base.units import Floats
from conemodel.physics.domain import require


def thread_tooth_compliance(*, diameter: Floats, young: Floats) -> Floats:
    """Return the compliance of the engaged teeth and nut body 0.4 d/(E A_N) [m/N], A_N = π d²/4.

    Args:
        diameter: nominal d [m], above 0.
        young: E [Pa], above 0.

    Source: [VDI2230]
    """
    return section_compliance(length=0.4 * diameter, area=np.pi / 4 * diameter**2, young=young)


def thread_core_compliance(*, diameter: Floats, young: Floats, root_area: Floats) -> Floats:
    """Return the stretch of the engaged core 0.5 d/(E A_d3) [m/N].

    Args:
        diameter: nominal d [m].
        young: E [Pa].
        root_area: metal area at the thread root, less the bore [m²].

    Source: [VDI2230]
    """
    return section_compliance(length=0.5 * diameter, area=root_area, young=young)


def engaged_thread_compliance(
    *, diameter: Floats, young: Floats, root_area: Floats, core_share: Floats = 0.0
) -> Floats:
    """Return the compliance of an engaged thread between its two published parts [m/N].

    Args:
        diameter: nominal d [m].
        young: E [Pa].
        root_area: metal area at the thread root, less the bore [m²].
        core_share: how much of the core's stretch moves the race [-], 0 (teeth only) to 1 (all of it).

    Raises:
        OutOfDomain: a share outside 0 to 1.

    Source: [VDI2230]
    """
    require((np.asarray(core_share) >= 0) & (np.asarray(core_share) <= 1), "core share must be 0 to 1")
    core = thread_core_compliance(diameter=diameter, young=young, root_area=root_area)
    return thread_tooth_compliance(diameter=diameter, young=young) + core_share * core


def section_compliance(*, length: Floats, area: Floats, young: Floats) -> Floats:
    """Return l/(E A) [m/N] of a bar.

    Args:
        length: l [m], 0 or more.
        area: A [m²], above 0.
        young: E [Pa], above 0.

    Raises:
        OutOfDomain: a value outside those ranges.

    Source: [VDI2230]
    """
    require(np.asarray(length) >= 0, "length must be 0 m or more")
    require((np.asarray(area) > 0) & (np.asarray(young) > 0), "area and young's modulus must be above 0")
    return length / (young * area)


def annulus_area(*, outer: Floats, inner: Floats) -> Floats:
    """Return the area π (D² - d²)/4 [m²] of a ring.

    Args:
        outer: D [m], above the inner diameter.
        inner: d [m], 0 or more.

    Raises:
        OutOfDomain: a value outside those ranges.

    Source: geometry.

    >>> print(f"{annulus_area(outer=9.35e-3, inner=5.1e-3) * 1e6:.2f} mm²")
    48.23 mm²
    """
    require(
        (np.asarray(inner) >= 0) & (np.asarray(outer) > inner), "outer diameter must exceed inner, 0 or more"
    )
    return np.pi / 4 * (outer**2 - inner**2)


def stack_share(*, nut_thread: Floats, segment: Floats, stack: Floats, cone_thread: Floats) -> Floats:
    """Return Φ [-], the part of a clamp force on the locknut's face that goes through stack and cone.

    Φ = (c_n + c_seg)/(c_n + c_seg + c_stack + c_c): two paths side by side, each as stiff as its springs in
    series. Holds where the clamp's tension runs outside the axle: in a skewer or through bolt.

    Args:
        nut_thread: compliance of the locknut's thread c_n [m/N], 0 or more.
        segment: compliance of the axle between the two threads c_seg [m/N], 0 or more.
        stack: compliance of the washers between nut and cone c_stack [m/N], 0 or more.
        cone_thread: compliance of the cone's thread c_c [m/N], 0 or more; the sum above 0.

    Source: [VDI2230], the load factor of a joint clamped by two paths.
    """
    return (nut_thread + segment) / _loop(nut_thread, segment, stack, cone_thread)


def stack_share_nutted(*, nut_thread: Floats, segment: Floats, stack: Floats, cone_thread: Floats) -> Floats:
    """Return Φ [-] where the axle itself carries the clamp's tension: a solid axle with nuts.

    Φ = c_n/(c_n + c_seg + c_stack + c_c): the pull of the axle's end stretches the segment as much as the
    clamp would have squeezed it, so only the nut's thread yields to the stack.

    Arguments as for `stack_share`.

    Source: [VDI2230], the load factor of a joint clamped by two paths.
    """
    return nut_thread / _loop(nut_thread, segment, stack, cone_thread)


def stack_share_axle_end(
    *, nut_thread: Floats, segment: Floats, stack: Floats, cone_thread: Floats
) -> Floats:
    """Return Φ [-] where the clamp presses on the end of the axle and not on the locknut.

    Φ = c_seg/(c_n + c_seg + c_stack + c_c): only the squeezed segment loads the stack; the nut's thread is
    then loaded more, never unloaded.

    Arguments as for `stack_share`.

    Source: [VDI2230], the load factor of a joint clamped by two paths.
    """
    return segment / _loop(nut_thread, segment, stack, cone_thread)


def nut_unloading_force(*, lock_force: Floats, share: Floats) -> Floats:
    """Return the clamp force F/(1 - Φ) [N] on the locknut's face that takes the last load off its thread.

    inf at Φ = 1. Not for a clamp on the axle's end, which never unloads the nut.

    Args:
        lock_force: F [N].
        share: Φ [-], 0 to 1, see `stack_share`.

    Raises:
        OutOfDomain: a share outside that range.

    Source: [VDI2230], the force at which a preloaded joint opens.
    """
    require((np.asarray(share) >= 0) & (np.asarray(share) <= 1), "share must be 0 to 1")
    with np.errstate(divide="ignore", invalid="ignore"):
        force: Floats = np.divide(lock_force, 1 - np.asarray(share))
    return force


def _loop(nut_thread: Floats, segment: Floats, stack: Floats, cone_thread: Floats) -> Floats:
    for compliance in (nut_thread, segment, stack, cone_thread):
        require(np.asarray(compliance) >= 0, "a compliance must be 0 m/N or more")
    total = nut_thread + segment + stack + cone_thread
    require(np.asarray(total) > 0, "the compliances must add up to more than 0 m/N")
    return total
