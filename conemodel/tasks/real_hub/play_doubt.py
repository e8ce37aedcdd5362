"""Plays that are asked for again: in another unit, or with the point elsewhere, they would fit.

Millimetres written down where hundredths belong are a hundred times too small; inches want 25.4 times as much.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from conemodel.base.errors import NotConverged
from conemodel.base.units import MM
from conemodel.parts.measured_hub import Mark, MeasuredHub
from conemodel.parts.real_hub import STATES, State
from conemodel.parts.scenario import Scenario
from conemodel.tasks.real_hub.fit import Fitted, fit_real_hub
from conemodel.tasks.real_hub.marked_readings import DIVISION, readings_at_marks

MOST_MEANT = MM.to_si(3.0)
"""Most play that a hub is likely to have been read with [m]. Judgement."""

TIMES = 100
"""Divisions in a millimetre [-]."""

INCH = 25.4
"""Millimetres in an inch [-], by its definition."""

OTHERWISE = (INCH, 0.1)
"""What else all plays of a mark may have to be taken times [-]: inches, and a point one place off."""

Plays = Mapping[State, tuple[float, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayDoubt:
    """Plays to be looked at again.

    Attributes:
        mark: number of the mark they were read at; read: the first of them as it was given [m].
        meant: by state, every play of it as it was probably meant [m]; times: by what it was taken [-].
    """

    mark: int
    read: float
    meant: Plays
    times: float = TIMES

    def mended(self, found: MeasuredHub) -> MeasuredHub:
        """Return what was read with these plays as they were probably meant."""
        meant = {name: self.meant[state] for name, state in STATES.items() if state in self.meant}
        return found.with_mark(self.mark, **meant)

    def confirmed(self, found: MeasuredHub) -> MeasuredHub:
        """Return what was read with these plays looked at again, and right."""
        return found.with_mark(self.mark, plays_checked=True)


def doubt_plays(scenario: Scenario, found: MeasuredHub, fitted: Fitted) -> PlayDoubt | None:
    """Return the first plays of a dial that are below what it shows, or fit if taken otherwise; None for none.

    Raises:
        NotConverged: no balance of forces was found.
    """
    if found.read_by == "ruler at the rim":
        return None
    unsure = [(number, mark) for number, mark in enumerate(found.marks) if not mark.plays_checked]
    if not fitted.all_fits:
        for number, mark in unsure:
            plays = [play for there in mark.plays.values() for play in there]
            doubt = _taken_hundredfold(number, mark, below=MOST_MEANT / TIMES)
            if doubt and max(plays) * TIMES <= MOST_MEANT and _would_fit(scenario, doubt.mended(found)):
                return doubt
        taken = (_all_taken(number, mark, times) for number, mark in unsure for times in OTHERWISE)
        for doubt in taken:
            if doubt and _would_fit(scenario, doubt.mended(found)):
                return doubt
    # a play between none and one division is none that a dial shows
    below_all = (_taken_hundredfold(number, mark, below=DIVISION) for number, mark in unsure)
    return next((doubt for doubt in below_all if doubt), None)


def _would_fit(scenario: Scenario, found: MeasuredHub) -> bool:
    """Tell whether all that was read fits; what no hub at all shows does not."""
    try:
        return fit_real_hub(scenario, readings_at_marks(found)).all_fits
    except NotConverged:
        return False


def _taken_hundredfold(number: int, mark: Mark, *, below: float) -> PlayDoubt | None:
    """Return a doubt in the plays of a mark that are less than `below` [m]; None where there are none."""
    meant: dict[State, tuple[float, ...]] = {}
    small: list[float] = []
    for state, plays in mark.plays.items():
        doubted = [play for play in plays if 0 < play < below * (1 - 1e-6)]
        if doubted:
            small += doubted
            meant[state] = tuple(play * TIMES if play in doubted else play for play in plays)
    return PlayDoubt(mark=number, read=small[0], meant=meant) if small else None


def _all_taken(number: int, mark: Mark, times: float) -> PlayDoubt | None:
    """Return a doubt in all plays of a mark, each taken so many times.

    None where that is more or less than a dial would have shown, or read in one state only: that is a slip of its own.
    """
    meant = {state: tuple(times * play for play in plays) for state, plays in mark.plays.items() if plays}
    every = [play for plays in mark.plays.values() for play in plays if play > 0]
    if len(meant) < 2 or not every:
        return None
    if times * max(every) > MOST_MEANT or times * min(every) < DIVISION / 2:
        return None
    return PlayDoubt(mark=number, read=every[0], meant=meant, times=times)
