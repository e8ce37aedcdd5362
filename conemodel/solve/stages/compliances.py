"""How much axle, shell, threads and washers yield along the axle, per newton."""

from dataclasses import dataclass
from typing import Any, Generic, Literal

from conemodel.base.units import Number
from conemodel.parts.axle import YOUNG
from conemodel.parts.hub import SIDES, Side
from conemodel.parts.scenario import Scenario
from conemodel.physics.joint import (
    annulus_area,
    section_compliance,
    stack_share,
    stack_share_axle_end,
    stack_share_nutted,
    thread_tooth_compliance,
)
from conemodel.physics.thread import stress_diameter
from conemodel.physics.thread_load import bridged_thread_share, shortening_factor

Entry = Literal["locknut", "axle end", "axle nut"]
"""Where the clamp's force enters the axle on one side."""

SHARES = {"locknut": stack_share, "axle end": stack_share_axle_end, "axle nut": stack_share_nutted}
"""Which law gives the share of the clamp that goes through stack and cone, by where it enters."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Compliances(Generic[Number]):
    """Axial compliance of what the locking force passes through on one side [m/N]; numbers or shape (n,)."""

    cone_thread: Number
    nut_thread: Number
    segment: float
    stack: float

    @property
    def behind_cone(self) -> Number:
        """Compliance of everything the cone is jammed against: nut thread, axle segment and stack [m/N]."""
        return self.nut_thread + self.segment + self.stack

    def share(self, entry: Entry) -> Number:
        """Return the share of the clamp force that goes through stack and cone, by where it enters [-]."""
        share: Any = SHARES[entry](
            nut_thread=self.nut_thread,
            segment=self.segment,
            stack=self.stack,
            cone_thread=self.cone_thread,
        )
        return share  # type: ignore[no-any-return]


def compliances_of(scenario: Scenario, side: Side, *, thread: Number) -> Compliances[Number]:
    """Return the axial compliances of one side's members, each engaged thread yielding by `thread` [m/N].

    Source: [VDI2230]
    """
    axle, stack, length = scenario.axle, scenario.stack.side(side), scenario.thread_separation(side)
    washers = annulus_area(outer=stack.washer_outer_diameter, inner=axle.thread_diameter)
    return Compliances(
        cone_thread=thread,
        nut_thread=thread,
        segment=float(section_compliance(length=length, area=axle.root_area, young=axle.young)),
        stack=float(section_compliance(length=length, area=washers, young=axle.young)),
    )


def axle_compliance(scenario: Scenario) -> float:
    """Return the shortening of the axle between the middles of the cones' threads per newton [m/N]."""
    axle = scenario.axle
    threaded = section_compliance(
        length=scenario.cone_distance - axle.plain_length, area=axle.root_area, young=axle.young
    )
    if axle.plain_length == 0.0:
        return float(threaded)
    plain = section_compliance(
        length=axle.plain_length,
        area=annulus_area(outer=axle.plain_diameter, inner=axle.bore),
        young=axle.young,
    )
    return float(threaded + plain)


def clamp_compliance(scenario: Scenario, *, bridging: Number) -> Number:
    """Return how much a clamp shortens the axle between the cones' threads per newton [m/N].

    A `bridging` of 0 is `axle_compliance`: root area, right up to the middles of the cones' threads. At 1 the stress
    area counts, and the cones bridge what lies in their threads as two bars joined all along; between them evenly.

    Source: [VDI2230] for the areas; derived for the threads, see `physics.thread_load`.
    """
    axle, stack = scenario.axle, scenario.stack.side(scenario.hub.adjustable_side)
    unbridged = axle_compliance(scenario)
    threaded = scenario.cone_distance - axle.plain_length
    engaged = min(sum(scenario.stack.side(side).cone.thread_length for side in SIDES) / 2, threaded)
    if engaged <= 0.0:
        return unbridged + 0.0 * bridging
    stressed = stress_diameter(diameter=axle.thread_diameter, pitch=axle.thread_pitch)
    area = annulus_area(outer=stressed, inner=axle.bore)
    cone = annulus_area(outer=stack.face_outer_diameter, inner=axle.thread_diameter)
    share = bridged_thread_share(
        engaged_length=engaged,
        thread_compliance=thread_tooth_compliance(diameter=axle.thread_diameter, young=axle.young),
        axle_rigidity=axle.young * area,
        body_rigidity=YOUNG["steel"] * cone,
    )
    least = shortening_factor(
        root_area=axle.root_area, area=area, distance=threaded, engaged_length=engaged, bridged_share=share
    )
    root = float(section_compliance(length=threaded, area=axle.root_area, young=axle.young))
    return unbridged - bridging * (1 - float(least)) * root


def preload_compliance(scenario: Scenario) -> float:
    """Return the axial compliance of axle, shell and both jammed cones per newton of preload [m/N]."""
    return axle_compliance(scenario) + 1 / scenario.hub.shell_stiffness + 2 * scenario.axle.thread_compliance
