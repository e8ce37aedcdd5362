"""What was read at pen marks of the cone, as readings for the fit: play under a light and under a hard push."""

from collections.abc import Iterator
from math import sqrt

import numpy as np

from conemodel.base.units import MM, UM
from conemodel.parts.distributions import standard_error
from conemodel.parts.measured_hub import Mark, MeasuredHub
from conemodel.parts.priors import Beliefs
from conemodel.parts.unknowns.hands import DIAL_ERROR
from conemodel.tasks.real_hub.readings import Measured

DIVISION = MM.to_si(0.01)
"""What a dial is read to, and written down in: half of one either way [m]."""


def readings_at_marks(found: MeasuredHub) -> tuple[Measured, ...]:
    """Return the readings in a file, mark by mark in the order of the work."""
    return tuple(
        reading for number, mark in enumerate(found.marks) for reading in _at_mark(found, number, mark)
    )


def _at_mark(found: MeasuredHub, number: int, mark: Mark) -> Iterator[Measured]:
    """Yield what was read at one mark.

    What a gauge errs by is the same under both pushes, and plays that are nearly alike are written down alike; only
    between them does the division count once more.
    """
    along, by_ruler = found.read_by == "dial along the axle", found.read_by == "ruler at the rim"
    written = DIVISION / 2 / sqrt(3)
    gauge = 0.0 if by_ruler else float(np.hypot(UM.to_si(standard_error(DIAL_ERROR, UM)), written))
    for state, plays in mark.plays.items():
        for play, push in zip(plays, found.pushes, strict=False):
            yield Measured(
                place="axle" if along else "rim",
                state=state,
                count=mark.count or 0.0,
                play=play,
                error=Beliefs().ruler_uncertainty if by_ruler else written,
                push=None if by_ruler and len(plays) == 1 else push,
                mark=number,
                off=gauge,
            )
