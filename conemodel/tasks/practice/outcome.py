"""Where a hub ended in the frame, as far as a careful hand can tell: sound or not, and loose, right or tight."""

from conemodel.parts.setting import State
from conemodel.tasks.practice.careful_hand import least_told
from conemodel.tasks.practice.hub_terms import end_play_of, in_frame, window_for
from conemodel.tasks.practice.session import HiddenHub, HubState
from conemodel.tasks.practice.torque_feel import finger_signature

MENDED_BY = {"proud axle": "axle_changed", "ball missing": "balls_made_up"}
"""Faults that can be put right at the bench, and what says that they were."""


def is_sound(secret: HiddenHub, hub: HubState) -> bool:
    """Return whether a setting of the cone can make a hub right; one with a fault must be stripped first."""
    if secret.fault != "none" and not getattr(hub, MENDED_BY.get(secret.fault, ""), False):
        return False
    return window_for(secret, hub).width > 0


def how_far_off(secret: HiddenHub, hub: HubState) -> float:
    """Return how far outside its good range a hub is once in the frame [m]: positive loose, negative tight, or 0.

    It is 0 too where no careful hand could tell: nearer than it can set a cone, or as smooth to the fingers as a hub
    that is right. What the hand was told since the last move counts, however little it was.
    """
    framed = in_frame(secret, hub)
    window, end = window_for(secret, hub), end_play_of(secret, framed)
    least = least_told(pen=True) * secret.scenario.axle.lead_per_radian
    if end > window.loose_edge:
        off = end - window.loose_edge
        return off if off > least or hub.felt.rocked_clamped not in (None, "none") else 0.0
    off = min(end - window.tight_edge, 0.0)
    if off == 0.0 or "stiff" in (hub.felt.twirled_clamped or ()):
        return off
    stiff = not is_sound(secret, hub) or "stiff" in finger_signature(secret, framed).words
    return off if off < -least and stiff else 0.0


def how_far_from_touch(hub: HubState, *, within: float) -> float:
    """Return how far a cone stands from first touch, outward [m], or 0 where it is `within` so much of it [m]."""
    return hub.cone if abs(hub.cone) > within else 0.0


def state_off(off: float) -> State:
    """Return the state of a hub `off` its good range by so much [m]."""
    return "right" if off == 0.0 else "loose" if off > 0.0 else "tight"


def state_as_it_came(secret: HiddenHub) -> State:
    """Return what a hub was as it came to the bench."""
    return state_off(how_far_off(secret, secret.start))
