"""What tightening, undoing and trimming do to a hub on the bench, by the physics of the joint."""

from dataclasses import replace
from typing import Any

from conemodel.parts.hub import Stack
from conemodel.parts.scenario import Scenario
from conemodel.parts.setting import Technique
from conemodel.parts.unknowns.hands import HAND_FORCE
from conemodel.physics.tightening import far_side_slip_torque
from conemodel.solve.stages.adjustable_side import AdjustableSide
from conemodel.solve.stages.locknut import SHARE_OF_NUT, lock_force_on, lock_up, other_side
from conemodel.solve.stages.terms import LABELS, Term, cone_arm
from conemodel.solve.stages.terms import tighten as lock_by_nut
from conemodel.tasks.practice.hub_terms import clamp_of, end_play_of
from conemodel.tasks.practice.keyed_random import uniform, within
from conemodel.tasks.practice.senses import scattered, undone_by
from conemodel.tasks.practice.session import HiddenHub, HubState, Lock

HAND = {"light": HAND_FORCE.low, "firm": HAND_FORCE.usual, "hard": HAND_FORCE.high}
"""Force of a hand at the end of the locknut spanner [N]."""

FAR_SIDE_TURN = (0.1, 0.35)
"""How far the axle turns in the far side's cone and nut before the hand stops [rad]. Assumption."""

MOST_TRIM = 0.21
"""Most that two spanners can turn cone and locknut together before they need a new grip [rad]. Assumption."""

WORN_OUT_SLIP = 0.5
"""A thread worn beyond use keeps this share of the locking force [-]. Assumption."""

BY_HAND = {
    "hand": "cone stirred a little as it was locked",
    "far_side": "axle turned as it was locked: its far side slipped",
    "trim": "cone and locknut trimmed together",
    "nut_drag": "axle nut dragged the cone in",
    "clamp_let_go": "locked under a clamp on the axle end",
}
"""What hands do to a locked cone beside locking it, by key, with its words."""


def effort_torque(secret: HiddenHub, hub: HubState, effort: str) -> float:
    """Return the torque of a hand at the locknut spanner, the next time it pulls [N·m]: never twice the same."""
    length = secret.now(hub).assumed.spanner_length
    return HAND[effort] * length * scattered(secret, "pull", hub.locks + 1)


def tighten(secret: HiddenHub, hub: HubState, *, effort: str, technique: Technique) -> HubState:
    """Return the hub with its locknut tightened, for the first time or further."""
    scenario = secret.now(hub)
    number = hub.locks + 1
    torque = _worn_torque(secret, effort_torque(secret, hub, effort))
    setting: dict[str, Any] = {
        "technique": technique,
        "cone_held": hub.cone_held,
        "drift": within(secret.key, f"drift {number}", secret.drift),
        "axle_held": "vice" if hub.axle_held == "nothing" else hub.axle_held,
    }
    joint = lock_up(scenario.with_setting(**setting, lock_torque=torque))
    slip = 0.0
    if joint.far_side_slips:
        slip, torque = _far_side(secret, scenario, number)
        joint = lock_up(scenario.with_setting(**setting, lock_torque=torque))
    nut = _share_of_nut(secret, hub, technique, number)
    before = side_of(secret, hub)
    after, locked = lock_by_nut(scenario, before, joint, nut=nut, before=end_play_of(secret, hub))
    lengths = {key: float(length) for key, length in locked.items()}
    lengths["hand"] = _hand_error(secret, hub, number)
    lengths["far_side"] = -slip
    if hub.closed and hub.seat is not None and hub.lock is None:
        clamp = clamp_of(scenario, hub.seat, torque)
        # what this clamp does to a jammed cone it did not do to a loose one: it comes when the clamp is opened
        lengths["clamp_let_go"] = float(clamp.sides[scenario.hub.adjustable_side].push)
    rotation = float(after.cone - before.cone) + lengths["hand"] + lengths["far_side"]
    old = hub.lock or Lock(torque=0.0, terms=(), rotation=0.0)
    if (
        hub.nut_snug
    ):  # the nut had taken the slack before; it is part of what this lock gives back when undone
        lengths["thread_slack"] -= float(before.slack_taken)
    lock = Lock(
        torque=max(torque, old.torque),
        terms=merge_terms(old.terms, lengths),
        rotation=old.rotation + rotation,
        turned_in=-rotation / scenario.axle.lead_per_radian,
    )
    return replace(hub.moved(), lock=lock, locks=number, nut_snug=False)


def undo(secret: HiddenHub, hub: HubState) -> HubState:
    """Return the hub with its locknut run back: what locking took comes back. A cone that nobody holds goes with it."""
    turned = hub.lock.rotation if hub.lock else 0.0
    turned += goes_along(secret, hub) * secret.now(hub).axle.lead_per_radian
    return replace(hub.moved(), lock=None, nut_snug=False, cone=hub.cone + turned)


def goes_along(secret: HiddenHub, hub: HubState) -> float:
    """Return how far the cone goes out with its locknut as that is undone [rad]: not at all where it is held.

    A keyed washer stops the nut's face from taking it further than the key has clearance.
    """
    if hub.lock is None or hub.cone_held:
        return 0.0
    washer, turn = _stack(secret.now(hub)), undone_by(secret, hub)
    return min(turn, washer.key_clearance) if washer.keyed_washer else turn


def run_up(hub: HubState) -> HubState:
    """Return the hub with its loose locknut run up to the cone by finger, onto the inboard flank of its thread."""
    return replace(hub.moved(), nut_snug=True)


def trim(secret: HiddenHub, hub: HubState, angle: float) -> HubState:
    """Return the hub with cone and locknut turned together by `angle` [rad], the joint staying tight."""
    if hub.lock is None:
        return hub
    lead = secret.now(hub).axle.lead_per_radian
    number = hub.trims + 1
    error = uniform(secret.key, "trim", number, low=-1, high=1) * secret.hand_error / 2
    return replace(turn_locked(hub, "trim", (angle + error) * lead).moved(), trims=number)


def trim_torque(secret: HiddenHub, hub: HubState) -> float:
    """Return the torque that turns the jammed pair on the axle [N·m]: both threads rub under the locking force."""
    scenario = secret.now(hub)
    return float(
        far_side_slip_torque(
            force=_lock_force(scenario, hub.lock.torque if hub.lock else 0.0),
            diameter=scenario.axle.thread_diameter,
            pitch=scenario.axle.thread_pitch,
            thread_friction=_stack(scenario).thread_friction,
        )
    )


def turn_locked(hub: HubState, key: str, length: float) -> HubState:
    """Return a locked hub whose cone turned with its nut by `length` along the thread [m]."""
    if hub.lock is None:
        return replace(hub, cone=hub.cone + length)
    lock = replace(
        hub.lock, terms=merge_terms(hub.lock.terms, {key: length}), rotation=hub.lock.rotation + length
    )
    return replace(hub, lock=lock)


def merge_terms(terms: tuple[Term, ...], lengths: dict[str, float]) -> tuple[Term, ...]:
    """Return terms with `lengths` [m] added by key, in the order of the work; nothing that is zero."""
    total = {term.key: term.length for term in terms}
    for key, length in lengths.items():
        total[key] = total.get(key, 0.0) + length
    return tuple(
        Term(key=key, label=label, length=total[key])
        for key, label in (LABELS | BY_HAND).items()
        if total.get(key)
    )


def _stack(scenario: Scenario) -> Stack:
    return scenario.stack.side(scenario.hub.adjustable_side)


def _worn_torque(secret: HiddenHub, torque: float) -> float:
    return torque * WORN_OUT_SLIP if secret.fault == "thread worn out" else torque


def _share_of_nut(secret: HiddenHub, hub: HubState, technique: Technique, number: int) -> float:
    """Return the part of the closing done by the nut; with the axle free it is whichever thread slides."""
    if hub.axle_held == "nothing":
        return uniform(secret.key, "which thread slides", number, low=0.0, high=1.0)
    return SHARE_OF_NUT[technique]


def side_of(secret: HiddenHub, hub: HubState) -> AdjustableSide[float]:
    """Return the adjustable side as it stands."""
    scenario = secret.now(hub)
    turned = hub.lock.rotation if hub.lock else 0.0
    bears_inboard = hub.lock is not None or hub.nut_snug
    return AdjustableSide(
        cone=hub.cone + turned,
        slack_taken=scenario.axle.backlash if bears_inboard else 0.0,
        nut_touches=bears_inboard,
        lock_force=_lock_force(scenario, hub.lock.torque) if hub.lock else 0.0,
    )


def _lock_force(scenario: Scenario, torque: float) -> float:
    """Return the locking force of the adjustable side at a locknut `torque` [N·m], [N]."""
    return float(lock_force_on(scenario, scenario.hub.adjustable_side, torque))


def _hand_error(secret: HiddenHub, hub: HubState, number: int) -> float:
    """Return how far off its place a held cone was locked, along the thread [m]."""
    if not hub.cone_held or hub.lock is not None:
        return 0.0
    most = secret.hand_error / 2 if hub.pen else secret.hand_error
    lead = secret.now(hub).axle.lead_per_radian
    return uniform(secret.key, "hand", number, low=-1.0, high=1.0) * most * lead


def _far_side(secret: HiddenHub, scenario: Scenario, number: int) -> tuple[float, float]:
    """Return how far the far side's cone comes in [m], and the torque the near locknut gets all the same [N·m]."""
    axle, far_side = scenario.axle, other_side(scenario.hub.adjustable_side)
    far = scenario.stack.side(far_side)
    thread = {"diameter": axle.thread_diameter, "pitch": axle.thread_pitch}
    force = lock_force_on(scenario, far_side, far.lock_torque)
    slips = far_side_slip_torque(force=force, **thread, thread_friction=far.thread_friction)
    low, high = FAR_SIDE_TURN
    turn = uniform(secret.key, "far side", number, low=low, high=high)
    return turn * axle.lead_per_radian, float(slips / cone_arm(scenario)) / _lock_force(scenario, 1.0)
