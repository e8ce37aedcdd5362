"""What a hub told a hand, or would have told, between two moves of its cone: rocked and twirled, clamped."""

from dataclasses import dataclass
from typing import Literal

from conemodel.parts.exercise import Exercise
from conemodel.tasks.practice.actions.feel import LITTLE
from conemodel.tasks.practice.actions.obstacles import IN_FRAME
from conemodel.tasks.practice.criteria import DRIFT_HELD
from conemodel.tasks.practice.outcome import state_as_it_came
from conemodel.tasks.practice.session import HiddenHub
from conemodel.tasks.practice.track import Frame

Missed = Literal["not made", "not believed", "misled"]
"""How a check was missed; misled: it was made, and told otherwise than it would have told most times."""

Frames = tuple[Frame, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cue:
    """What would have told, and when.

    Attributes:
        at: number of the frame of the path after which it was missed.
        check: name of the action that would have told; missed: how it was missed.
        gesture: what the hand would have done and felt there, one sentence.
    """

    at: int
    check: str
    missed: Missed
    gesture: str


def find_twirls(frames: Frames, first: int, last: int) -> tuple[bool, list[int]]:
    """Return whether twirling it a full turn, clamped, last found it stiff, and the frames in which that was done."""
    at = [
        i
        for i in range(first, last + 1)
        if frames[i].kind == "Twirl" and frames[i].hub.closed and frames[i].told != LITTLE
    ]
    return bool(at) and "stiff" in (frames[at[-1]].hub.felt.twirled_clamped or ()), at


def find_rocks(frames: Frames, first: int, last: int) -> tuple[bool, list[int]]:
    """Return whether rocking it clamped last found it free, and the frames in which that was done."""
    at = [i for i in range(first, last + 1) if frames[i].kind == "Rock" and frames[i].hub.closed]
    return bool(at) and frames[at[-1]].hub.felt.rocked_clamped != "none", at


def cue_tight(frames: Frames, first: int, last: int, *, left_so: bool) -> Cue | None:
    """Return the cue of a hub that stood too tight between two moves; `left_so`: nothing was done about it after."""
    words: dict[Missed, str] = {
        "not made": f"{_on_spacers(frames[last])}, clamped and twirled, it would have dragged here.",
        "not believed": "It dragged here as you twirled it, clamped: that is too tight.",
        "misled": "Twirled several times here, clamped, it would have dragged: once can mislead.",
    }
    return _cue("Twirl", find_twirls(frames, first, last), words, first=first, left_so=left_so)


def cue_loose(frames: Frames, first: int, last: int, *, left_so: bool) -> Cue | None:
    """Return the cue of a hub that stood too loose between two moves."""
    words: dict[Missed, str] = {
        "not made": "Rocked at the rim, clamped, it would have moved freely here.",
        "not believed": "It moved freely here as you rocked it, clamped: that is play.",
        "misled": "Rocked several times at the rim here, clamped, it would have moved freely: once can mislead.",
    }
    return _cue("Rock", find_rocks(frames, first, last), words, first=first, left_so=left_so)


def _cue(
    check: str, found: tuple[bool, list[int]], words: dict[Missed, str], *, first: int, left_so: bool
) -> Cue | None:
    """Return the cue of a check that would have told: where it was not made, or told and nothing was done."""
    told, at = found
    if at and not left_so:
        return None
    missed: Missed = "not made" if not at else "not believed" if told else "misled"
    return Cue(at=at[-1] if at else first, check=check, missed=missed, gesture=words[missed])


def _on_spacers(frame: Frame) -> str:
    return "Out of the frame, on spacers" if frame.hub.seat in IN_FRAME else "On spacers"


def cue_unknown(exercise: Exercise, frames: Frames, first: int, last: int) -> Cue | None:
    """Return the cue of a hub that ended right, where a check without which nobody could know was left out."""
    felt = frames[last].hub.felt
    if felt.twirled_clamped is None:
        out = _on_spacers(frames[last])
        gesture = f"{out}, clamped and twirled, it would have turned lightly here: only that tells right from tight."
        return Cue(at=first, check="Twirl", missed="not made", gesture=gesture)
    if felt.rocked_clamped is None:
        gesture = "Rocked here, clamped, it would have sprung from the start: no play left."
        closed = [i for i in range(first, last + 1) if frames[i].kind == "CloseClamp"]
        return Cue(at=closed[-1] if closed else first, check="Rock", missed="not made", gesture=gesture)
    if "play felt open" in exercise.must and felt.rocked_open is None:
        gesture = "Rocked open here, it would have moved freely: that is what the clamp takes up."
        return Cue(at=first, check="Rock", missed="not made", gesture=gesture)
    return None


def cue_moved_on(exercise: Exercise, secret: HiddenHub, frames: Frames, first: int, last: int) -> Cue | None:
    """Return the cue of a hub that stood right, and was moved on to where it is not, or that came right."""
    lock = frames[last].hub.lock
    if lock is not None and "drift held" in exercise.must and lock.turned_in >= DRIFT_HELD:
        return None
    came_right = first == 0 and state_as_it_came(secret) == "right"
    if frames[-1].state == "right" and not came_right:
        return None
    (stiff, twirled), (free, rocked) = find_twirls(frames, first, last), find_rocks(frames, first, last)
    if not twirled or not rocked:
        check = "Rock" if twirled else "Twirl"
        gesture = "Rocked and twirled here, clamped, it would have sprung and turned lightly: it was right."
        return Cue(at=first, check=check, missed="not made", gesture=gesture)
    missed: Missed = "misled" if stiff or free else "not believed"
    gesture = "Clamped, it sprang from the start and turned no harder than it should here: it was right."
    check, at = ("Rock", rocked) if free else ("Twirl", twirled)
    return Cue(at=at[-1], check=check, missed=missed, gesture=gesture)
