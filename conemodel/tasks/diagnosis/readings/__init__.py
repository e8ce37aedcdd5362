"""The readings of a round of Check a hub: one object for each, and the list of them all."""

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.readings import Round
from conemodel.tasks.diagnosis.model import HubModel
from conemodel.tasks.diagnosis.readings.play import play_at
from conemodel.tasks.diagnosis.readings.reading import Reading
from conemodel.tasks.diagnosis.readings.turning import STARTING_WEIGHT, TURNS_CLOSED, TURNS_OPEN

_ALL: tuple[Reading, ...] = (
    play_at("rim", "open"),
    play_at("rim", "closed"),
    play_at("axle_end", "open"),
    play_at("axle_end", "closed"),
    play_at("axle_along", "open"),
    play_at("axle_along", "closed"),
    TURNS_OPEN,
    TURNS_CLOSED,
    STARTING_WEIGHT,
)

READINGS: dict[str, Reading] = {reading.key: reading for reading in _ALL}
"""Every reading of a round by its field, in the order they are asked and listed."""


def readings_taken(look: Round) -> tuple[Reading, ...]:
    """Return the readings of a round that somebody took."""
    return tuple(reading for reading in READINGS.values() if reading.is_in(look))


def likelihoods(model: HubModel, look: Round, opened: Array, closed: Array) -> dict[str, Array]:
    """Return the likelihood of every reading of a round, by name; `opened` and `closed` are end plays [m]."""
    found = {}
    for reading in readings_taken(look):
        met = reading.end_play(opened, closed)
        if reading.pushed(look):
            found[reading.key] = reading.likelihood(model, look, met)
        else:  # worked out once, it holds for every push
            count = len(model.pushes)
            found[reading.key] = np.repeat(reading.likelihood(model.bare, look, met[::count]), count, axis=0)
    return found


def strangeness(
    reading: Reading, model: HubModel, look: Round, end_play: Array, chance: Array, likelihood: Array
) -> tuple[float, str]:
    """Return what `Reading.strangeness` does, worked out once for all pushes where no push bears on it."""
    if reading.pushed(look):
        return reading.strangeness(model, look, end_play, chance, likelihood)
    count = len(model.pushes)
    over = chance.reshape(-1, count, *chance.shape[1:]).sum(axis=1)
    return reading.strangeness(model.bare, look, end_play[::count], over, likelihood[::count])
