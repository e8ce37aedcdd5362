"""Where a hub ended in the frame, as far as a careful hand can tell: sound or not, and loose, right or tight."""

from conemodel.parts.felt_play import felt_from
from conemodel.parts.setting import State
from conemodel.tasks.bearing.feel_words import STIFF_LOAD
from conemodel.tasks.practice.careful_hand import least_told
from conemodel.tasks.practice.hub_terms import end_play_of, in_frame, window_for
from conemodel.tasks.practice.rock_feel import free_play_at
from conemodel.tasks.practice.senses import told_apart
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

    It is 0 too where no careful hand could tell: nearer to the edge than it can set a cone, or than it can feel however
    often it feels. What it happened to feel this time decides nothing: that scatters.
    """
    framed = in_frame(secret, hub)
    window, end = window_for(secret, hub), end_play_of(secret, framed)
    least = least_told(pen=True) * secret.scenario.axle.lead_per_radian
    off = end - window.loose_edge if end > window.loose_edge else min(end - window.tight_edge, 0.0)
    return off if abs(off) > least and _can_be_felt(secret, framed, loose=off > 0.0) else 0.0


def _can_be_felt(secret: HiddenHub, framed: HubState, *, loose: bool) -> bool:
    """Return whether a hub beyond its good range feels loose or stiff to a hand that feels it often."""
    if not is_sound(secret, framed):
        return True
    limits = secret.scenario.limits
    if loose:
        return free_play_at(secret, framed, "rim") > felt_from(limits, "rim") * told_apart(secret, "play")
    return float(finger_signature(secret, framed).drag.load) > STIFF_LOAD * told_apart(secret, "drag")


def how_far_from_touch(hub: HubState, *, within: float) -> float:
    """Return how far a cone stands from first touch, outward [m], or 0 where it is `within` so much of it [m]."""
    return hub.cone if abs(hub.cone) > within else 0.0


def state_off(off: float) -> State:
    """Return the state of a hub `off` its good range by so much [m]."""
    return "right" if off == 0.0 else "loose" if off > 0.0 else "tight"


def state_as_it_came(secret: HiddenHub) -> State:
    """Return what a hub was as it came to the bench."""
    return state_off(how_far_off(secret, secret.start))
