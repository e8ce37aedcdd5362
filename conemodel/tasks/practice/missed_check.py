"""The cue of a replay: the first act after which a check that could have told was not made, or was not believed.

It is said as a gesture, and what the hub would have done under it: never as a length that nobody feels.
"""

from collections.abc import Callable, Iterable

from conemodel.parts.exercise import Exercise
from conemodel.tasks.practice.actions.cone import AT_TOUCH, RATTLES, TURNS_FREELY
from conemodel.tasks.practice.actions.feel import LITTLE
from conemodel.tasks.practice.careful_hand import least_told
from conemodel.tasks.practice.hint_fault import ALL_ROUND, SIGNS
from conemodel.tasks.practice.missed_feel import (
    Cue,
    Frames,
    Missed,
    cue_loose,
    cue_moved_on,
    cue_tight,
    cue_unknown,
    find_rocks,
    find_twirls,
)
from conemodel.tasks.practice.outcome import is_sound, state_as_it_came
from conemodel.tasks.practice.questions import SOUND, right_answer
from conemodel.tasks.practice.session import HiddenHub
from conemodel.tasks.practice.track import Frame, feels, moves


def missed_check(exercise: Exercise, secret: HiddenHub, frames: Frames) -> Cue | None:
    """Return the cue of one hub's path, None where nothing was missed that a hand could have found."""
    return _WAYS[exercise.kind](exercise, secret, frames)


def _of_touch(_: Exercise, __: HiddenHub, frames: Frames) -> Cue | None:
    end = frames[-1]
    if end.state == "right":
        return None
    turns = [i for i, frame in enumerate(frames) if frame.kind == "TurnCone"]
    if end.state == "loose":
        at = turns[-1] if turns else 0
        if frames[at].told == TURNS_FREELY:
            gesture = f"The cone still turned freely here: turn it on in, until {AT_TOUCH}."
            return Cue(at=at, check="TurnCone", missed="not believed", gesture=gesture)
        gesture = "Turned on in, with the axle held, the cone would still have turned freely here."
        return Cue(at=at, check="TurnCone", missed="not made", gesture=gesture)
    at = next((i for i in turns if frames[i].angle < end.good[0]), len(frames) - 1)
    free = frames[at].told == TURNS_FREELY
    gesture = "The cone was past first touch here: where the spanner first drags, stop."
    return Cue(at=at, check="TurnCone", missed="misled" if free else "not believed", gesture=gesture)


def _of_name(exercise: Exercise, secret: HiddenHub, frames: Frames) -> Cue | None:
    for question in exercise.questions:
        said, true = frames[-1].hub.answer(question), right_answer(secret, question)
        if said == true:
            continue
        if question == "fault":
            return _of_fault(said, true, frames)
        if question in ("name", "flex"):
            return _of_state(state_as_it_came(secret), said, frames)
    return None


def _of_state(true: str, said: str | None, frames: Frames) -> Cue | None:
    """Return the cue of a hub that was called something else than it is."""
    if true == "tight":
        return cue_tight(frames, 0, len(frames) - 1, left_so=True)
    if true == "loose":
        return cue_loose(frames, 0, len(frames) - 1, left_so=True)
    if said == "tight":
        stiff, at = find_twirls(frames, 0, len(frames) - 1)
        gesture = "Twirled here, clamped, it turned no harder than a right one: that is not too tight."
        missed: Missed = "misled" if stiff else "not believed"
        return Cue(at=at[-1], check="Twirl", missed=missed, gesture=gesture) if at else None
    free, at = find_rocks(frames, 0, len(frames) - 1)
    gesture = "Rocked here, clamped, it sprang from the start: what gave was the wheel, not the hub."
    missed = "misled" if free else "not believed"
    return Cue(at=at[-1], check="Rock", missed=missed, gesture=gesture) if at else None


def _of_fault(said: str | None, true: str, frames: Frames) -> Cue | None:
    """Return the cue of a fault that was called something else: of the feeling by which it is known."""
    sign = SIGNS.get(true) or SIGNS.get(said or "")
    if sign is None:
        return None
    does = sign.absent if true == SOUND else sign.there
    how = {True: "twirled a full turn, clamped,", None: "twirled a full turn", False: "rocked open all round"}
    made = [
        i
        for i, frame in enumerate(frames)
        if frame.kind == sign.kind and sign.clamped in (None, frame.hub.closed) and frame.told != LITTLE
    ]
    places = {(frames[i].hub.wheel, frames[i].hub.axle) for i in made}
    enough = len(places) >= ALL_ROUND if sign.kind == "Rock" else bool(made)
    gesture = f"{how[sign.clamped]} it {does}."
    gesture = f"{gesture[:1].upper()}{gesture[1:]}"
    if enough:
        return Cue(at=made[-1], check=sign.kind, missed="not believed", gesture=gesture)
    return Cue(at=made[-1] if made else 0, check=sign.kind, missed="not made", gesture=gesture)


def _of_set(exercise: Exercise, secret: HiddenHub, frames: Frames) -> Cue | None:
    end = frames[-1]
    if not is_sound(secret, end.hub):
        return _of_unsound(secret, frames)
    if end.hub.done == "refuse":
        return _refused(frames)
    stretches = list(moves(frames))
    for number, (first, last) in enumerate(stretches):
        stand, final = frames[last], last == len(frames) - 1
        touched = any(feels(frame) for frame in frames[first : last + 1])
        if stand.hub.lock is None or not (final or touched):
            continue
        further = final or _goes_on(secret, frames, stretches[number + 1 :], stand)
        if stand.state == "tight":
            found = cue_tight(frames, first, last, left_so=further)
        elif stand.state == "loose":
            found = cue_loose(frames, first, last, left_so=further)
        elif final:
            found = cue_unknown(exercise, frames, first, last)
        else:
            found = cue_moved_on(exercise, secret, frames, first, last)
        if found:
            return found
    return None


def _goes_on(secret: HiddenHub, frames: Frames, later: Iterable[tuple[int, int]], stand: Frame) -> bool:
    """Return whether the cone was next locked further the wrong way, by more than a careful hand's own error."""
    after = next((frames[last] for _, last in later if frames[last].hub.lock), None)
    if after is None:
        return False
    went = (after.once_clamped - stand.once_clamped) / secret.scenario.axle.lead_per_radian
    return (-went if stand.state == "tight" else went) > least_told(pen=True)


def _refused(frames: Frames) -> Cue | None:
    """Return the cue of a hub that could be set and was refused."""
    wiggled = [i for i, frame in enumerate(frames) if frame.kind == "Wiggle"]
    gesture = "Wiggled on its thread, the loose cone only shakes and does not rattle: it can be set."
    if not wiggled:
        return Cue(at=len(frames) - 1, check="Wiggle", missed="not made", gesture=gesture)
    missed: Missed = "misled" if frames[wiggled[-1]].told == RATTLES else "not believed"
    return Cue(at=wiggled[-1], check="Wiggle", missed=missed, gesture=gesture)


LOOKS = {
    "thread worn out": ("Wiggle", "Wiggled on its thread here, the loose cone rattles: no setting holds."),
    "proud axle": ("Look", "Looked at here, an axle end stands out past the dropout."),
    "ball missing": ("Look", "Counted here, one row is a ball short."),
}
"""The act that shows a fault which is not felt in rocking or twirling, and what it shows."""

SEEN = {"proud axle": "protrusion", "ball missing": "balls"}
"""What is looked at for it."""


def _of_unsound(secret: HiddenHub, frames: Frames) -> Cue | None:
    """Return the cue of a hub that no setting cures, and that was said to be done."""
    if frames[-1].hub.done != "done":
        return None
    if secret.fault not in LOOKS:
        return None if secret.fault == "none" else _of_fault(None, secret.fault, frames)
    check, gesture = LOOKS[secret.fault]
    sight = SEEN.get(secret.fault)
    made = [
        i
        for i, frame in enumerate(frames)
        if frame.kind == check and (sight is None or frame.done.endswith(sight))
    ]
    if made:
        return Cue(at=made[-1], check=check, missed="not believed", gesture=gesture)
    loose = next((i for i, frame in enumerate(frames) if frame.hub.lock is None), 0)
    return Cue(at=loose, check=check, missed="not made", gesture=gesture)


_WAYS: dict[str, Callable[[Exercise, HiddenHub, Frames], Cue | None]] = {
    "touch": _of_touch,
    "name": _of_name,
    "set": _of_set,
}
