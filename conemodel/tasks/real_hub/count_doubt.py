"""Counts that are asked for again before a turn or a worn thread is told: another would fit what was read."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from conemodel.base.units import MINUTE
from conemodel.parts.measured_hub import MeasuredHub
from conemodel.parts.real_hub import MOST_COUNT
from conemodel.parts.scenario import Scenario
from conemodel.tasks.real_hub.fit import Fitted, fit_real_hub
from conemodel.tasks.real_hub.marked_readings import readings_at_marks
from conemodel.tasks.real_hub.readings import Measured
from conemodel.tasks.real_hub.told import QUANTITIES

COUNTS = MINUTE.to_si(1) * np.arange(MOST_COUNT + 1)
"""Every count that may be meant, in whole minutes [rad]: none lies further in than finger contact, where balls stop."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CountDoubt:
    """A count to be looked at again.

    Attributes:
        mark: number of the mark; count: as it was given [rad].
        fits: the count with which everything read would fit [rad]; None where there is none.
    """

    mark: int
    count: float
    fits: float | None

    def mended(self, found: MeasuredHub) -> MeasuredHub:
        """Return what was read with the count that would fit."""
        count = self.count if self.fits is None else self.fits
        return found.with_mark(self.mark, count=count, count_checked=True)

    def confirmed(self, found: MeasuredHub) -> MeasuredHub:
        """Return what was read with the count looked at again, and right."""
        return found.with_mark(self.mark, count=self.count, count_checked=True)


def doubt_count(scenario: Scenario, found: MeasuredHub, fitted: Fitted) -> CountDoubt | None:
    """Return the first count that is to be looked at again; None where none is, or all were confirmed.

    Raises:
        NotConverged: no balance of forces, or no likeliest hub, was found.
    """
    impossible = _beyond_any_thread(scenario, fitted)
    doubt: CountDoubt | None = None
    for number, mark in enumerate(found.marks):
        if mark.count_checked or mark.count is None or not mark.is_read:
            continue
        for count in _other_counts(scenario, fitted, number, impossible=impossible):
            marks = (*found.marks[:number], mark.replace(count=count), *found.marks[number + 1 :])
            other = fit_real_hub(scenario, readings_at_marks(found.at_marks(marks)))
            if other.all_fits and not _beyond_any_thread(scenario, other):
                return CountDoubt(mark=number, count=mark.count, fits=count)
        if impossible and doubt is None:
            doubt = CountDoubt(mark=number, count=mark.count, fits=None)
    return doubt


def _beyond_any_thread(scenario: Scenario, fitted: Fitted) -> bool:
    """Tell whether the slack would be more than any thread has that still holds.

    At the pitch diameter a ridge is half a pitch wide: worn off by as much, nothing of it is left there. [ISO68-1]
    """
    return fitted.interval(QUANTITIES["slack"].of).low > scenario.axle.thread_pitch / 2


def _other_counts(scenario: Scenario, fitted: Fitted, mark: int, *, impossible: bool) -> Iterator[float]:
    """Yield the count that play with the nut loose tells where it does not fit, else what the slack tells [rad].

    Play with the nut loose hangs on nothing but the count and finger contact.
    """
    loose = [
        (place, each.reading)
        for place, each in enumerate(fitted.readings)
        if isinstance(each.reading, Measured)
        and (each.reading.mark, each.reading.state) == (mark, "nut loose")
    ]
    if any(fitted.readings[place].left_out or place in fitted.clash for place, _ in loose):
        usual = fitted.hub.show(np.zeros((1, fitted.hub.draws.shape[1])))
        reading = loose[0][1]
        misses = [abs(float(replace(reading, count=count).miss(fitted.hub, usual)[0])) for count in COUNTS]
        yield float(COUNTS[np.argmin(misses)])
    elif impossible and not loose:
        given = next(each.reading.count for each in fitted.readings if _is_at(each.reading, mark))
        slack = fitted.interval(QUANTITIES["slack"].of).value
        over = (slack - scenario.axle.backlash) / fitted.hub.lead
        yield float(COUNTS[np.argmin(np.abs(COUNTS - (given - over)))])


def _is_at(reading: object, mark: int) -> bool:
    return isinstance(reading, Measured) and reading.mark == mark
