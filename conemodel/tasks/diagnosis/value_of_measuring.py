"""What to measure next: the reading expected to tell most, in bits, before it is taken."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from conemodel.base.units import Array
from conemodel.parts.readings import Readings
from conemodel.tasks.diagnosis.causes import CAUSES
from conemodel.tasks.diagnosis.looks import ELSEWHERE, FOUND, MARKS
from conemodel.tasks.diagnosis.posterior import Posterior
from conemodel.tasks.diagnosis.readings import READINGS
from conemodel.tasks.diagnosis.readings.play import HARDER, PlayReading
from conemodel.tasks.setting.good_range import Window

Indices = npt.NDArray[np.intp]

SAMPLES = 1200
"""Places of the posterior looked at."""

ZONES = 4
"""Parts the good range is told apart into; as many lie on either side of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NextStep:
    """A measurement not taken yet.

    Attributes:
        key: stable name, a field of the readings where there is one; label: what to do.
        bits: what it is expected to tell about play and cause; safety_bits: about whether the wheel is held.
        why: the reason in a sentence; worth: bits, those about safety counting more.
    """

    key: str
    label: str
    bits: float
    safety_bits: float
    why: str
    worth: float


def next_steps(posterior: Posterior, readings: Readings, window: Window) -> tuple[NextStep, ...]:
    """Return what has not been measured yet, most telling first, what bears on safety counting more."""
    flat = posterior.chance.ravel()
    picked = _pick_places(flat)
    case, _, _ = np.unravel_index(picked, posterior.chance.shape)
    causes = [one.cause for one in posterior.model.cases]
    names = sorted(set(causes))
    cause = np.array([names.index(name) for name in causes])[case]
    zone = _zones(np.broadcast_to(posterior.closed, posterior.chance.shape).ravel()[picked], window)
    states = cause * 100 + zone
    held = np.array([name in CAUSES and CAUSES[name].unsafe for name in causes])[case]
    weight = posterior.model.beliefs.safety_weight
    found = []
    for key, label, chances, why in _candidates(posterior, readings, picked, case):
        bits, safety = information(chances, states), information(chances, held)
        found.append(
            NextStep(
                key=key,
                label=label,
                bits=bits,
                safety_bits=safety,
                why=why,
                worth=bits + (weight - 1) * safety,
            )
        )
    return tuple(sorted(found, key=lambda step: -step.worth))


def looks_first(steps: Sequence[NextStep]) -> tuple[NextStep, ...]:
    """Return the steps of a hub that is to be stripped: what is then looked at, then what bears on safety."""
    looks = [step for step in steps if step.key in MARKS or step.key == "balls"]
    return (*looks, *(step for step in steps if step.key == "protrusion"))


def _pick_places(flat: Array) -> Indices:
    """Return the places at equal steps of the cumulative chance: a systematic sample, not a random one."""
    total = np.cumsum(flat)
    marks = (np.arange(SAMPLES) + 0.5) / SAMPLES * total[-1]
    return np.asarray(np.searchsorted(total, marks), dtype=np.intp)


def _zones(closed: Array, window: Window) -> Indices:
    """Return which part of the good range, or beyond it, each end play lies in."""
    place = np.floor((closed - window.tight_edge) / window.width * ZONES)
    return np.asarray(np.clip(place, -ZONES, 2 * ZONES) + ZONES, dtype=np.intp)


def information(chances: Array, states: Indices) -> float:
    """Return what an outcome is expected to tell about a state [bits].

    `chances` (k, o): chance of each outcome at k equally likely places; `states` (k,): their states.
    """
    _, index = np.unique(states, return_inverse=True)
    joint = np.zeros((int(index.max()) + 1, chances.shape[1]))
    np.add.at(joint, index, chances / len(states))
    return max(_entropy(joint.sum(axis=0)) + _entropy(joint.sum(axis=1)) - _entropy(joint), 0.0)


def _entropy(chance: Array) -> float:
    held = chance[chance > 0]
    return float(-(held * np.log2(held)).sum())


Candidate = tuple[str, str, Array, str]


def _candidates(
    posterior: Posterior, readings: Readings, picked: Indices, case: Indices
) -> Iterator[Candidate]:
    """Yield what may still be measured: key, instruction, chance of each outcome at each place, reason."""

    def pick(values: Array) -> Array:
        return _at(values, posterior, picked)

    for reading in READINGS.values():
        if reading.tells_more(readings.rounds[-1]):
            end_play = reading.end_play(posterior.opened, posterior.closed)
            chances = reading.outcomes(posterior.model, end_play, pick)
            yield reading.key, reading.instruction, chances, reading.why
        elif isinstance(reading, PlayReading) and reading.blurred(readings.rounds[-1]):
            end_play = reading.end_play(posterior.opened, posterior.closed)
            yield (
                f"{reading.key}.play_hard",
                f"take the {reading.label}, twice, under two pushes that you know, one some {HARDER:g} times the other",
                reading.harder_outcomes(posterior.model, readings.rounds[-1], end_play, pick),
                "it tells what the wheel gave under the push from what is play",
            )
    yield from _looks(posterior, readings, case)


def _looks(posterior: Posterior, readings: Readings, case: Indices) -> Iterator[Candidate]:
    """Yield the looks not taken yet, each a yes or a no."""
    causes = np.array([one.cause for one in posterior.model.cases])[case]
    slip = posterior.model.beliefs.slip
    may_be_proud = any(one.cause == "proud" for one in posterior.model.cases)
    sizes = (readings.protrusion_left, readings.protrusion_right, readings.dropout_thickness)
    if may_be_proud and any(size.size is None for size in sizes):
        yield (
            "protrusion",
            "measure both protrusions and the dropouts' thickness",
            _yes_no(causes == "proud", 0.99, 0.01),
            "play that goes on closing does not clear a proud axle: only this does",
        )
    for name, look in MARKS.items():
        if getattr(readings.checks, name) is None:
            yield (
                name,
                look.instruction,
                _yes_no(causes == look.shows, FOUND, slip),
                "it shows a fault no adjustment cures",
            )
    if any(getattr(readings.checks, name) is None for name in ELSEWHERE):
        places = ", ".join(ELSEWHERE.values())
        yield (
            "elsewhere", f"look for play in {places}", _yes_no(causes == "elsewhere", FOUND, 4 * slip),
            "play that is not the hub's is not taken out at the cone",
        )  # fmt: skip
    if readings.balls_left.count is None or readings.balls_right.count is None:
        yield (
            "balls", "when it is stripped: count the balls twice and measure them",
            _yes_no(causes == "wrong_balls", 0.75, slip), "what is in there need not be what belongs there",
        )  # fmt: skip


def _at(values: Array, posterior: Posterior, picked: Indices) -> Array:
    """Return values (c, n, m), or what spreads to it, at the picked places (k,)."""
    shape = posterior.chance.shape
    return np.asarray(np.broadcast_to(values, shape)[np.unravel_index(picked, shape)])


def _yes_no(there: npt.NDArray[np.bool_], found: float, slip: float) -> Array:
    yes = np.where(there, found, slip)
    return np.stack((yes, 1 - yes), axis=-1)
