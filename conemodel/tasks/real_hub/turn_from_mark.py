"""How a measured hub stands at its last mark, and the turn from there that most likely ends right."""

from dataclasses import dataclass

import numpy as np

from conemodel.base.units import MINUTE, Array
from conemodel.parts.unknowns.hands import SEEN_TURN
from conemodel.tasks.hand.estimate import Interval
from conemodel.tasks.real_hub.fit import Fitted
from conemodel.tasks.real_hub.lock_at import chances_at, find_count
from conemodel.tasks.real_hub.readings import Measured
from conemodel.tasks.real_hub.unknown_hub import CLOSING
from conemodel.tasks.setting.chances import Chances
from conemodel.tasks.setting.turn import FULL, WORTH_IT

SURE_ENOUGH = 0.05
"""Chance of right that more readings may still gain where a turn counts as sure enough [-]. Judgement: the rest is the
hand that makes the turn, which no reading betters."""

HALF_MINUTE = MINUTE.to_si(0.5)
"""Turns are said to half a minute of a clock face [rad]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnFromMark:
    """What to do with a cone that stands locked at its last mark.

    Attributes:
        mark: number of that mark; at: how far out it was counted there [rad].
        stands: how likely it is loose, right or tight, clamped as it stands.
        turn: from the mark, positive out [rad]; ends: what is known of the turn that would end in the middle [rad].
        right, tight: how likely it ends so [-]; reachable: of right, were nothing of the hub unknown [-].
    """

    mark: int
    at: float
    stands: Chances
    turn: float
    ends: Interval
    right: float
    tight: float
    reachable: float

    @property
    def count(self) -> float:
        """Where the cone stands after the turn, out from finger contact [rad]."""
        return self.at + self.turn

    @property
    def cautious(self) -> bool:
        """It is a step on the way only, to be read before the next."""
        return self.right < FULL

    @property
    def worth_making(self) -> bool:
        """The turn is better than leaving the cone where it is."""
        if abs(self.turn) < SEEN_TURN.unit.to_si(SEEN_TURN.usual):
            return False
        if self.stands.named == "right" and self.right <= self.stands.right + WORTH_IT:
            return False
        return self.right > self.stands.right + WORTH_IT or self.stands.tight > self.tight

    @property
    def sure(self) -> bool:
        """More readings would hardly make it righter."""
        return max(self.right, self.stands.right) >= self.reachable - SURE_ENOUGH


def turn_from_mark(fitted: Fitted) -> TurnFromMark | None:
    """Return the turn from the last mark; None where nothing was read locked, or readings clash.

    Raises:
        NotConverged: no balance of forces was found.
    """
    if not is_locked_read(fitted):
        return None
    last = max(_used(fitted), key=lambda each: each.mark or 0)
    mark, hub = last.mark or 0, fitted.hub
    window, errors = hub.window, hub.mark_errors
    stands = end_play_at_mark(fitted, mark) + last.count * hub.lead
    # undone, locked and closed again it drifts and is taken anew
    again = stands + fitted.shown.drifted[:, mark] + fitted.shown.closed[:, mark] * fitted.shown.clamp_give
    error = float(np.hypot.reduce([*errors, CLOSING * fitted.interval(lambda shown: shown.clamp_give).value]))
    aim, known = (
        find_count(each, fitted.weight, window, error=error, lead=hub.lead, grain=HALF_MINUTE)
        for each in (again, np.full(again.size, window.target))
    )
    loose, right, tight = (
        float(chance[0]) for chance in chances_at(stands, fitted.weight, window, error=0.0, moved=np.zeros(1))
    )
    return TurnFromMark(
        mark=mark,
        at=last.count,
        stands=Chances(loose=loose, right=right, tight=tight),
        turn=aim.count,
        ends=aim.ends,
        right=aim.right,
        tight=aim.tight,
        reachable=known.right,
    )


def is_locked_read(fitted: Fitted) -> bool:
    """Tell whether a play was read locked, or clamped, that fits; nothing does where readings clash."""
    return not fitted.clash and any(each.state != "nut loose" for each in _used(fitted))


def is_read_at(fitted: Fitted, mark: int) -> bool:
    """Tell whether a play was read at a mark, by its number, that fits."""
    return any(each.mark == mark for each in _used(fitted))


def _used(fitted: Fitted) -> list[Measured]:
    """Return the readings at marks that fit."""
    used = (each.reading for each in fitted.readings if not each.left_out)
    return [each for each in used if isinstance(each, Measured) and each.mark is not None]


def end_play_at_mark(fitted: Fitted, mark: int) -> Array:
    """Return the end play of hubs (n,) clamped as they were locked at a mark, but for its count [m]."""
    shown = fitted.shown
    taken = shown.drifted[:, mark] + shown.closed[:, mark] * shown.clamp_give
    return np.asarray(shown.end_play["clamped"] + shown.turned[:, mark] - taken)
