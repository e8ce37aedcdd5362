"""One action at the bench: the state before in, the state after out, and what hands, eyes and ears answer."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice import messages as told
from conemodel.tasks.practice.cone_position import EYE, as_seen, placed, shown
from conemodel.tasks.practice.keyed_random import within
from conemodel.tasks.practice.locknut import tighten, trim, turned_locked, undo
from conemodel.tasks.practice.preconditions import why_not
from conemodel.tasks.practice.session import Bench, Event, HubState, clamp_of, end_play_of, pinch
from conemodel.tasks.practice.torque_feel import TURN_LIMIT, spin_feel, twirl_feel
from conemodel.tasks.practice.widget_data import rock_feel

ROUND = 40
"""Quarter turns after which a position is taken to come again: the balls go round at about half the wheel's pace."""

FREE = (a.Rock, a.Twirl, a.Spin, a.Wiggle, a.Look, a.Answer, a.Take)
"""Actions that change nothing about the hub itself and do not count as moves."""

Answered = tuple[HubState, str]


def act(bench: Bench, action: a.Action) -> Bench:
    """Return the bench after an action. One that cannot be done changes nothing and says why in the log."""
    reason = why_not(bench, action)
    if reason is not None:
        return _logged(bench, bench, action, reason, refused=True)
    if isinstance(action, a.TakeBack):
        return _taken_back(bench, action)
    if isinstance(action, a.Take):
        return _logged(bench, replace(bench, current=action.hub), action, told.taken(action.hub))
    hub, text = _DO[type(action)](bench, action)
    after = bench.with_hub(hub)
    if not bench.exercise.assessed:
        after = replace(after, past=(*bench.past, (bench.hubs, bench.current)))
    return _logged(bench, after, action, text)


def _logged(before: Bench, after: Bench, action: a.Action, text: str, *, refused: bool = False) -> Bench:
    event = Event(
        action=told.said(action),
        told=text,
        kind=type(action).__name__,
        hub=after.current,
        refused=refused,
        counts=not refused and not isinstance(action, FREE),
    )
    return replace(after, log=(*before.log, event))


def _taken_back(bench: Bench, action: a.TakeBack) -> Bench:
    """Return the bench as it was before the last action that was not taken back; the log keeps both."""
    hubs, current = bench.past[-1]
    log = list(bench.log)
    for i in reversed(range(len(log))):
        if not log[i].undone and not log[i].refused and log[i].kind not in ("TakeBack", "Take"):
            log[i] = replace(log[i], undone=True)
            break
    back = replace(bench, hubs=hubs, current=current, past=bench.past[:-1], log=tuple(log))
    return _logged(back, back, action, "As it was before.")


def _screw_in(bench: Bench, _: a.ScrewIn) -> Answered:
    secret, hub = bench.secret, bench.hub
    if hub.axle_held == "nothing":
        return hub, told.AXLE_TURNS
    wanted = pinch(secret.now(hub)).length - end_play_of(secret, hub)
    if wanted > 0:
        return hub, "It is tight already: fingers turn it no further in."
    return replace(hub, cone=hub.cone + wanted, shown=shown(secret, hub, wanted)).moved(), told.PINCHED


def _turn_cone(bench: Bench, action: a.TurnCone) -> Answered:
    secret, hub = bench.secret, bench.hub
    if hub.axle_held == "nothing":
        return hub, told.AXLE_TURNS
    length = (action.angle - hub.shown) * secret.now(hub).axle.lead_per_radian
    after, stopped = placed(secret, hub, length, TURN_LIMIT)
    if stopped:
        after = replace(after, shown=round(after.shown / EYE[hub.pen]) * EYE[hub.pen])
    return after, told.turned(secret, after, stopped=stopped)


def _mark(bench: Bench, _: a.Mark) -> Answered:
    hub = bench.hub
    return replace(hub, mark=hub.shown, marked_at=hub.locks), "A line runs over axle, cone and locknut."


def _hold_axle(bench: Bench, action: a.HoldAxle) -> Answered:
    return replace(bench.hub, axle_held=action.by), told.HELD[action.by]


def _hold_cone(bench: Bench, action: a.HoldCone) -> Answered:
    held = "A spanner holds the cone while you lock."
    text = held if action.held else "Nothing holds the cone while you lock."
    return replace(bench.hub, cone_held=action.held), text


def _tighten(bench: Bench, action: a.Tighten) -> Answered:
    secret, hub = bench.secret, bench.hub
    after = tighten(secret, hub, effort=action.effort, technique=action.technique)
    return as_seen(secret, hub, after), told.tightened(secret, after)


def _undo(bench: Bench, _: a.Undo) -> Answered:
    return undo(bench.secret, bench.hub), "The locknut is loose; the cone stayed where it was."


def _trim(bench: Bench, action: a.Trim) -> Answered:
    after = trim(bench.secret, bench.hub, action.angle)
    return as_seen(bench.secret, bench.hub, after), "Cone and locknut went round together, still tight."


def _turn_wheel(bench: Bench, _: a.TurnWheel) -> Answered:
    return replace(bench.hub, wheel=(bench.hub.wheel + 1) % ROUND), "The wheel is a quarter further round."


def _turn_axle(bench: Bench, _: a.TurnAxle) -> Answered:
    return replace(bench.hub, axle=(bench.hub.axle + 1) % ROUND), "The axle is a quarter further round."


def _rock(bench: Bench, action: a.Rock) -> Answered:
    hub = bench.hub
    found = rock_feel(bench.secret, hub, action.grip)
    if action.grip == "axle end" and not hub.closed:
        felt = replace(hub.felt, at_axle_end=found.word, rocked_open=found.word)
    elif hub.closed:
        felt = replace(hub.felt, rocked_clamped=found.word)
    else:
        felt = replace(hub.felt, rocked_open=found.word)
    where = hub.positions | {(hub.wheel, hub.axle)}
    return replace(hub, felt=felt, positions=where), told.rocked(hub, found, brisk=action.brisk)


def _twirl(bench: Bench, action: a.Twirl) -> Answered:
    hub = bench.hub
    if not action.full_turn:
        return hub, "Less than a full turn says little."
    found = twirl_feel(bench.secret, hub)
    felt = replace(hub.felt, twirled=True)
    where = hub.positions | {(hub.wheel, hub.axle)}
    text = f"{found.turning[:1].upper()}{found.turning[1:]}; let go, {found.let_go}."
    return replace(hub, felt=felt, positions=where), text


def _spin(bench: Bench, _: a.Spin) -> Answered:
    found = spin_feel(bench.secret, bench.hub)
    return replace(bench.hub, felt=replace(bench.hub.felt, spun=True)), f"The wheel {found.running}."


def _wiggle(bench: Bench, _: a.Wiggle) -> Answered:
    return bench.hub, told.wiggled(bench.secret, bench.hub)


def _fit(bench: Bench, action: a.FitClamp) -> Answered:
    return replace(bench.hub, seat=action.seat), told.SEATED[action.seat]


def _close(bench: Bench, _: a.CloseClamp) -> Answered:
    secret, hub = bench.secret, bench.hub
    after = replace(hub, closed=True, closings=hub.closings + 1)
    scenario = secret.now(hub)
    if scenario.clamp.kind != "nuts" or hub.lock is None or hub.seat is None:
        return after, told.closed(secret, after)
    clamp = clamp_of(scenario, hub.seat, hub.lock.torque)
    after = replace(after, felt=replace(hub.felt, rocked_clamped=None))
    if clamp.sides[scenario.hub.adjustable_side].unlocked:
        drag = within(secret.key, f"nut drag {after.closings}", secret.nut_drag)
        dragged = turned_locked(after, "nut_drag", -drag * scenario.axle.lead_per_radian)
        after = as_seen(secret, after, dragged)
    return after, told.closed(secret, after)


def _open(bench: Bench, _: a.OpenClamp) -> Answered:
    return replace(bench.hub, closed=False), "The clamp is open."


def _look(bench: Bench, action: a.Look) -> Answered:
    hub = replace(bench.hub, seen=bench.hub.seen | {action.at})
    return hub, told.looked(bench.secret, hub, action.at)


def _put_right(bench: Bench, action: a.PutRight) -> Answered:
    hub = bench.hub
    if action.what == "brake":
        return replace(hub, brake_connected=True), "The brake is connected and works."
    if action.what == "axle":
        return replace(hub, axle_changed=True, seen=hub.seen - {"protrusion"}).moved(), told.NEW_AXLE
    return replace(hub, balls_made_up=True, seen=hub.seen - {"balls"}).moved(), told.NEW_BALLS


def _answer(bench: Bench, action: a.Answer) -> Answered:
    kept = tuple(pair for pair in bench.hub.answers if pair[0] != action.question)
    hub = replace(bench.hub, answers=(*kept, (action.question, action.word)))
    if bench.exercise.kind == "name":
        hub = replace(hub, done="named")
    return hub, "Noted."


def _finish(bench: Bench, action: a.Finish) -> Answered:
    done = "refuse" if action.refuse else "done"
    return replace(bench.hub, done=done), "You will not adjust this one." if action.refuse else "Done."


_DO: dict[type, Callable[[Bench, Any], Answered]] = {
    a.ScrewIn: _screw_in,
    a.TurnCone: _turn_cone,
    a.Mark: _mark,
    a.HoldAxle: _hold_axle,
    a.HoldCone: _hold_cone,
    a.Tighten: _tighten,
    a.Undo: _undo,
    a.Trim: _trim,
    a.TurnWheel: _turn_wheel,
    a.TurnAxle: _turn_axle,
    a.Rock: _rock,
    a.Twirl: _twirl,
    a.Spin: _spin,
    a.Wiggle: _wiggle,
    a.FitClamp: _fit,
    a.CloseClamp: _close,
    a.OpenClamp: _open,
    a.Look: _look,
    a.PutRight: _put_right,
    a.Answer: _answer,
    a.Finish: _finish,
}
