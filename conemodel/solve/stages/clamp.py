"""What closing the clamp does: its force, where it enters, and how much it shortens the axle."""

from dataclasses import dataclass
from functools import lru_cache
from math import inf

from conemodel.parts.hub import Axle, Side
from conemodel.parts.scenario import Scenario
from conemodel.parts.setting import ClampSeat
from conemodel.physics.clamp import (
    clamp_force_from_torque,
    hand_limited_force,
    quick_release_force,
    skewer_yield_force,
)
from conemodel.physics.joint import annulus_area, nut_unloading_force, section_compliance
from conemodel.solve.stages.locknut import Entry, gives_of, lock_force_of

USUAL_FORCE = {"quick release": 5e3, "nuts": 15e3, "thru-axle": 5e3}
"""Clamp force taken where nothing was given [N]. Assumption: no published measurement was found."""

ASSUMED = "assumed: nobody measured it"

PROUD_WARNING = 0.1e-3
"""An axle end this close below its dropout's outer face is warned about [m]. Assumption."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ClampSide:
    """One side of the closed clamp.

    Attributes:
        entry: where the force enters the axle: locknut, axle end or axle nut.
        share: part of it that goes through stack and cone [-].
        push: how far it pushes the cone inboard along its thread [m].
        unlocking_force: clamp force that takes the last load off the locknut's thread [N]; inf if none does.
        unlocked: the clamp is above that: the locknut is held by the clamp only.
        proud: the axle end reaches the outer face of its dropout: the frame is not held on this side.
        margin: dropout thickness less protrusion [m], or None where the seat has no dropout.
    """

    entry: Entry
    share: float
    push: float
    unlocking_force: float
    unlocked: bool
    proud: bool
    margin: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ClampState:
    """The closed clamp.

    Attributes:
        force: clamp force [N]; source: how it was found, in words; assumed: nobody measured it.
        shortening: how much it shortens the axle between the cones' threads [m]; 0 for axle nuts.
        left, right: what it does on each side.
        seat: what the clamp presses on.
    """

    force: float
    source: str
    assumed: bool
    shortening: float
    left: ClampSide
    right: ClampSide
    seat: ClampSeat

    @property
    def sides(self) -> dict[Side, ClampSide]:
        """Both sides by name."""
        return {"left": self.left, "right": self.right}

    @property
    def proud(self) -> tuple[Side, ...]:
        """Sides on which the axle stands proud of its dropout."""
        return tuple(side for side, state in self.sides.items() if state.proud)

    @property
    def nearly_proud(self) -> tuple[Side, ...]:
        """Sides on which it stands within `PROUD_WARNING` of that."""
        return tuple(
            side
            for side, state in self.sides.items()
            if state.margin is not None and not state.proud and state.margin <= PROUD_WARNING
        )


def close_clamp(scenario: Scenario) -> ClampState:
    """Return what closing the scenario's clamp on its seat does."""
    force, source = clamp_force(scenario)
    squeezes_axle = scenario.clamp.kind != "nuts"
    return ClampState(
        force=force,
        source=source,
        assumed=source == ASSUMED,
        shortening=force * axle_compliance(scenario.axle) if squeezes_axle else 0.0,
        left=_side(scenario, "left", force),
        right=_side(scenario, "right", force),
        seat=scenario.setting.clamp_seat,
    )


def clamp_force(scenario: Scenario) -> tuple[float, str]:
    """Return the clamp force [N] and how it was found, in words.

    A quick release is capped by the yield of its rod and by what a hand can close.
    """
    clamp = scenario.clamp
    if clamp.force is not None:
        return clamp.force, "as given"
    if clamp.torque is not None:
        return _force_of_torque(scenario, clamp.torque), "from the tightening torque"
    if clamp.pick_up is None:
        return USUAL_FORCE[clamp.kind], ASSUMED
    stiffness = quick_release_stiffness(scenario)
    cam = {"eccentricity": clamp.eccentricity, "closed_angle": 0.0, "stiffness": stiffness}
    found = {
        "from the lever's pick-up angle": quick_release_force(pickup_angle=clamp.pick_up, **cam),
        "capped where the rod yields": skewer_yield_force(
            diameter=clamp.rod_diameter, pitch=clamp.rod_pitch, yield_strength=clamp.rod_yield
        ),
        "capped by what the hand can close": hand_limited_force(
            hand_torque=clamp.hand_force * clamp.lever_length,
            cam_friction=clamp.cam_friction,
            cam_radius=clamp.cam_radius,
            **cam,
        ),
    }
    source = min(found, key=lambda words: float(found[words]))
    return float(found[source]), source


def _force_of_torque(scenario: Scenario, torque: float) -> float:
    """Return the clamp force a tightening torque [N·m] gives [N]; axle nuts run on the axle's own thread."""
    clamp, axle = scenario.clamp, scenario.axle
    on_axle = clamp.kind == "nuts"
    return float(
        clamp_force_from_torque(
            torque=torque,
            diameter=axle.thread_diameter if on_axle else clamp.thread_diameter,
            pitch=axle.thread_pitch if on_axle else clamp.thread_pitch,
            thread_friction=clamp.friction,
            face_friction=clamp.friction,
            face_radius=clamp.face_radius,
        )
    )


def quick_release_stiffness(scenario: Scenario) -> float:
    """Return the stiffness of rod, axle, lever, nut and dropouts in series [N/m]."""
    clamp, hub, frame = scenario.clamp, scenario.hub, scenario.frame
    rod = section_compliance(
        length=hub.over_locknut_width + 2 * frame.dropout_thickness,
        area=annulus_area(outer=clamp.rod_diameter, inner=0.0),
        young=206e9,
    )
    scale = hub.over_locknut_width / scenario.axle.cone_distance
    return float(1 / (rod + axle_compliance(scenario.axle) * scale + clamp.fixed_give))


@lru_cache(maxsize=256)
def axle_compliance(axle: Axle) -> float:
    """Return the shortening of the axle between the middles of the cones' threads per newton [m/N]."""
    threaded = section_compliance(
        length=axle.cone_distance - axle.plain_length, area=axle.root_area, young=axle.young
    )
    if axle.plain_length == 0.0:
        return float(threaded)
    plain = section_compliance(
        length=axle.plain_length,
        area=annulus_area(outer=axle.plain_diameter, inner=axle.bore),
        young=axle.young,
    )
    return float(threaded + plain)


def preload_compliance(scenario: Scenario) -> float:
    """Return the axial give of axle, shell and both jammed cones per newton of preload [m/N]."""
    axle = scenario.axle
    return axle_compliance(axle) + 1 / scenario.hub.shell_stiffness + 2 * axle.thread_give


def _side(scenario: Scenario, side: Side, force: float) -> ClampSide:
    """Return what a clamp force [N] does on one side."""
    stack = scenario.stack.side(side)
    adjusted = side == scenario.hub.adjustable_side
    margin = _margin(scenario, side)
    proud = margin is not None and margin <= 0.0
    entry = _entry(scenario, side, proud)
    gives = gives_of(scenario.axle, stack)
    share = gives.share(entry)
    locked = lock_force_of(
        scenario.axle, stack, scenario.setting.lock_torque if adjusted else stack.lock_torque
    )
    limit = inf if entry == "axle end" else float(nut_unloading_force(lock_force=locked, share=share))
    # past that limit the whole clamp goes through the stack, which carried the locking force before
    through_cone = force * share if force <= limit else force - locked
    return ClampSide(
        entry=entry,
        share=share,
        push=through_cone * gives.cone_thread,
        unlocking_force=limit,
        unlocked=force > limit,
        proud=proud,
        margin=margin,
    )


def _entry(scenario: Scenario, side: Side, proud: bool) -> Entry:
    """Return where the clamp's force enters the axle on one side."""
    if scenario.clamp.kind == "nuts":
        return "axle nut"
    bench = scenario.setting.clamp_seat in ("spacer on axle end", "one side in frame")
    return "axle end" if proud or (bench and side == scenario.hub.adjustable_side) else "locknut"


def _margin(scenario: Scenario, side: Side) -> float | None:
    """Return how far the axle end stands back from its dropout's outer face [m], None where it cannot matter.

    Only a rod through the axle is fooled by a proud axle: axle nuts need the axle to stand out, and a thru-axle
    hub sits between the dropouts.
    """
    seat = scenario.setting.clamp_seat
    adjusted = side == scenario.hub.adjustable_side
    in_dropout = seat == "dropouts" or (seat == "one side in frame" and not adjusted)
    if scenario.clamp.kind != "quick release" or not in_dropout:
        return None
    return scenario.frame.dropout_thickness - scenario.stack.side(side).protrusion
