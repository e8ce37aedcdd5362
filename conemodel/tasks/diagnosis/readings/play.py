"""Play at one place: measured from stop to stop, or as a word of the hand."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, get_args

import numpy as np
from scipy.special import ndtr

from conemodel.base.units import MM, NEWTON, Array
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
    "axle_along": "Take it again, the gauge's foot on the hub's shell or the frame, and the play at the rim as well",
}
"""What to do where a play contradicts the other readings, by place."""

WORDS = {"rim": "at the rim", "axle_end": "at the axle end", "axle_along": "along the axle"}
"""Places in words."""

PlayPlace = Literal["rim", "axle_end", "axle_along"]
"""Where play is read."""

HINTS = {
    "rim": "The gauge's foot stands on the stay or the fork blade beside the rim, its tip square to the rim near three "
    "o'clock. Push and pull there with about 2 N, the weight of 200 g, the same each way: what is pushed harder bends "
    "spokes and reads as play.",
    "axle_end": "Axle in the fingers, rocked up and down against the shell; the tip square to the axle at its end.",
    "axle_along": "The gauge's foot on the shell (clamp open) or its tip on the shell and its foot on the frame (clamp "
    "closed); push axle or shell straight along the axle, to and fro. The wheel does not give that way.",
}
"""Where the gauge stands and how hard to push, by place."""

PUSH_HINT = "How hard the rim was pushed each way: read off a spring balance, or 1 N for every 100 g hung on a thread."
HARD_HINT = (
    "The same once more under a push some three times as hard, as 2 N and 6 N: what is read more is the wheel that "
    "gives, and is taken off."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayReading(Reading):
    """Play at the rim, at the axle end, or along the axle."""

    place: PlayPlace

    def is_in(self, look: Round) -> bool:
        """Return whether somebody looked, by gauge or by hand."""
        return self._of(look).given

    def tells_more(self, look: Round) -> bool:
        """Return whether it was not measured: a gauge tells more than a word."""
        return self._of(look).play is None

    def describe(self, look: Round) -> str:
        """Return the word, or the size and the instrument."""
        reading = self._of(look)
        if reading.hand is not None:
            return reading.hand
        said = f"{MM.from_si(reading.play or 0.0):.2f} mm by {reading.by}"
        if reading.push is not None:
            said += f" at {NEWTON.from_si(reading.push):g} N"
        if reading.play_hard is not None:
            said += (
                f", {MM.from_si(reading.play_hard):.2f} mm at {NEWTON.from_si(reading.push_hard or 0.0):g} N"
            )
        return said

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


def play_at(place: PlayPlace, clamp: Literal["open", "closed"]) -> PlayReading:
    """Return the reading of play at a place. The hand's word for the rim is asked first, by the quick answers."""
    key = f"{place}_{clamp}"
    label = f"play {WORDS[place]}, clamp {clamp}"
    return PlayReading(
        key=key,
        label=label,
        clamp=clamp,
        place=place,
        group="play",
        asked=tuple(_asked_of(key, place)),
        instruction=f"take the {label}, by dial gauge",
        why="it places the cone",
        settle=SETTLE[place],
    )


def _asked_of(key: str, place: PlayPlace) -> Iterator[NumberField | WordField]:
    """Yield what is asked for of a play, the most needed first."""
    yield NumberField(
        name=f"{key}.play",
        uncertainty=f"{key}.uncertainty",
        step=0.05,
        usual="usual for it",
        hint=HINTS[place],
    )
    if place == "rim":
        yield NumberField(name=f"{key}.push", step=0.5, form="%.1f", usual="not known", hint=PUSH_HINT)
        yield NumberField(name=f"{key}.play_hard", step=0.05, hint=HARD_HINT)
        yield NumberField(name=f"{key}.push_hard", step=0.5, form="%.1f", usual="not known")
    if place != "axle_along":
        yield WordField(
            name=f"{key}.by", label="measured with", words=get_args(Instrument), default="dial gauge"
        )
    if place == "axle_end":
        yield WordField(name=f"{key}.hand", label="or by hand", words=PLAY_WORDS)
