"""Play at one place: measured from stop to stop, or as a word of the hand."""

from dataclasses import dataclass
from typing import Literal, get_args

import numpy as np
from scipy.special import ndtr

from conemodel.base.units import MM, Array
from conemodel.parts.felt_play import PLAY_WORDS
from conemodel.parts.readings import Instrument, Play, Round
from conemodel.tasks.diagnosis.likelihood import (
    hand_chances,
    play_likelihood,
    play_spread,
    uncertainty_of,
)
from conemodel.tasks.diagnosis.model import HubModel
from conemodel.tasks.diagnosis.readings.reading import (
    BINS,
    NumberField,
    Pick,
    Reading,
    WordField,
    between,
    chance_of_word,
)

SETTLE = {
    "rim": "Take it again, and the play at the axle end as well: what the rim has and the axle has not is not the "
    "bearing's",
    "axle_end": "Take it again, and the play at the rim as well",
}
"""What to do where a play contradicts the other readings, by place."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayReading(Reading):
    """Play at the rim or at the axle end."""

    place: Literal["rim", "axle_end"]

    def is_in(self, look: Round) -> bool:
        """Return whether somebody looked, by gauge or by hand."""
        return self._of(look).given

    def tells_more(self, look: Round) -> bool:
        """Return whether it was not measured: a gauge tells more than a word."""
        return self._of(look).play is None

    def describe(self, look: Round) -> str:
        """Return the word, or the size and the instrument."""
        reading = self._of(look)
        return reading.hand or f"{MM.from_si(reading.play or 0.0):.2f} mm by {reading.by}"

    def likelihood(self, model: HubModel, look: Round, end_play: Array) -> Array:
        """Return the density of the size, or the chance of the word."""
        reading, play = self._of(look), model.play(self.key, end_play)
        if reading.play is not None:
            uncertainty = uncertainty_of(reading, model.beliefs)
            return play_likelihood(play, read=reading.play, uncertainty=uncertainty, beliefs=model.beliefs)
        chances = hand_chances(
            play,
            place="rim" if self.place == "rim" else "axle end",
            limits=model.scenario.limits,
            beliefs=model.beliefs,
        )
        return np.asarray(chances[PLAY_WORDS.index(reading.hand or "none")])

    def strangeness(self, model: HubModel, look: Round, end_play: Array, chance: Array) -> tuple[float, str]:
        """Return the smaller tail of a size and the range expected, or the chance of a word."""
        reading = self._of(look)
        if reading.play is None:
            return chance_of_word(self.likelihood(model, look, end_play), chance), ""
        play = np.broadcast_to(model.play(self.key, end_play), chance.shape)
        spread = play_spread(play, uncertainty_of(reading, model.beliefs), model.beliefs)
        below = float((chance * ndtr((reading.play - play) / spread)).sum())
        middle = float((chance * play).sum())
        wide = float(np.sqrt((chance * ((play - middle) ** 2 + spread**2)).sum()))
        low, high = MM.from_si(max(middle - 2 * wide, 0.0)), MM.from_si(middle + 2 * wide)
        # a gauge that shows nothing stands for everything below nothing as well
        return (below if reading.play <= 0.0 else min(below, 1 - below)), f"{low:.2f} to {high:.2f} mm"

    def outcomes(self, model: HubModel, end_play: Array, pick: Pick) -> Array:
        """Return the chance of each of `BINS` readings of a dial gauge."""
        play = pick(model.play(self.key, end_play))
        spread = play_spread(play, uncertainty_of(Play(play=0.0), model.beliefs), model.beliefs)
        top = float((play + 3 * spread).max())
        edges = top * np.linspace(0.0, 1.0, BINS) ** 1.5
        return between(ndtr((edges[None, :] - play[:, None]) / spread[:, None]))

    def _of(self, look: Round) -> Play:
        found: Play = getattr(look, self.key)
        return found


def play_at(place: Literal["rim", "axle_end"], clamp: Literal["open", "closed"]) -> PlayReading:
    """Return the reading of play at a place. The hand's word for the rim is asked first, by the quick answers."""
    key = f"{place}_{clamp}"
    label = f"play at the {place.replace('_', ' ')}, clamp {clamp}"
    hand = WordField(name=f"{key}.hand", label="or by hand", words=PLAY_WORDS)
    return PlayReading(
        key=key,
        label=label,
        clamp=clamp,
        place=place,
        group="play",
        asked=(
            NumberField(
                name=f"{key}.play", uncertainty=f"{key}.uncertainty", step=0.05, usual="usual for it"
            ),
            WordField(
                name=f"{key}.by", label="measured with", words=get_args(Instrument), default="dial gauge"
            ),
            *((hand,) if place == "axle_end" else ()),
        ),
        instruction=f"take the {label}, by dial gauge",
        why="it places the cone",
        settle=SETTLE[place],
    )
