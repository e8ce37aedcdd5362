"""Hubs drawn about the likeliest, held against a walk that knows no curvature: Metropolis (1953), from memory."""

from collections.abc import Callable

import numpy as np
import pytest

from conemodel.base.units import MM, Array
from conemodel.tasks.real_hub.fit import weighted_interval
from conemodel.tasks.real_hub.likeliest import find_likeliest, residuals
from conemodel.tasks.real_hub.shown import Shown
from tests.tasks.real_hub.test_measured_hub import LATER, ONCE, measure

WALKERS, STEPS, SETTLED, EVERY = 300, 240, 120, 20
OF: dict[str, Callable[[Shown], Array]] = {
    "slack": lambda shown: shown.slack,
    "clamp": lambda shown: shown.clamp_give,
    "contact": lambda shown: shown.end_play["nut loose"],
}


@pytest.mark.parametrize("marks", [(ONCE,), (ONCE, LATER)], ids=["one", "two"])
def test_they_lie_where_a_long_walk_goes(marks):
    fitted = measure(*marks).fitted
    hub, readings = fitted.hub, [each.reading for each in fitted.readings]
    best = find_likeliest(hub, readings)
    root = np.linalg.cholesky(np.linalg.inv(best.slope.T @ best.slope))

    def unlikely(z: Array) -> Array:
        left = residuals(readings, hub, hub.show(z), z, best.spread)
        return np.asarray((left**2).sum(axis=1) / 2)

    dice = np.random.default_rng(1)
    z = best.z + 0.5 * dice.standard_normal((WALKERS, hub.size)) @ root.T
    here, kept = unlikely(z), []
    for step in range(STEPS):
        to = z + 0.45 * dice.standard_normal(z.shape) @ root.T
        there = unlikely(to)
        goes = np.log(dice.random(WALKERS)) < here - there
        z, here = np.where(goes[:, None], to, z), np.where(goes, there, here)
        if step >= SETTLED and step % EVERY == 0:
            kept.append(hub.show(z))
    for name, of in OF.items():
        walked = np.concatenate([of(shown) for shown in kept])
        expected = weighted_interval(walked, np.full(walked.size, 1 / walked.size))
        found = fitted.interval(of)
        for end in ("low", "value", "high"):
            # 1,800 places of 300 walkers err by a twentieth of a spread of 0.007 mm, and as much again with the drawn
            assert getattr(found, end) == pytest.approx(getattr(expected, end), abs=MM.to_si(0.0015)), name
