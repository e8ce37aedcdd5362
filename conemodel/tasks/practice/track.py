"""The path of one hub over the bench: where its cone truly stood after each act, and what it would have become."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from itertools import takewhile
from typing import Literal

from conemodel.parts.setting import State
from conemodel.tasks.practice.actions import ACTIONS, InWords, Take, TakeBack
from conemodel.tasks.practice.criteria import touch_within
from conemodel.tasks.practice.hub_terms import end_play_of, window_for
from conemodel.tasks.practice.outcome import how_far_from_touch, how_far_off, state_off
from conemodel.tasks.practice.session import Bench, Event, HiddenHub, HubState
from conemodel.tasks.practice.settled import settled
from conemodel.tasks.wording import clock_minutes

Stage = Literal["contact", "backed_off", "locked", "clamped"]

AT_CONTACT = 0.01
"""Turn of the cone from finger contact within which it stands there [rad]: half a degree."""

NO_ACT = (Take.__name__, TakeBack.__name__, InWords.__name__)
"""What is written in the log and done to no hub."""

AS_IT_CAME = "As it came"


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """A hub after one act.

    Attributes:
        done: the act in words; told: what hands, eyes and ears were told by it; felt: it was felt, not seen.
        kind: name of the action, empty for the hub as it came; times: how often it was done in a row.
        hub: as it stood then; stage: of the work.
        angle: of the cone, out from finger contact [rad].
        end_play: as it stood [m]; once_clamped: in the frame, its locknut tight [m].
        state: what it is then, as far as a careful hand can tell.
        good: between which angles the cone has to stand now to be right then, tight and loose edge [rad].
    """

    done: str
    told: str
    felt: bool
    kind: str
    times: int
    hub: HubState = field(repr=False)
    stage: Stage
    angle: float
    end_play: float
    once_clamped: float
    state: State
    good: tuple[float, float]


def track_of(bench: Bench, number: int) -> tuple[Frame, ...]:
    """Return the path of one hub of an exercise, `number` from 0: as it came, then after each act.

    What was refused or taken back is left out. What was felt again and again, alone or in turns, is one act, where it
    was felt last.
    """
    secret = bench.hidden[number]
    came = Event(action=AS_IT_CAME, told="", kind="", hub=number, after=secret.start)
    events = [came, *(event for event in bench.log if event.hub == number and _is_act(event))]
    frames: list[Frame] = []
    for event in events:
        frame = _frame(bench, secret, event, frames[-1] if frames else None)
        if before := _felt_before(frames, frame):
            frames.remove(before)
            frame = replace(frame, times=before.times + 1)
        frames.append(frame)
    return tuple(frames)


def _felt_before(frames: list[Frame], frame: Frame) -> Frame | None:
    """Return what was felt in the same way, with nothing but feeling done since; or None."""
    run = takewhile(feels, reversed(frames)) if feels(frame) else ()
    return next((each for each in run if (each.kind, each.done) == (frame.kind, frame.done)), None)


def _is_act(event: Event) -> bool:
    return not event.refused and not event.undone and event.kind not in NO_ACT


def moves(frames: tuple[Frame, ...]) -> Iterator[tuple[int, int]]:
    """Yield the first and the last frame of each stretch in which neither cone nor locknut was moved."""
    first = 0
    for number in range(1, len(frames) + 1):
        if number == len(frames) or frames[number].hub.setting != frames[number - 1].hub.setting:
            yield first, number - 1
            first = number


def _frame(bench: Bench, secret: HiddenHub, event: Event, before: Frame | None) -> Frame:
    hub = event.after or secret.start
    lead = secret.scenario.axle.lead_per_radian
    angle = cone_angle(secret, hub)
    ready = settled(secret, hub)
    then, window = end_play_of(secret, ready), window_for(secret, hub)
    if bench.exercise.kind == "touch":
        most = touch_within(bench.exercise)
        state, good = state_off(how_far_from_touch(hub, within=most * lead)), (-most, most)
    else:
        state = before.state if before and _alike(before.hub, hub) else state_off(how_far_off(secret, ready))
        good = (
            angle + (window.tight_edge - then) / lead,
            angle + (window.loose_edge - then) / lead,
        )
    return Frame(
        done=_done(event, angle, before),
        told=event.told,
        felt=event.felt,
        kind=event.kind,
        times=1,
        hub=hub,
        stage=_stage(hub, angle),
        angle=angle,
        end_play=end_play_of(secret, hub),
        once_clamped=then,
        state=state,
        good=good,
    )


def cone_angle(secret: HiddenHub, hub: HubState) -> float:
    """Return where the cone truly stands, out from finger contact [rad]: what turned it as it was locked included."""
    turned = hub.lock.rotation if hub.lock else 0.0
    return (hub.cone + turned) / secret.scenario.axle.lead_per_radian


def _alike(one: HubState, other: HubState) -> bool:
    """Return whether two states of a hub become the same: nothing on which that depends has changed between them."""
    kept = ("cone", "lock", "nut_snug", "axle_changed", "balls_made_up", "wheel", "axle", "locks")
    return all(getattr(one, name) == getattr(other, name) for name in kept)


def _done(event: Event, angle: float, before: Frame | None) -> str:
    """Return an act in words: a turn of the cone as far as it truly went."""
    words = event.action
    if event.kind == "TurnCone" and before is not None:
        turn = angle - before.angle
        words = f"cone turned {'out' if turn > 0 else 'in'}, {clock_minutes(turn)}"
    return f"{words[:1].upper()}{words[1:]}"


def _stage(hub: HubState, angle: float) -> Stage:
    if hub.closed:
        return "clamped"
    if hub.lock is not None:
        return "locked"
    return "contact" if abs(angle) < AT_CONTACT else "backed_off"


def feels(frame: Frame) -> bool:
    """Return whether a hand felt the hub itself by an act."""
    return frame.felt and not ACTIONS[frame.kind].moves_cone
