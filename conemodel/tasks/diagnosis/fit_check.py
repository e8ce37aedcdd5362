"""Fit check: whether the parts go together before anything is adjusted."""

from conemodel.parts.readings import Readings
from conemodel.parts.scenario import Scenario
from conemodel.tasks.diagnosis.fit import Fit
from conemodel.tasks.diagnosis.fit_of_axle import axle_length, hub_in_frame, thread, thread_slack
from conemodel.tasks.diagnosis.fit_of_balls import ball_sizes, packing
from conemodel.tasks.diagnosis.fit_of_ends import axle_ends, protrusions

_ALL = (packing, ball_sizes, axle_length, thread, thread_slack, axle_ends, protrusions, hub_in_frame)


def fit_check(readings: Readings, scenario: Scenario) -> tuple[Fit, ...]:
    """Return whether what was measured goes together, for the hub `scenario` it is computed with."""
    return tuple(fit for part in _ALL for fit in part(readings, scenario))
