"""What to do next at a hub that is being measured: which reading to take and why, or that the turn is sure enough."""

from dataclasses import dataclass
from math import ceil
from typing import Literal

import numpy as np

from conemodel.base.units import MINUTE
from conemodel.parts.measured_hub import PLACES, Mark, MeasuredHub, ReadBy
from conemodel.parts.real_hub import MOST_COUNT, STATES, State
from conemodel.parts.scenario import Scenario
from conemodel.solve.stages.terms import setting_terms
from conemodel.tasks.headline import Answer
from conemodel.tasks.real_hub.count_doubt import CountDoubt, doubt_count
from conemodel.tasks.real_hub.fit import Fitted, fit_real_hub
from conemodel.tasks.real_hub.marked_readings import readings_at_marks
from conemodel.tasks.real_hub.play_doubt import PlayDoubt, doubt_plays
from conemodel.tasks.real_hub.read_again import ReadAgain, WhyAgain, find_read_again, has_play, has_shown_play
from conemodel.tasks.real_hub.told import QUANTITIES
from conemodel.tasks.real_hub.turn_from_mark import (
    TurnFromMark,
    end_play_at_mark,
    is_locked_read,
    is_read_at,
    turn_from_mark,
)
from conemodel.tasks.setting.safety import dangers_of

READABLE: dict[ReadBy, float] = {
    "dial along the axle": 20e-6,
    "dial at the rim": 20e-6,
    "ruler at the rim": 60e-6,
}
"""Least end play that is well read [m]: two divisions of a gauge; by ruler some 0.6 mm at the rim. Judgement."""

SLACK_KNOWN = 10e-6
"""Half the range, four times in five, from which thread slack counts as known [m]: a division of a gauge."""

MARKS_FIRST = 2
"""Marks after which a turn is made even if more could be learnt: the turn is itself the next mark. Judgement."""

TIGHT_SHARE = 0.1
"""Share of hubs, as likely as the readings leave them, that may show no play at a new mark [-]."""

What = Literal[
    "make safe",
    "check the count",
    "check the plays",
    "read",
    "read again",
    "back off",
    "turn",
    "leave",
    "start over",
]
Why = (
    WhyAgain
    | Literal[
        "danger",
        "count",
        "plays",
        "contact",
        "slack",
        "clamp",
        "no play locked",
        "no play clamped",
        "not sure",
        "sure",
    ]
)


@dataclass(frozen=True, slots=True, kw_only=True)
class NextReading:
    """The next thing to do.

    Attributes:
        what: look at a count or at plays again, take a reading, take one again, back off to a new mark to read there,
            make the turn, or leave it.
        why: stable name of the reason.
        mark: number of the mark it is done at; count: how far out that stands [rad]; state: how the hub stands then.
        turn: from the mark before it to `count`, positive out [rad].
    """

    what: What
    why: Why
    mark: int
    count: float
    state: State = "nut loose"
    turn: float = 0.0

    @property
    def no_play(self) -> bool:
        """Nothing tells whether the hub is right or too tight as it stands."""
        return self.why in ("no play locked", "no play clamped")


@dataclass(frozen=True, slots=True, kw_only=True)
class Measuring:
    """A hub that is being measured: what was read, what that tells, the turn, and what to do next.

    While a count or plays are in doubt there is no turn, and what the readings tell rests on these. Nor is there one
    while a reading is to be taken `again` at the mark where the cone stands, or once the cone has left the mark that
    was read: it would be made twice. Where there are `dangers` in riding the hub as it is described, most serious
    first, nothing of the adjustment is told: no setting of the cone cures them.
    """

    found: MeasuredHub
    fitted: Fitted
    next: NextReading
    dangers: tuple[Answer, ...] = ()
    doubt: CountDoubt | PlayDoubt | None = None
    again: ReadAgain | None = None
    turn: TurnFromMark | None = None

    @property
    def turned_to(self) -> float | None:
        """Where the cone was turned to since it was read, out from finger contact [rad]; None where it was not.

        What does not fit the others counts as not read.
        """
        last = len(self.found.marks) - 1
        return None if last < 1 or is_read_at(self.fitted, last) else self.found.marks[last].count

    @property
    def tells_slack(self) -> bool:
        """Slack and turn rest on something that was read locked."""
        return self.doubt is None and is_locked_read(self.fitted)


def measure_hub(scenario: Scenario, found: MeasuredHub) -> Measuring:
    """Return what was read of a hub that is like a scenario's tells, and what to do next.

    Raises:
        NotConverged: no balance of forces, or no likeliest hub, was found.
    """
    fitted = fit_real_hub(scenario, readings_at_marks(found))
    if dangers := dangers_of(fitted.hub.scenario, setting_terms(fitted.hub.scenario)):
        step = NextReading(what="make safe", why="danger", mark=max(len(found.marks) - 1, 0), count=0.0)
        return Measuring(found=found, fitted=fitted, dangers=dangers, next=step)
    if doubt := doubt_plays(scenario, found, fitted) or doubt_count(scenario, found, fitted):
        return Measuring(found=found, fitted=fitted, doubt=doubt, next=_check(found, doubt))
    if again := find_read_again(found, fitted):
        return Measuring(found=found, fitted=fitted, again=again, next=_read_again(found, again))
    turn = turn_from_mark(fitted) if is_read_at(fitted, len(found.marks) - 1) else None
    step = _next(found, fitted, turn)
    # without play a gauge shows right and too tight alike: what is left is what was assumed
    return Measuring(found=found, fitted=fitted, turn=None if step.no_play else turn, next=step)


def is_slack_known(fitted: Fitted) -> bool:
    """Tell whether thread slack is known to `SLACK_KNOWN` either way, four times in five."""
    ends = fitted.interval(QUANTITIES["slack"].of)
    return (ends.high - ends.low) / 2 <= SLACK_KNOWN


def _check(found: MeasuredHub, doubt: CountDoubt | PlayDoubt) -> NextReading:
    """Return what to look at again."""
    count = found.marks[doubt.mark].count or 0.0
    if isinstance(doubt, PlayDoubt):
        return NextReading(what="check the plays", why="plays", mark=doubt.mark, count=count)
    return NextReading(what="check the count", why="count", mark=doubt.mark, count=count)


def _next(found: MeasuredHub, fitted: Fitted, turn: TurnFromMark | None) -> NextReading:
    """Return what to do next."""
    if not found.marks or not found.marks[-1].is_read:
        return _at_new_mark(found, fitted, first=not fitted.readings)
    mark, number = found.marks[-1], len(found.marks) - 1
    count = mark.count or 0.0
    state = _last_state(mark)
    sure = turn is not None and turn.sure
    if state != "nut loose" and not has_play(found, mark, (state,)) and not (sure and has_shown_play(found)):
        why: Why = "no play locked" if state == "locked" else "no play clamped"
        return _back_off(found, fitted, why)
    if state != "clamped":
        following: State = "locked" if state == "nut loose" else "clamped"
        return NextReading(
            what="read",
            why="slack" if following == "locked" else "clamp",
            mark=number,
            count=count,
            state=following,
        )
    if turn is None:
        return _back_off(found, fitted, "not sure")
    if not sure and len(found.marks) < MARKS_FIRST:
        return _back_off(found, fitted, "not sure")
    if not turn.worth_making:
        return NextReading(what="leave", why="sure", mark=number, count=count, state="clamped")
    why = "sure" if sure else "not sure"
    return NextReading(
        what="turn", why=why, mark=number + 1, count=turn.count, state="clamped", turn=turn.turn
    )


def _read_again(found: MeasuredHub, again: ReadAgain) -> NextReading:
    number, mark = len(found.marks) - 1, found.marks[-1]
    return NextReading(
        what="read again", why=again.why, mark=number, count=mark.count or 0.0, state=again.state
    )


def _last_state(mark: Mark) -> State:
    """Return the furthest state in the order of the work in which something was read."""
    return [state for state in STATES.values() if mark.plays[state]][-1]


def _at_new_mark(found: MeasuredHub, fitted: Fitted, *, first: bool) -> NextReading:
    """Return the first reading at a mark at which nothing was read yet."""
    number = max(len(found.marks) - 1, 0)
    count = found.marks[-1].count if found.marks else None
    state: State = "nut loose" if first or not is_slack_known(fitted) else "locked"
    if count is None:
        count = count_with_play(fitted, READABLE[found.read_by])
    return NextReading(
        what="read", why="contact" if state == "nut loose" else "slack", mark=number, count=count, state=state
    )


def _back_off(found: MeasuredHub, fitted: Fitted, why: Why) -> NextReading:
    """Return a new mark at which most hubs that fit the readings have play to read once clamped."""
    last = found.marks[-1].count or 0.0
    count = count_with_play(fitted, READABLE[found.read_by])
    if why.startswith("no play") or count == last:
        count = max(count, last + MINUTE.to_si(1))
    number = len(found.marks)
    full = number >= len(PLACES) or count >= MINUTE.to_si(MOST_COUNT)
    return NextReading(
        what="start over" if full else "back off",
        why=why,
        mark=number,
        count=count,
        state="nut loose" if not is_slack_known(fitted) else "locked",
        turn=count - last,
    )


def count_with_play(fitted: Fitted, readable: float) -> float:
    """Return the least whole minute at which all but `TIGHT_SHARE` of hubs have `readable` play [m] clamped [rad]."""
    marks = fitted.hub.marks
    end_play = end_play_at_mark(fitted, marks - 1) if marks else fitted.shown.end_play["clamped"]
    order = np.argsort(end_play)
    below = np.cumsum(fitted.weight[order])
    tight = float(end_play[order][np.searchsorted(below, TIGHT_SHARE)])
    return MINUTE.to_si(ceil(MINUTE.from_si((readable - tight) / fitted.hub.lead)))
