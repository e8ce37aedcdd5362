"""What the terms of end play depend on beside the parts: hands, threads, friction, clamp; for one hub or for many."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Generic, cast

from conemodel.base.units import Array, Number
from conemodel.parts.hub import SIDES, Side
from conemodel.parts.scenario import Scenario
from conemodel.solve.stages.clamp_force import clamp_force


@dataclass(frozen=True, slots=True, kw_only=True)
class Inputs(Generic[Number]):
    """What may differ between hubs of one kind: numbers for one hub, shape (n,) for n hubs.

    Attributes:
        finger_torque: how hard the fingers screw the cone in [N·m].
        back_off: turn of the cone out from finger contact [rad].
        lock_torque: at the locknut of the adjustable side [N·m].
        drift: turn of a held cone in with its locknut [rad].
        backlash: axial, of the cone on its thread [m].
        thread_compliance: of a cone or nut on its thread [m/N].
        thread_bridging: where the axle's shortening lies in its range, see `clamp_compliance` [-].
        thread_friction, face_friction: of each side [-].
        clamp_force: [N]; clamp_source: how it was found, in words.
    """

    finger_torque: Number
    back_off: Number
    lock_torque: Number
    drift: Number
    backlash: Number
    thread_compliance: Number
    thread_bridging: Number
    thread_friction: Mapping[Side, Number]
    face_friction: Mapping[Side, Number]
    clamp_force: Number
    clamp_source: str


def inputs_of(scenario: Scenario) -> Inputs[float]:
    """Return the inputs of one hub, as its scenario describes it."""
    setting, axle = scenario.setting, scenario.axle
    force, source = clamp_force(scenario)
    return Inputs(
        finger_torque=setting.finger_torque,
        back_off=setting.back_off,
        lock_torque=setting.lock_torque,
        drift=setting.drift,
        backlash=axle.backlash,
        thread_compliance=axle.thread_compliance,
        thread_bridging=axle.thread_bridging,
        thread_friction={side: scenario.stack.side(side).thread_friction for side in SIDES},
        face_friction={side: scenario.stack.side(side).face_friction for side in SIDES},
        clamp_force=force,
        clamp_source=source,
    )


def inputs_over(scenario: Scenario, **changes: Any) -> Inputs[Array]:
    """Return the inputs of n hubs that are like one scenario's but for `changes` (n,), named as the fields."""
    return cast(Inputs[Array], replace(inputs_of(scenario), **changes))
