"""How the load of a clamp enters an axle along an engaged thread, and how much of the axle shortens by it.

All functions take keywords in SI and broadcast over arrays.
"""

import numpy as np

from conemodel.base.units import Floats
from conemodel.physics.domain import require


def bridged_thread_share(
    *, engaged_length: Floats, thread_compliance: Floats, axle_rigidity: Floats, body_rigidity: Floats
) -> Floats:
    """Return tanh(u)/u [-], how much of what lies in an engaged thread shortens as a bare axle would.

    u = λ l/2, λ² = (1/EA_axle + 1/EA_body)/(c l): axle and cone (or nut) side by side, joined by the thread's
    springs all along; the force is in the axle at both ends of the thread, and the body bridges part of it between.
    1 for a soft thread: the middle of the thread is then the cone's place, as the rule of thumb has it.

    Args:
        engaged_length: l [m], above 0.
        thread_compliance: compliance of the whole engaged thread c [m/N], above 0, see `thread_tooth_compliance`.
        axle_rigidity: E A of the axle [N], above 0.
        body_rigidity: E A of the cone round it [N], above 0.

    Raises:
        OutOfDomain: a value that is not above 0.

    Source: derived; two bars joined all along (shear lag), closed form.
    """
    for value, name in (
        (engaged_length, "engaged length"),
        (thread_compliance, "thread compliance"),
        (axle_rigidity, "axle rigidity"),
        (body_rigidity, "body rigidity"),
    ):
        require(np.asarray(value) > 0, f"{name} must be above 0")
    softness = 1 / np.asarray(axle_rigidity) + 1 / np.asarray(body_rigidity)
    half = np.sqrt(softness * engaged_length / thread_compliance) / 2
    share: Floats = np.tanh(half) / half
    return share


def shortening_factor(
    *, root_area: Floats, area: Floats, distance: Floats, engaged_length: Floats, bridged_share: Floats
) -> Floats:
    """Return an axle's shortening over that at root area between thread middles [-], 1 or below.

    A_root/A · [1 - l (1 - s)/L], half an engaged length l at either end of L.

    Args:
        root_area: A_root [m²], above 0.
        area: A, the area that counts [m²], from the root's to that of the stress diameter, not below `root_area`.
        distance: L between the middles of both cones' threads [m], not below the engaged length.
        engaged_length: l of each thread [m], 0 or more.
        bridged_share: s [-], see `bridged_thread_share`; 1 for none bridged.

    Raises:
        OutOfDomain: a value outside those ranges.

    Source: derived; Hooke's law with the threads' own part of the length.

    >>> size = {"root_area": 40e-6, "area": 44e-6, "distance": 70e-3, "engaged_length": 15e-3}
    >>> print(f"{shortening_factor(**size, bridged_share=0.7):.3f}")
    0.851
    """
    require(
        (np.asarray(root_area) > 0) & (np.asarray(area) >= root_area), "area at least the root's, above 0"
    )
    require(
        (np.asarray(engaged_length) >= 0) & (np.asarray(distance) >= engaged_length),
        "engaged length must be 0 m up to the distance between the threads' middles",
    )
    require(
        (np.asarray(bridged_share) > 0) & (np.asarray(bridged_share) <= 1), "share must be above 0 up to 1"
    )
    length = 1 - np.asarray(engaged_length) * (1 - np.asarray(bridged_share)) / distance
    factor: Floats = root_area / np.asarray(area) * length
    return factor
