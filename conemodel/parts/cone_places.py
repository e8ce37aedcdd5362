"""Where cones and locknuts stand along the axle: it follows from their own measures and those of the hub.

The ball rows stand in the middle of the width over the locknuts. All lengths in SI.
"""

from collections.abc import Iterator
from functools import lru_cache

from conemodel.base.units import MM
from conemodel.parts.axle import Axle
from conemodel.parts.hub import SIDES, Hub, Side, Stacks
from conemodel.parts.schema import FieldError
from conemodel.physics import cone_geometry as geometry


def cone_distance(hub: Hub, axle: Axle, stacks: Stacks) -> float:
    """Return the distance between the middles of both cones' threads [m]: as given, or as it follows."""
    return derived_cone_distance(hub, stacks) if axle.cone_distance is None else axle.cone_distance


@lru_cache(maxsize=256)
def derived_cone_distance(hub: Hub, stacks: Stacks) -> float:
    """Return the distance between the middles of the threads that rows and cones make [m]."""
    outboard = {
        side: geometry.thread_middle_outboard(ball_place=cone.ball_place, thread_length=cone.thread_length)
        for side, cone in ((side, stacks.side(side).cone) for side in SIDES)
    }
    return float(
        geometry.thread_middle_distance(
            row_spacing=hub.row_spacing, left_outboard=outboard["left"], right_outboard=outboard["right"]
        )
    )


def ball_place(hub: Hub, axle: Axle, stacks: Stacks, side: Side) -> float:
    """Return how far inboard of a cone's outer end its balls stand [m]; a given distance moves both cones alike."""
    moved = cone_distance(hub, axle, stacks) - derived_cone_distance(hub, stacks)
    return stacks.side(side).cone.ball_place + moved / 2


def thread_separation(hub: Hub, axle: Axle, stacks: Stacks, side: Side) -> float:
    """Return the distance between the middles of cone thread and locknut thread on one side [m]."""
    stack, place = stacks.side(side), ball_place(hub, axle, stacks, side)
    outboard = geometry.thread_middle_outboard(ball_place=place, thread_length=stack.cone.thread_length)
    return float(
        geometry.locknut_thread_outboard(
            over_locknut_width=hub.over_locknut_width,
            locknut_length=stack.locknut_length,
            thread_distance=hub.row_spacing + 2 * outboard,
        )
    )


def check_cones(hub: Hub, axle: Axle, stacks: Stacks) -> Iterator[FieldError]:
    """Yield what does not go together in rows, cones, locknuts and axle."""
    apart = list(_check_apart(hub, stacks))
    reach = apart or list(_check_reach(hub, axle, stacks))
    yield from reach or _check_lengths(hub, axle, stacks)


def _check_apart(hub: Hub, stacks: Stacks) -> Iterator[FieldError]:
    """Yield a row spacing at which the threads of both cones would lie in one another."""
    cones = [stacks.side(side).cone for side in SIDES]
    inboard = sum(cone.thread_length / 2 - cone.ball_place for cone in cones)
    if hub.row_spacing <= inboard:
        yield FieldError(
            field="hub.row_spacing",
            value=hub.row_spacing,
            limit="must be above {}, or the threads of both cones would lie in one another",
            bound=inboard,
            remedy="measure the rows again, and where the balls stand on the cones",
        )


def _check_reach(hub: Hub, axle: Axle, stacks: Stacks) -> Iterator[FieldError]:
    """Yield a mistake where no such cone has its balls where a given distance of the threads puts them."""
    if axle.cone_distance is None:
        return
    follows, cones = derived_cone_distance(hub, stacks), [stacks.side(side).cone for side in SIDES]
    most = follows + 2 * min(cone.length - cone.ball_place for cone in cones)
    least = follows - 2 * min(cone.ball_place for cone in cones)
    if least <= axle.cone_distance <= most:
        return
    far = axle.cone_distance > most
    yield FieldError(
        field="axle.cone_distance",
        value=axle.cone_distance,
        limit=f"must be at {'most' if far else 'least'} {{}}: beyond it no cone of these measures reaches its balls",
        bound=most if far else least,
        remedy=f"leave it out: from hub.row_spacing_mm and the cones' measures it is {MM.from_si(follows):.6g} mm; "
        "else measure these again",
    )


def _check_lengths(hub: Hub, axle: Axle, stacks: Stacks) -> Iterator[FieldError]:
    """Yield locknuts that have no room outboard of the cones, and an axle too short for them."""
    half_spans = (
        hub.row_spacing / 2 + ball_place(hub, axle, stacks, side) + stacks.side(side).locknut_length
        for side in SIDES
    )
    needed, distance = 2 * max(half_spans), cone_distance(hub, axle, stacks)
    if hub.over_locknut_width < needed:
        yield FieldError(
            field="hub.over_locknut_width",
            value=hub.over_locknut_width,
            limit="must be at least {}, what rows, cones and locknuts take",
            bound=needed,
            remedy="measure width, row spacing, cones and locknuts again",
        )
    if axle.length <= distance:
        yield FieldError(
            field="axle.length",
            value=axle.length,
            limit="must be above the distance between the cones' threads, {}",
            bound=distance,
        )
    if axle.plain_length > distance:
        yield FieldError(
            field="axle.plain_length",
            value=axle.plain_length,
            limit="must fit between the cones, {}",
            bound=distance,
        )
