"""Readings at the mark where the cone stands that are taken again before any turn is told.

While one of them is left out or clashes, what is known of the cone rests on marks it has left: a turn told from those
would be made twice. Of two closings that differ nobody knows which is the one it rides with.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot
from typing import Literal

from conemodel.base.units import MINUTE, UM
from conemodel.parts.distributions import standard_error
from conemodel.parts.measured_hub import Mark, MeasuredHub, ReadBy
from conemodel.parts.priors import Beliefs
from conemodel.parts.real_hub import State
from conemodel.parts.unknowns.hands import DIAL_ERROR
from conemodel.tasks.real_hub.contradictions import MISFIT
from conemodel.tasks.real_hub.fit import Fitted
from conemodel.tasks.real_hub.readings import Measured
from conemodel.tasks.real_hub.unknown_hub import CLOSING

NO_PLAY: dict[ReadBy, float] = {
    "dial along the axle": 10e-6,
    "dial at the rim": 0.1e-3,
    "ruler at the rim": 0.3e-3,
}
"""A play read below this may be none at all [m]: a division, what is just felt at the rim, what a ruler errs by."""

WhyAgain = Literal["slipped", "clashes", "not closed", "closings differ"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadAgain:
    """A reading to be taken again at the mark where the cone stands.

    Attributes:
        why: it does not fit the others; it clashes with some, and nobody can tell which is wrong; closing took nothing;
            it took otherwise than at other marks.
        state: in which it was read; plays: what was read [m].
        apart: of closings, by how much at least they differ [m].
    """

    why: WhyAgain
    state: State
    plays: tuple[float, ...]
    apart: float = 0.0


def find_read_again(found: MeasuredHub, fitted: Fitted) -> ReadAgain | None:
    """Return the reading at the last mark that is to be taken again; None where all fit.

    What was read at marks before cannot be read again: the cone has left them.
    """
    if not found.marks:
        return None
    mark = found.marks[-1]
    doubted = list(_doubted(fitted, len(found.marks) - 1))
    if doubted and _is_not_closed(found.read_by, mark):
        return ReadAgain(why="not closed", state="clamped", plays=mark.clamped)
    if apart := _closings_apart(found):
        return ReadAgain(why="closings differ", state="clamped", plays=mark.clamped, apart=apart)
    for state in doubted:
        why: WhyAgain = "clashes" if fitted.clash else "slipped"
        return ReadAgain(why=why, state=state, plays=mark.plays[state])
    return None


def has_play(found: MeasuredHub, mark: Mark, states: tuple[State, ...]) -> bool:
    """Tell whether more was read at a mark in some states than may be none at all."""
    least = NO_PLAY[found.read_by] * (1 + 1e-6)
    return any(play > least for state in states for play in mark.plays[state])


def has_shown_play(found: MeasuredHub) -> bool:
    """Tell whether play was read with the locknut tight at any mark: from there the others are counted."""
    return any(has_play(found, mark, ("locked", "clamped")) for mark in found.marks)


def _doubted(fitted: Fitted, mark: int) -> Iterator[State]:
    """Yield the states in which something was read at a mark that is left out or clashes, in the order of the work."""
    for place, checked in enumerate(fitted.readings):
        reading = checked.reading
        if (
            (checked.left_out or place in fitted.clash)
            and isinstance(reading, Measured)
            and reading.mark == mark
        ):
            yield reading.state


def _is_not_closed(read_by: ReadBy, mark: Mark) -> bool:
    """Tell whether closing left all the play there was once locked."""
    least = NO_PLAY[read_by]
    return bool(mark.locked and mark.clamped) and _mean(mark.locked) > least > _taken(mark)


def _closings_apart(found: MeasuredHub) -> float:
    """Return by how much the last closing differs at least from those it agrees with in none [m]; 0 where all is well.

    At the rim they are compared at one count only: play there is not in proportion to end play.
    """
    *before, last = found.marks
    if not (last.locked and last.clamped):
        return 0.0
    at_axle, near = found.read_by == "dial along the axle", MINUTE.to_si(0.5)
    alike = [
        mark
        for mark in before
        if mark.locked and mark.clamped and (at_axle or abs((mark.count or 0.0) - (last.count or 0.0)) < near)
    ]
    apart = [_apart(found.read_by, mark, last) for mark in alike]
    return min(apart, default=0.0)


def _apart(read_by: ReadBy, one: Mark, other: Mark) -> float:
    """Return by how much two closings differ [m], 0 where a gauge and a hand may do so.

    Where no play was left a closing may have taken any amount more than was seen.
    """
    less, more = sorted((one, other), key=_taken)
    apart = _taken(more) - _taken(less)
    gauge = (
        Beliefs().ruler_uncertainty
        if read_by == "ruler at the rim"
        else UM.to_si(standard_error(DIAL_ERROR, UM))
    )
    error = hypot(2 * gauge, CLOSING * _taken(less), CLOSING * _taken(more))
    return apart if _mean(less.clamped) > NO_PLAY[read_by] and apart > MISFIT * error else 0.0


def _taken(mark: Mark) -> float:
    """Return what closing took of the play at a mark, as it was read [m]."""
    return _mean(mark.locked) - _mean(mark.clamped)


def _mean(plays: tuple[float, ...]) -> float:
    return sum(plays) / len(plays)
