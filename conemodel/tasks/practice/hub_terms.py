"""What the end play of a hidden hub is made of, as it stands on the bench, and its good range."""

from dataclasses import replace

from conemodel.base.batch_cache import keep_answers
from conemodel.parts.scenario import Scenario
from conemodel.parts.setting import ClampSeat
from conemodel.solve.stages.clamp import ClampState, close_clamp
from conemodel.solve.stages.terms import (
    LABELS,
    Term,
    contact_end_play,
    finger_preload,
    label_of_turn,
    pair_of,
)
from conemodel.tasks.practice.session import HiddenHub, HubState
from conemodel.tasks.setting.good_range import Window, window_of


def terms_of(secret: HiddenHub, hub: HubState) -> tuple[Term, ...]:
    """Return everything end play is made of now, in the order of the work."""
    scenario = secret.now(hub)
    out = Term(key="back_off", label=label_of_turn(hub.cone), length=hub.cone)
    locked = hub.lock.terms if hub.lock else ()
    if hub.nut_snug:
        slack = -scenario.axle.backlash
        locked = (Term(key="thread_slack", label=LABELS["thread_slack"], length=slack),)
    return (pinch(scenario), out, *locked, *(clamp_terms_of(secret, hub) if hub.closed else ()))


def end_play_of(secret: HiddenHub, hub: HubState) -> float:
    """Return the end play of the hub as it stands [m]."""
    return sum(term.length for term in terms_of(secret, hub))


def pinch(scenario: Scenario, hard: float = 1.0) -> Term:
    """Return the term of a cone screwed in by finger, from which the cone is counted.

    `hard` is how many times as hard as usual the fingers pinch this time.
    """
    length = contact_end_play(pair_of(scenario), hard * float(finger_preload(scenario)))
    return Term(key="finger", label=LABELS["finger"], length=length, assumed=True)


@keep_answers(size=1024)
def clamp_of(scenario: Scenario, seat: ClampSeat, torque: float) -> ClampState[float]:
    """Return the closed clamp on `seat`, with the adjustable side locked by `torque` [N·m]."""
    return close_clamp(scenario.with_setting(clamp_seat=seat, lock_torque=torque))


def clamp_terms_of(secret: HiddenHub, hub: HubState) -> tuple[Term, ...]:
    """Return what the clamp does to end play when closed on its seat; a loose cone is not pushed."""
    if hub.seat is None:
        return ()
    scenario = secret.now(hub)
    clamp = clamp_of(scenario, hub.seat, hub.lock.torque if hub.lock else 0.0)
    lengths = clamp.lengths(loose=None if hub.lock else scenario.hub.adjustable_side)
    return tuple(Term(key=key, label=LABELS[key], length=float(length)) for key, length in lengths.items())


def in_frame(secret: HiddenHub, hub: HubState) -> HubState:
    """Return the hub as it would be closed in the dropouts."""
    return replace(hub, seat="dropouts", closed=True)


def window_for(secret: HiddenHub, hub: HubState) -> Window:
    """Return the good range of the hub, clamped."""
    return window_of(secret.now(hub))
