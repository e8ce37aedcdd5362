"""Hints on a hub that ended loose or tight: the act that left it so, and the turn to make from there."""

from conemodel.parts.unknowns.hands import DRIFT
from conemodel.tasks.practice.actions.cone import AT_TOUCH
from conemodel.tasks.practice.actions.obstacles import CONE_FREE
from conemodel.tasks.practice.error_stage import ErrorStage, part_of, stage_past
from conemodel.tasks.practice.history import History
from conemodel.tasks.practice.hub_terms import end_play_of, in_frame, window_for
from conemodel.tasks.wording import CLOCK_MINUTE, clock_minutes

Hint = tuple[ErrorStage, str]


NOT_STIFF = "You twirled it clamped and felt nothing stiff: a hand misses that now and then, so twirl it several times."
NOT_FREE = (
    "You rocked it clamped and felt nothing free: a hand misses that now and then, so rock it several times."
)
"""What is said where the hand was misled: feeling again halves what the act adds, never what the sitting does."""


def hint_touch(history: History) -> str:
    """Return the hint on a cone that was left off first touch."""
    angle = history.hub.cone / history.secret.scenario.axle.lead_per_radian
    way, how = ("in", "still free") if angle > 0 else ("out", "already tight")
    return f"The cone was {how}, {_minutes(angle)} from first touch: turn it {way} until {AT_TOUCH}."


def hint_tight(history: History) -> Hint:
    """Return the hint on a hub that ended too tight."""
    twirled = history.hub.felt.twirled_clamped
    stiff = "stiff" in (twirled or ())
    twirl = "rocking says none for right and for too tight alike, only a twirl tells"
    if not history.hub.touched:
        if stiff:
            return "judged", f"It came too tight, twirled stiff, and you left it so. {_again(history)}"
        if twirled is not None and history.since_closed("Twirl"):
            return "judged", f"It came too tight, and you left it so. {NOT_STIFF} {_again(history)}"
        return "not checked", f"It came too tight, and you left it without twirling it clamped: {twirl}."
    if found := _turned_in(history):
        return found
    stage = stage_past(history.secret, history.hub)
    if stiff:
        return (
            stage,
            f"It twirled stiff, clamped, and you said it was done: that is too tight. {_again(history)}",
        )
    if twirled is None:
        return stage, f"You never twirled it clamped after the last move: {twirl}. {_again(history)}"
    if history.since_closed("Twirl"):
        return stage, f"{NOT_STIFF} {_again(history)}"
    return (
        stage,
        f"You twirled it before the clamp was closed for the last time: twirl it again. {_again(history)}",
    )


def _turned_in(history: History) -> Hint | None:
    """Return the hint on a cone that was dragged in, where without that the hub would not be tight."""
    secret, hub, last = history.secret, history.hub, history.last("Tighten")
    lead = secret.scenario.axle.lead_per_radian
    usual = DRIFT.unit.to_si(DRIFT.usual) * lead
    if last and not last.cone_held and history.off - part_of(secret, hub, "drift") - usual >= 0:
        return (
            "drift",
            "You left the cone free as you locked it, and it went in with the nut: hold it with a spanner.",
        )
    if last and history.off - part_of(secret, hub, "far_side") >= 0:
        return (
            "drift",
            "The axle itself turned as you locked it, and spanners on its far side did not hold it: use the vice.",
        )
    if history.off - part_of(secret, hub, "nut_drag") >= 0:
        return "clamp", "The axle nuts dragged the cone in: tighten the locknut harder before the nuts."
    return None


def hint_loose(history: History) -> Hint:
    """Return the hint on a hub that ended too loose."""
    felt, lock = history.hub.felt.rocked_clamped, history.hub.lock
    told = felt not in (None, "none")
    if not history.hub.touched:
        if told:
            return "judged", f"It came loose, moved freely clamped, and you left it so. {_again(history)}"
        if history.rocked_at_rim():
            return "judged", f"It came loose, and you left it so. {NOT_FREE} {_again(history)}"
        return "not checked", "It came loose, and you left it without rocking it at the rim, clamped."
    if lock and history.locks and not any(term.key == "thread_slack" for term in lock.terms):
        return "slack", (
            "You turned the cone out onto the nut: so the thread's slack is not taken up. Set the cone further in for "
            f"that, by {_minutes(_off_target(history))}, or hold the cone and turn the nut."
        )
    if told:
        return (
            "touch",
            f"It moved freely when you rocked it clamped, and you said it was done. {_again(history)}",
        )
    if felt is None:
        return (
            "clamp",
            f"You never rocked it clamped after the last move: it has play left. {_again(history)}",
        )
    if history.rocked_at_rim():
        return "touch", f"{NOT_FREE} {_again(history)}"
    return (
        "touch",
        f"You rocked it only at the axle end, which shows less: rock it at the rim. {_again(history)}",
    )


def _again(history: History) -> str:
    """Return the correction as a gesture: from where the cone stands to the middle of the good range."""
    off = _off_target(history)
    turn = f"{'in' if off > 0 else 'out'} by {_minutes(off)}, to the middle of the good range"
    if history.exercise.seat == CONE_FREE:
        return f"Trim it {turn}, and feel it clamped again."
    return f"Draw a pen line, undo it, bring the cone {turn}, lock it, and feel it clamped again."


def _off_target(history: History) -> float:
    """Return how far the cone stands from the middle of the good range [rad], positive too far out."""
    secret, hub = history.secret, history.hub
    off = end_play_of(secret, in_frame(secret, hub)) - window_for(secret, hub).target
    return off / secret.scenario.axle.lead_per_radian


def _minutes(angle: float) -> str:
    """Return a turn of the cone in minutes of the clock, to the half: as finely as a careful hand sets it."""
    return clock_minutes(max(abs(angle), CLOCK_MINUTE / 2), to_half=True)
