"""An axle bent by what it is clamped between: moments at its ends, its slope along the way.

The axle is a beam held at both ends by dropouts whose faces are not square to it. All functions take keywords in SI
and broadcast over arrays. Slopes and moments of both ends turn the same way round: faces toed in or out alike have
opposite signs, and bow the axle.
"""

from typing import NamedTuple

import numpy as np

from conemodel.base.units import Array, Floats
from conemodel.physics.domain import require
from conemodel.physics.joint import annulus_area


class BentAxle(NamedTuple):
    """An axle between its dropouts.

    Attributes:
        left_moment, right_moment: what each dropout puts into the axle [N·m].
        left_slope, right_slope: of the axle at each end [rad].
        left_gap, right_gap: what stays open between face and dropout [rad]; 0 where the clamp closes it.
    """

    left_moment: Array
    right_moment: Array
    left_slope: Array
    right_slope: Array
    left_gap: Array
    right_gap: Array


def annulus_second_moment(*, outer: Floats, inner: Floats) -> Floats:
    """Return the second moment of area π (D⁴ - d⁴)/64 [m⁴] of a round tube.

    Arguments as for `annulus_area`.

    Source: geometry.

    >>> print(f"{annulus_second_moment(outer=8.77e-3, inner=5.1e-3) * 1e12:.0f} mm⁴")
    257 mm⁴
    """
    return annulus_area(outer=outer, inner=inner) * (outer**2 + inner**2) / 16


def face_moment_capacity(*, clamp_force: Floats, face_radius: Floats) -> Floats:
    """Return the moment T r [N·m] at which a clamped face stands on its edge.

    A tilted face that is pressed flat lifts off first at (r² + r_bore²)/(4 r) T and is wholly on its edge at this.

    Args:
        clamp_force: T [N], 0 or more.
        face_radius: outer radius of the face r [m], 0 or more.

    Raises:
        OutOfDomain: a negative value.

    Source: derived; balance of moments about the edge.

    >>> print(f"{face_moment_capacity(clamp_force=5e3, face_radius=7e-3):.0f} N·m")
    35 N·m
    """
    require((np.asarray(clamp_force) >= 0) & (np.asarray(face_radius) >= 0), "force and radius 0 or more")
    return clamp_force * face_radius


def bend_between_dropouts(
    *,
    left_face: Floats,
    right_face: Floats,
    span: Floats,
    rigidity: Floats,
    frame_compliance: Floats,
    capacity: Floats,
) -> BentAxle:
    """Return how an axle and its dropouts share the angles of faces that are not square to it.

    End slopes of a beam under end moments, θ_l = (M_l - M_r/2) l/(3EI) and the same with sides exchanged; the turn of
    the frame, c M, and what stays open make up the rest of each face's angle. Of all moments within ± `capacity`
    these store the least energy, so that a gap is open only where the clamp can close it no further.

    Args:
        left_face: how far the left dropout's face is out of square to the axle [rad].
        right_face: the right one's, turning the same way round [rad].
        span: l of the bending axle, between the outer faces of its locknuts at most [m], above 0.
        rigidity: E I [N·m²], above 0.
        frame_compliance: c, turn of one dropout per moment [rad/(N·m)], 0 (rigid) or more.
        capacity: most moment a face can carry [N·m], see `face_moment_capacity`, 0 or more; inf for glued.

    Raises:
        OutOfDomain: a value outside those ranges.

    Source: closed form; a beam on two end moments. The limit: derived, complementary energy.
    """
    for value, name in ((span, "span"), (rigidity, "rigidity")):
        require(np.asarray(value) > 0, f"{name} must be above 0")
    for value, name in ((frame_compliance, "frame compliance"), (capacity, "capacity")):
        require(np.asarray(value) >= 0, f"{name} must be 0 or more")
    compliance = np.asarray(span) / (3 * np.asarray(rigidity))
    arguments = np.broadcast_arrays(left_face, right_face, compliance, frame_compliance, capacity)
    left, right, compliance, frame, most = (np.asarray(each, dtype=np.float64) for each in arguments)
    left_moment, right_moment = _moments_within(left, right, compliance + frame, compliance / 2, most)
    left_slope = compliance * (left_moment - right_moment / 2)
    right_slope = compliance * (right_moment - left_moment / 2)
    return BentAxle(
        left_moment,
        right_moment,
        left_slope,
        right_slope,
        left - left_slope - frame * left_moment,
        right - right_slope - frame * right_moment,
    )


def axle_slope(*, left_slope: Floats, right_slope: Floats, place: Floats) -> Floats:
    """Return the slope of an axle between its ends [rad].

    θ_l (1 - 4s + 3s²) + θ_r (3s² - 2s): the cubic of a beam whose ends stay where they are.

    Args:
        left_slope: at the left end θ_l [rad].
        right_slope: at the right end θ_r [rad].
        place: s, from the left end over the span [-], 0 to 1.

    Raises:
        OutOfDomain: a place off the axle.

    Source: closed form; a beam on two end moments.
    """
    s = np.asarray(place)
    require((s >= 0) & (s <= 1), "place must be 0 (left end) to 1 (right end)")
    slope: Floats = left_slope * (1 - 4 * s + 3 * s**2) + right_slope * (3 * s**2 - 2 * s)
    return slope


def _moments_within(left: Array, right: Array, own: Array, other: Array, most: Array) -> tuple[Array, Array]:
    """Return the moments of least complementary energy within ± `most`.

    A convex quadratic over a square: its minimum is the free one where that lies inside, else on an edge.
    """
    free = own**2 - other**2
    inside_left, inside_right = (own * left + other * right) / free, (own * right + other * left) / free
    held = np.where(np.isfinite(most), most, 0.0)
    candidates = [(inside_left, inside_right)]
    for edge in (-held, held):
        candidates.append((edge, np.clip((right + other * edge) / own, -most, most)))
        candidates.append((np.clip((left + other * edge) / own, -most, most), edge))
    lefts, rights = (np.stack(side) for side in zip(*candidates, strict=True))
    energy = own / 2 * (lefts**2 + rights**2) - other * lefts * rights - left * lefts - right * rights
    outside = np.maximum(np.abs(inside_left), np.abs(inside_right)) > most
    energy[0] = np.where(outside, np.inf, -np.inf)
    best = np.argmin(energy, axis=0)[None]
    return np.take_along_axis(lefts, best, 0)[0], np.take_along_axis(rights, best, 0)[0]
