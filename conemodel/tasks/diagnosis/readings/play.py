"""Play at one place: measured from stop to stop, or as a word of the hand."""

from dataclasses import dataclass
from typing import Literal

import numpy as np
from scipy.special import ndtr

from conemodel.base.normal import normal_density
from conemodel.base.units import MM, NEWTON, Array
from conemodel.parts.felt_play import PLAY_WORDS
from conemodel.parts.priors import Beliefs
from conemodel.parts.readings import Play, Round
from conemodel.tasks.diagnosis.likelihood import hand_chances, play_likelihood, play_spread, uncertainty_of
from conemodel.tasks.diagnosis.model import HubModel
from conemodel.tasks.diagnosis.push import give_quantile
from conemodel.tasks.diagnosis.readings.play_words import PLACE_WORDS, SETTLE, PlayPlace, fields_of
from conemodel.tasks.diagnosis.readings.reading import BINS, Pick, Reading, between, chance_of_word

HARDER = 3.0
"""How many times as hard the second push is than the first, where two are advised: far enough apart to tell."""


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

    def pushed(self, look: Round) -> bool:
        """Return whether a gauge or ruler read it at the rim."""
        return self.place == "rim" and self._of(look).play is not None

    def likelihood(self, model: HubModel, look: Round, end_play: Array) -> Array:
        """Return the density of the size, or the chance of the word."""
        reading = self._of(look)
        if reading.play is None:
            return self._chance_of_word(model, reading, end_play)
        uncertainty, beliefs = uncertainty_of(reading, model.beliefs), model.beliefs
        free, met = self._met(model, reading.push, end_play)
        if reading.play_hard is None:
            spread = self._spread(free, uncertainty, beliefs)
            return play_likelihood(met, spread, read=reading.play, uncertainty=uncertainty)
        # what the model errs by is the same in both, so their mean and their difference tell apart
        _, hard = self._met(model, reading.push_hard, end_play)
        mean = play_likelihood(
            (met + hard) / 2,
            self._spread(free, uncertainty / 2**0.5, beliefs),
            read=(reading.play + reading.play_hard) / 2,
            uncertainty=uncertainty / 2**0.5,
        )
        return mean * normal_density(reading.play_hard - reading.play - (hard - met), uncertainty * 2**0.5)

    def _chance_of_word(self, model: HubModel, reading: Play, end_play: Array) -> Array:
        chances = hand_chances(
            model.play(self.key, end_play),
            place="rim" if self.place == "rim" else "axle end",
            limits=model.scenario.limits,
            beliefs=model.beliefs,
        )
        return np.asarray(chances[PLAY_WORDS.index(reading.hand or "none")])

    def _met(self, model: HubModel, push: float | None, end_play: Array) -> tuple[Array, Array]:
        """Return the free play and what is read under a push [N], None where nobody stated it [m]."""
        free = model.play(self.key, end_play)
        return free, free + model.rim_give(push, end_play) if self.place == "rim" else free

    def _spread(self, free: Array, uncertainty: float, beliefs: Beliefs) -> Array:
        """Return the standard error of a reading [m]: along the axle it is the end play itself, and no model errs."""
        if self.place == "axle_along":
            return np.full_like(free, uncertainty)
        return play_spread(free, uncertainty, beliefs)

    def strangeness(
        self, model: HubModel, look: Round, end_play: Array, chance: Array, likelihood: Array
    ) -> tuple[float, str]:
        """Return the smallest tail of what was read and the range expected, or the chance of a word."""
        reading = self._of(look)
        if reading.play is None:
            return chance_of_word(likelihood, chance), ""
        met, spread = self._expected(model, reading, end_play, chance)
        tail = _smaller_tail(reading.play, met, spread, chance)
        if reading.play_hard is not None:
            tail = min(tail, *self._tails_of_gain(model, reading, end_play, chance))
        middle = float((chance * met).sum())
        wide = float(np.sqrt((chance * ((met - middle) ** 2 + spread**2)).sum()))
        low, high = MM.from_si(max(middle - 2 * wide, 0.0)), MM.from_si(middle + 2 * wide)
        return tail, f"{low:.2f} to {high:.2f} mm"

    def _expected(
        self, model: HubModel, reading: Play, end_play: Array, chance: Array
    ) -> tuple[Array, Array]:
        """Return what is read under the first push and its standard error, of the shape of `chance` (c, n, m) [m]."""
        free, met = (np.broadcast_to(one, chance.shape) for one in self._met(model, reading.push, end_play))
        return met, self._spread(free, uncertainty_of(reading, model.beliefs), model.beliefs)

    def _tails_of_gain(
        self, model: HubModel, reading: Play, end_play: Array, chance: Array
    ) -> tuple[float, float]:
        """Return the chance that the harder push gains no more, and no less, than was read."""
        gained = (reading.play_hard or 0.0) - (reading.play or 0.0)
        _, met = self._met(model, reading.push, end_play)
        _, hard = self._met(model, reading.push_hard, end_play)
        error = uncertainty_of(reading, model.beliefs) * 2**0.5
        below = float((chance * ndtr((gained - (hard - met)) / error)).sum())
        return below, 1 - below

    def clash_within(self, model: HubModel, look: Round, end_play: Array, chance: Array) -> str:
        """Return how the play read under a harder push does not go with that under the first."""
        reading = self._of(look)
        if reading.play is None or reading.play_hard is None:
            return ""
        less, more = self._tails_of_gain(model, reading, end_play, chance)
        met, spread = self._expected(model, reading, end_play, chance)
        if min(less, more) > _smaller_tail(reading.play, met, spread, chance):
            return ""
        if reading.play_hard < reading.play:
            return "a harder push cannot give less"
        return f"the two readings differ too {'little' if less < more else 'much'} for the harder push"

    def outcomes(self, model: HubModel, end_play: Array, pick: Pick) -> Array:
        """Return the chance of each of `BINS` readings of a dial gauge, at the rim under a push nobody states."""
        free = pick(model.play(self.key, end_play))
        spread = self._spread(free, uncertainty_of(Play(play=0.0), model.beliefs), model.beliefs)
        met = free
        if self.place == "rim":
            met = free + (
                pick(model.rim_give(None, end_play)) if len(model.pushes) > 1 else _any_give(model, free.size)
            )
        top = float((met + 3 * spread).max())
        edges = top * np.linspace(0.0, 1.0, BINS) ** 1.5
        return between(ndtr((edges[None, :] - met[:, None]) / spread[:, None]))

    def blurred(self, look: Round) -> bool:
        """Return whether a harder push would tell what wheel and bearing gave."""
        return self.pushed(look) and self._of(look).play_hard is None and self._of(look).push != 0.0

    def harder_outcomes(self, model: HubModel, look: Round, end_play: Array, pick: Pick) -> Array:
        """Return the chance of each of `BINS` gains of play under a push `HARDER` times as hard.

        What gives is taken to give in the ratio of the pushes.
        """
        reading = self._of(look)
        gain = (HARDER - 1) * pick(model.rim_give(reading.push, end_play))
        spread = uncertainty_of(reading, model.beliefs) * 2**0.5
        edges = np.linspace(float(gain.min()) - 3 * spread, float(gain.max()) + 3 * spread, BINS)
        return between(ndtr((edges[None, :] - gain[:, None]) / spread))

    def _of(self, look: Round) -> Play:
        found: Play = getattr(look, self.key)
        return found


def _smaller_tail(read: float, middle: Array, spread: Array, chance: Array) -> float:
    """Return the chance of reading something at least as far out, on the nearer side, where `chance` holds."""
    below = float((chance * ndtr((read - middle) / spread)).sum())
    # a gauge that shows nothing stands for everything below nothing as well
    return below if read <= 0.0 else min(below, 1 - below)


def _any_give(model: HubModel, count: int) -> Array:
    """Return what wheels give under pushes nobody stated, spread over `count` places without order [m]."""
    shares: Array = (
        np.arange(count, dtype=np.float64) * 0.6180339887498949 % 1.0
    )  # the golden section: even however many there are
    return give_quantile(model.scenario, model.beliefs, shares)


def play_at(place: PlayPlace, clamp: Literal["open", "closed"]) -> PlayReading:
    """Return the reading of play at a place. The hand's word for the rim is asked first, by the quick answers."""
    key = f"{place}_{clamp}"
    label = f"play {PLACE_WORDS[place]}, clamp {clamp}"
    return PlayReading(
        key=key,
        label=label,
        clamp=clamp,
        place=place,
        group="play",
        asked=tuple(fields_of(key, place)),
        instruction=f"take the {label}, by dial gauge",
        why="it places the cone",
        settle=SETTLE[place],
    )
