"""The hub axle: solid, or hollow for a quick release or a thru-axle."""

from collections.abc import Iterator, Mapping
from functools import cached_property
from math import pi
from typing import Any, Literal

from conemodel.base.units import MM, ONE, UM, Floats
from conemodel.parts import unknowns
from conemodel.parts.schema import FieldError, Part, PartProblems, quantity
from conemodel.physics.joint import annulus_area, engaged_thread_compliance
from conemodel.physics.thread import axial_backlash, clearance_for_backlash, root_diameter
from conemodel.physics.thread_tolerance import iso965_pitch_diameter_limits

Material = Literal["steel", "aluminium", "titanium"]

YOUNG: dict[str, float] = {"steel": 206e9, "aluminium": 71e9, "titanium": 114e9}
"""Elastic modulus of axle and washer materials [Pa]. Common engineering values, no source."""

NOT_KNOWN = "not known"
"""Stands for a tolerance class where nobody knows it, as of an inch thread: slack lies in the range of any thread."""


class Axle(Part):
    """The hub axle the cones are screwed on: solid, or hollow for a quick release or a thru-axle."""

    thread_diameter: float = quantity(MM, "nominal diameter of the axle thread", above=4, at_most=40)
    thread_pitch: float = quantity(MM, "how far a cone moves in one turn", above=0.2, at_most=3)
    bore: float = quantity(
        MM, "diameter of the hole through the axle, 0 for a solid axle", default=0.0, at_least=0
    )
    length: float = quantity(MM, "length of the axle, end to end", above=40, at_most=450)
    cone_distance: float | None = quantity(
        MM,
        "distance between the middles of the two cones' threads; it follows from rows and cones if left out",
        default=None,
        above=10,
        at_most=400,
    )
    plain_diameter: float = quantity(
        MM, "diameter of the part without thread", default=0.0, at_least=0, at_most=60
    )
    plain_length: float = quantity(
        MM, "length of the part without thread", default=0.0, at_least=0, at_most=400
    )
    material: Material = quantity(ONE, "what the axle is made of", default="steel")
    thread_clearance: float | None = quantity(
        UM,
        "play of cone on axle thread, measured on the pitch diameter",
        default=None,
        at_least=0,
        at_most=1000,
    )
    thread_clearance_error: float = quantity(
        UM,
        "how far a measured play of the cone on the thread may be out, either way",
        default=0.0,
        at_least=0,
        at_most=1000,
    )
    thread_core_share: float = quantity(
        ONE,
        "share of the stretch inside an engaged thread that moves the cone",
        default=unknowns.joint.CORE_SHARE.usual,
        at_least=0,
        at_most=1,
    )
    ends_stiffened: float = quantity(
        ONE,
        "how far locknut, washers and cone keep the axle's ends from bending: 0 not at all, 1 out to the cones",
        default=unknowns.hub.ENDS_STIFFENED.usual,
        at_least=0,
        at_most=1,
    )
    thread_bridging: float = quantity(
        ONE,
        "where the axle's shortening lies between root area to the thread's middle (0) and stress area, bridged (1)",
        default=unknowns.joint.THREAD_BRIDGING.usual,
        at_least=0,
        at_most=1,
    )
    axle_thread_class: str = quantity(ONE, "tolerance class of the axle thread", default="6g")
    cone_thread_class: str = quantity(ONE, "tolerance class of the cone thread", default="6H")

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """The bore must leave metal under the thread; a plain part must be wider than the bore."""
        yield from super().cross_checks(values)
        if {"thread_diameter", "thread_pitch", "bore"} <= values.keys():
            root = float(root_diameter(diameter=values["thread_diameter"], pitch=values["thread_pitch"]))
            if values["bore"] >= root:
                yield FieldError(
                    field="bore",
                    value=values["bore"],
                    limit="must be smaller than the thread root, {}",
                    bound=root,
                    remedy="check bore and thread diameter",
                )
        plain = {"bore", "plain_length", "plain_diameter"} <= values.keys() and values["plain_length"] > 0
        if plain and values["plain_diameter"] <= values["bore"]:
            yield FieldError(
                field="plain_diameter",
                value=values["plain_diameter"],
                limit="must be larger than the bore, {}",
                bound=values["bore"],
            )
        clearance, error = values.get("thread_clearance"), values.get("thread_clearance_error", 0.0)
        if clearance is not None and error > clearance:
            yield FieldError(
                field="thread_clearance_error",
                value=error,
                limit="must not be above the play that was measured, {}",
                bound=clearance,
            )
        yield from _check_thread_classes(values)

    @property
    def lead_per_radian(self) -> float:
        """How far a cone moves along the axle per radian of turn [m/rad]."""
        return self.thread_pitch / (2 * pi)

    @cached_property
    def root_area(self) -> float:
        """Metal area at the thread root, less the bore [m²]."""
        root = root_diameter(diameter=self.thread_diameter, pitch=self.thread_pitch)
        return float(annulus_area(outer=root, inner=self.bore))

    @cached_property
    def thread_compliance(self) -> float:
        """Axial compliance of a cone or nut on its thread [m/N]."""
        return float(self.thread_compliance_at(self.thread_core_share))

    def thread_compliance_at(self, core_share: Floats) -> Floats:
        """Return the same for each `core_share` of threads that nobody measured, any shape [m/N]."""
        return engaged_thread_compliance(
            diameter=self.thread_diameter,
            young=self.young,
            root_area=self.root_area,
            core_share=core_share,
        )

    @property
    def young(self) -> float:
        """Elastic modulus [Pa]."""
        return YOUNG[self.material]

    @cached_property
    def pitch_clearance_range(self) -> tuple[float, float]:
        """Smallest and largest clearance on the pitch diameter [m]; as well as it was measured, where it was."""
        if self.thread_clearance is not None:
            error = self.thread_clearance_error
            return self.thread_clearance - error, self.thread_clearance + error
        if NOT_KNOWN in (self.axle_thread_class, self.cone_thread_class):
            return clearances_of_any_thread()
        size = {"diameter": self.thread_diameter, "pitch": self.thread_pitch}
        outer_low, outer_high = iso965_pitch_diameter_limits(**size, tolerance_class=self.axle_thread_class)
        inner_low, inner_high = iso965_pitch_diameter_limits(**size, tolerance_class=self.cone_thread_class)
        return max(inner_low - outer_high, 0.0), inner_high - outer_low

    @cached_property
    def backlash_range(self) -> tuple[float, float]:
        """Smallest and largest axial backlash of the cone on its thread [m]."""
        low, high = self.pitch_clearance_range
        return float(axial_backlash(pitch_diameter_clearance=low)), float(
            axial_backlash(pitch_diameter_clearance=high)
        )

    @property
    def backlash(self) -> float:
        """Axial backlash the prediction uses: as measured, or the middle of what the classes allow [m]."""
        return sum(self.backlash_range) / 2

    @cached_property
    def most_backlash(self) -> float:
        """Most axial backlash that the classes of the thread allow, whatever was measured [m].

        A thread of a size the classes do not have, such as an inch thread, is held to the loosest slack believed.

        Source: [ISO965-1]
        """
        try:
            return self.replace(thread_clearance=None).backlash_range[1]
        except PartProblems:
            return unknowns.joint.THREAD_SLACK.unit.to_si(unknowns.joint.THREAD_SLACK.high)


def clearances_of_any_thread() -> tuple[float, float]:
    """Return the range of clearances on the pitch diameter of a thread whose classes nobody knows [m]."""
    slack = unknowns.joint.THREAD_SLACK
    low, high = (float(clearance_for_backlash(axial_backlash=slack.unit.to_si(end))) for end in slack.span)
    return low, high


def _check_thread_classes(values: Mapping[str, Any]) -> Iterator[FieldError]:
    """Yield a mistake for a tolerance class the standard does not have; none where the clearance was measured."""
    if values.get("thread_clearance") is not None:
        return
    for name in ("axle_thread_class", "cone_thread_class"):
        if not {name, "thread_diameter", "thread_pitch"} <= values.keys() or values[name] == NOT_KNOWN:
            continue
        size = {"diameter": values["thread_diameter"], "pitch": values["thread_pitch"]}
        try:
            iso965_pitch_diameter_limits(**size, tolerance_class=values[name])
        except ValueError as error:
            yield FieldError(
                field=name,
                value=values[name],
                limit=str(error),
                remedy=f'or say "{NOT_KNOWN}", or give thread_clearance_um as measured',
            )
