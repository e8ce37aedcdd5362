"""How hard a clamp holds: as given, from torque or lever angle, or assumed."""

from conemodel.parts.scenario import Scenario
from conemodel.physics.clamp import hand_limited_force, quick_release_force, skewer_yield_force
from conemodel.physics.joint import annulus_area, section_compliance
from conemodel.physics.tightening import lock_force
from conemodel.solve.stages.compliances import axle_compliance

ASSUMED = "assumed: nobody measured it"
GIVEN = "as given"


def clamp_force(scenario: Scenario) -> tuple[float, str]:
    """Return the clamp force [N] and how it was found, in words.

    A quick release is capped by the yield of its rod and by what a hand can close.
    """
    clamp = scenario.clamp
    if clamp.force is not None:
        return clamp.force, GIVEN
    if clamp.torque is not None:
        return _force_of_torque(scenario, clamp.torque), "from the tightening torque"
    if clamp.pick_up is None:
        return clamp.traits.force.usual, ASSUMED
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
    """Return the clamp force a tightening torque [N·m] gives [N]; axle nuts run on the axle's own thread.

    Source: [VDI2230]; the same screw law as the locknut's.
    """
    clamp, axle = scenario.clamp, scenario.axle
    on_axle = not clamp.traits.through_axle
    return float(
        lock_force(
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
    scale = hub.over_locknut_width / scenario.cone_distance
    return float(1 / (rod + axle_compliance(scenario) * scale + clamp.fixed_give))
