"""Everything that is only assumed of a hub and its setting, one after the other."""

from collections.abc import Iterator
from dataclasses import replace

from conemodel.base.units import DEG, KILONEWTON, MM, NEWTON_METRE, ONE
from conemodel.parts import unknowns
from conemodel.parts.scenario import Scenario
from conemodel.solve.stages.clamp_force import clamp_force
from conemodel.solve.stages.locknut import SHARE_OF_NUT, lock_force_on, slack_share
from conemodel.tasks.setting.assumption import Assumption, assume, between, range_words, widen_to


def assumptions_of(scenario: Scenario) -> Iterator[Assumption]:
    """Yield every assumption that bears on a scenario."""
    yield _clamp_force(scenario)
    yield from _threads(scenario)
    yield _groove(scenario)
    yield from _hands(scenario)
    if scenario.setting.clamp_seat == "dropouts" and any(scenario.frame.dropout_turns):
        yield from _dropouts(scenario)
    if scenario.brake.kind == "disc":
        heat, unknown = scenario.heat, unknowns.hub.SHELL_WARMING
        ends = widen_to(heat.shell_warming, *unknown.span)
        yield assume(
            unknown,
            ends,
            heat.shell_warming,
            lambda warming: scenario.replace(heat=heat.replace(shell_warming=warming)),
            span=f"{range_words(ends, ONE)} °C",
            name="heat",
        )


def _clamp_force(scenario: Scenario) -> Assumption:
    """Return how hard the clamp closes."""
    own, clamp = clamp_force(scenario)[0], scenario.clamp
    usual = clamp.traits.force
    ends = widen_to(own, *scenario.assumed.clamp_forces(usual, given=clamp.force))
    return assume(
        replace(usual, name="clamp_force", words=unknowns.joint.CLAMP_FORCE.words),
        ends,
        own,
        lambda force: scenario.replace(clamp=clamp.replace(force=force, pick_up=None, torque=None)),
        span=f"{range_words(ends, KILONEWTON)} kN",
    )


def _threads(scenario: Scenario) -> Iterator[Assumption]:
    """Yield fit and compliance of the axle's thread."""
    assumed, axle = scenario.assumed, scenario.axle

    def with_axle(**changes: float) -> Scenario:
        return scenario.replace(axle=axle.replace(**changes))

    shares = widen_to(axle.thread_core_share, assumed.core_share_low, assumed.core_share_high)
    yield assume(
        unknowns.joint.CORE_SHARE,
        shares,
        axle.thread_core_share,
        lambda share: with_axle(thread_core_share=share),
        span=f"{range_words(shares, ONE)} of their core's stretch",
        drawn="core_share",
    )
    if scenario.clamp.traits.through_axle:
        bridged = widen_to(axle.thread_bridging, assumed.thread_bridging_low, assumed.thread_bridging_high)
        yield assume(
            unknowns.joint.THREAD_BRIDGING,
            bridged,
            axle.thread_bridging,
            lambda share: with_axle(thread_bridging=share),
            span=f"{range_words(bridged, ONE)} of the way from root to stress area, bridged",
        )
    least, most = axle.backlash_range
    if least < most and slack_share(scenario.setting) != 0.0:
        clearance_of = dict(zip(axle.backlash_range, axle.pitch_clearance_range, strict=True))
        yield assume(
            unknowns.joint.THREAD_FIT,
            axle.backlash_range,
            axle.backlash,
            lambda slack: with_axle(thread_clearance=clearance_of[slack], thread_clearance_error=0.0),
            span=f"{range_words(axle.backlash_range, MM)} mm",
            name="thread_slack",
            drawn="backlash",
        )


def _groove(scenario: Scenario) -> Assumption:
    """Return the groove radius of the races."""
    ends = scenario.assumed.conformity_low, scenario.assumed.conformity_high
    rows = scenario.hub.left, scenario.hub.right
    return assume(
        unknowns.hub.GROOVE,
        ends,
        sum(row.cone_conformity + row.cup_conformity for row in rows) / 4,
        lambda groove: with_conformity(scenario, groove),
        span=f"{range_words(ends, ONE)} of the ball",
        drawn="groove",
    )


def _hands(scenario: Scenario) -> Iterator[Assumption]:
    """Yield what the hands do: how they feel contact, how hard they lock, how far the cone turns along."""
    assumed, setting = scenario.assumed, scenario.setting
    fingers = widen_to(setting.finger_torque, assumed.finger_torque_low, assumed.finger_torque_high)
    yield assume(
        unknowns.hands.FINGER_TORQUE,
        fingers,
        setting.finger_torque,
        lambda torque: scenario.with_setting(finger_torque=torque),
        span=f"{range_words(fingers, NEWTON_METRE)} N·m",
    )
    yield _lock_force(scenario)
    if SHARE_OF_NUT[setting.technique] == 0.0:
        return
    stack = scenario.stack.side(scenario.hub.adjustable_side)
    if setting.cone_held:
        turns = widen_to(setting.drift, assumed.drift_low, assumed.drift_high)
        yield assume(
            unknowns.hands.DRIFT,
            turns,
            setting.drift,
            lambda turn: scenario.with_setting(drift=turn),
            span=f"{range_words(turns, DEG)}°",
        )
    elif stack.keyed_washer:
        turns = widen_to(stack.key_clearance, assumed.key_clearance_low, assumed.key_clearance_high)
        yield assume(
            unknowns.joint.KEY_CLEARANCE,
            turns,
            stack.key_clearance,
            lambda turn: _with_stack(scenario, key_clearance=turn),
            span=f"{range_words(turns, DEG)}°",
        )


def _lock_force(scenario: Scenario) -> Assumption:
    """Return how hard the locknut presses: neither the torque on a thin spanner nor the friction is measured."""
    assumed, stack = scenario.assumed, scenario.stack.side(scenario.hub.adjustable_side)
    own = scenario.setting.lock_torque
    torques = widen_to(own, assumed.lock_torque_low, assumed.lock_torque_high)
    frictions = widen_to(stack.thread_friction, assumed.friction_low, assumed.friction_high)
    low, high = (
        _with_stack(
            scenario.with_setting(lock_torque=torque), thread_friction=friction, face_friction=friction
        )
        for torque, friction in zip(torques, reversed(frictions), strict=True)
    )
    side = scenario.hub.adjustable_side
    least, most = (float(lock_force_on(end, side, end.setting.lock_torque)) for end in (low, high))
    friction = between(unknowns.joint.FRICTION, frictions, stack.thread_friction)
    return Assumption(
        name="lock_force",
        label="force of the locknut",
        span=f"{range_words((least, most), KILONEWTON)} kN",
        ends=(low, high),
        drawn={
            "lock_torque": between(unknowns.hands.LOCK_TORQUE, torques, own),
            "thread_friction": friction,
            "face_friction": friction,
        },
    )


def _dropouts(scenario: Scenario) -> Iterator[Assumption]:
    """Yield the compliances, not measured, of frame and stack about an axle between dropouts out of parallel."""
    frame, axle = scenario.frame, scenario.axle
    ends = widen_to(frame.angular_compliance, *unknowns.hub.DROPOUT_GIVE.span)
    low, high = (10 * DEG.from_si(compliance) for compliance in ends)
    yield assume(
        unknowns.hub.DROPOUT_GIVE,
        ends,
        frame.angular_compliance,
        lambda compliance: scenario.replace(frame=frame.replace(angular_compliance=compliance)),
        span=f"{low:.2g} to {high:.2g}° under 10 N·m",
    )
    shares = widen_to(axle.ends_stiffened, *unknowns.hub.ENDS_STIFFENED.span)
    yield assume(
        unknowns.hub.ENDS_STIFFENED,
        shares,
        axle.ends_stiffened,
        lambda share: scenario.replace(axle=axle.replace(ends_stiffened=share)),
        span=f"{range_words(shares, ONE)} of the way to a sleeve",
    )


def _with_stack(scenario: Scenario, **changes: float) -> Scenario:
    """Return the scenario with the stack of the adjustable side changed [SI]."""
    side = scenario.hub.adjustable_side
    return scenario.replace(
        stack=scenario.stack.replace(**{side: scenario.stack.side(side).replace(**changes)})
    )


def with_conformity(scenario: Scenario, value: float) -> Scenario:
    """Return the scenario with both grooves of both rows at another conformity."""
    hub = scenario.hub
    left, right = (row.replace(cone_conformity=value, cup_conformity=value) for row in (hub.left, hub.right))
    return scenario.replace(hub=hub.replace(left=left, right=right))
