"""The readings of a round of Check a hub: one object for each, and the list of them all."""

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
    return {
        reading.key: reading.likelihood(model, look, reading.end_play(opened, closed))
        for reading in readings_taken(look)
    }
