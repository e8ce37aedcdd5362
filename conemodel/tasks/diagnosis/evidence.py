"""What each reading says: for or against a cause, or against the other readings."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from conemodel.base.units import MM, Array
from conemodel.parts.felt_play import PLAY_WORDS
from conemodel.parts.priors import CAUSES
from conemodel.parts.readings import Readings, Round
from conemodel.tasks.diagnosis.filtering import product_of
from conemodel.tasks.diagnosis.likelihood import least_spread
from conemodel.tasks.diagnosis.looks import ELSEWHERE
from conemodel.tasks.diagnosis.posterior import Posterior
from conemodel.tasks.diagnosis.readings import READINGS, strangeness
from conemodel.tasks.diagnosis.readings.play_words import PLACE_WORDS

STRANGE = 0.01
"""Chance of a measured value at least as far out, below which it contradicts the other readings. Assumption."""

STRANGE_WORD = 0.02
"""Chance of a word below which it contradicts the other readings. Assumption."""

EXPLAINED = 0.05
"""Chance, with all readings taken together, from which a strange one is explained, by a rare fault say. Assumption."""

HOPELESS = 1e-3
"""What `STRANGE` is for a measured value that a rare fault explains. Assumption."""

SPEAKS = 2.0
"""Factor on the odds of a cause from which a reading is named as evidence for it. Assumption."""


GAINED = 3.0
"""Standard errors of a difference from which play that grew on closing is questioned. Assumption."""

NOTCHY = "notchy"
"""Word that no play contradicts: here only preload presses balls into dents; in a loose, worn hub the weight on it
does, and the model leaves that out. Common practice, no source."""

BY_FAR = 0.5
"""Chance of play elsewhere from which clearing every other place contradicts it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """One reading against all others of its round and before.

    Attributes:
        round: number of its round, from 1; name: its field; said: what was read, in words.
        odds: for each cause the factor by which this reading changed its odds.
        tail: chance of reading something at least as strange, were the others right; explained: the same, taken
            together with this one.
        expected: what the others lead one to expect, in words; empty for words.
        within: how its own two pushes do not go together, where that is stranger; else empty.
    """

    round: int
    name: str
    said: str
    odds: dict[str, float]
    tail: float
    explained: float
    expected: str
    within: str

    @property
    def contradicts(self) -> bool:
        """Whether it does not go together with the others, and no rare fault explains it."""
        if self.said == NOTCHY:
            return False
        if not self.expected:
            return self.tail < STRANGE_WORD and self.explained < EXPLAINED
        return self.tail < HOPELESS or (self.tail < STRANGE and self.explained < EXPLAINED)

    @property
    def label(self) -> str:
        """The reading in words, with its round where there are several."""
        return READINGS[self.name].label + (f" (round {self.round})" if self.round > 1 else "")


def weigh(posterior: Posterior, readings: Readings) -> tuple[Weighed, ...]:
    """Return every reading weighed against the others."""
    return tuple(
        one for number, look in enumerate(readings.rounds) for one in _weigh_round(posterior, look, number)
    )


def _weigh_round(posterior: Posterior, look: Round, number: int) -> Iterator[Weighed]:
    found, ahead = posterior.readings[number], posterior.ahead[number]
    opened, closed = posterior.ends[number]
    for name, mine in found.items():
        reading = READINGS[name]
        end_play = reading.end_play(opened, closed)
        others = {other: value for other, value in found.items() if other != name}
        without = ahead * product_of(others, ahead.shape)
        total = float(without.sum())
        if not total > 0.0:
            continue
        without = without / total
        together = without * mine
        total = float(together.sum())
        tail, expected = strangeness(reading, posterior.model, look, end_play, without, mine)
        explained = 0.0
        if total > 0.0:
            explained, _ = strangeness(reading, posterior.model, look, end_play, together / total, mine)
        yield Weighed(
            round=number + 1,
            name=name,
            said=reading.describe(look),
            odds=_odds(posterior, together, without),
            tail=tail,
            explained=explained,
            expected=expected,
            within=reading.clash_within(posterior.model, look, end_play, without),
        )


def _odds(posterior: Posterior, together: Array, without: Array) -> dict[str, float]:
    """Return the factor on the odds of each cause that a reading makes."""
    found = {}
    total = float(together.sum())
    for cause in CAUSES:
        mine = [case.cause == cause for case in posterior.model.cases]
        before, after = float(without[mine].sum()), float(together[mine].sum())
        if 0.0 < before < 1.0 and total > 0.0:
            rest = (total - after) / (1 - before)
            found[cause] = after / before / rest if rest > 0.0 else np.inf
    return found


def contradictions(weighed: tuple[Weighed, ...], posterior: Posterior, readings: Readings) -> tuple[str, ...]:
    """Return a sentence for every reading that does not go together with the others."""
    if posterior.log_evidence == -np.inf and posterior.mark_fit >= HOPELESS:
        return (
            "No hub of this kind can show these readings together. Check the units, and which was taken with the "
            "clamp open and which closed.",
        )
    cleared = [name for name in ELSEWHERE if getattr(readings.checks, name) == "no"]
    if posterior.of("elsewhere") > BY_FAR and len(cleared) == len(ELSEWHERE):
        return (
            "The rim has play in the frame that the bearing cannot have, yet freehub, headset, spokes and "
            "dropouts were all cleared. Look at them again, and take the play at the axle end, clamp closed: it "
            "settles which is true.",
        )
    marked: tuple[str, ...] = ()
    if posterior.mark_fit < HOPELESS:
        marked = (
            "Where the cone was marked does not go with the play: locked there, the hub would stand quite otherwise. "
            "Find finger contact again, and see that the far side is locked.",
        )
    gained = () if rocking_besides(readings) else gained_on_closing(posterior, readings)
    alone = len(weighed) == 1
    return (*marked, *gained, *(_sentence(one, alone=alone) for one in weighed if one.contradicts))


def rocking_besides(readings: Readings) -> tuple[str, ...]:
    """Return in words what was found to rock in the frame besides the bearing."""
    return tuple(words for name, words in ELSEWHERE.items() if getattr(readings.checks, name) == "yes")


def gained_on_closing(posterior: Posterior, readings: Readings) -> tuple[str, ...]:
    """Return a sentence for every place where play grew on closing, which no bearing's does."""
    return tuple(line for look in readings.rounds for line in _gained(posterior, look))


def _gained(posterior: Posterior, look: Round) -> Iterator[str]:
    """Yield a sentence for every place where play grew on closing in one round."""
    plays = look.plays
    for place, words in PLACE_WORDS.items():
        opened, closed = (plays.get(f"{place}_{clamp}") for clamp in ("open", "closed"))
        if not opened or not closed:
            continue
        if opened.hand and closed.hand and PLAY_WORDS.index(closed.hand) > PLAY_WORDS.index(opened.hand):
            yield _grew(words, opened.hand, closed.hand, again="Feel both again")
        if opened.play is None or closed.play is None:
            continue
        error = sum(least_spread(one, posterior.model.beliefs) ** 2 for one in (opened, closed)) ** 0.5
        if opened.push == closed.push and closed.play - opened.play > GAINED * error:
            before, after = (f"{MM.from_si(play):.2f}" for play in (opened.play, closed.play))
            yield _grew(words, before, f"{after} mm", again="Take both again, pushing alike")


def _grew(place: str, before: str, after: str, *, again: str) -> str:
    """Return what is said of play at a place that grew on closing from `before` to `after`."""
    return (
        f"Play {place} grew on closing, from {before} to {after}: no bearing gains play from its clamp. {again}; if it "
        f"stays so, look what else rocks in the frame: {', '.join(ELSEWHERE.values())}."
    )


def _sentence(one: Weighed, *, alone: bool) -> str:
    label = one.label[0].upper() + one.label[1:]
    if one.within:
        return f"{label}: {one.said}, but {one.within}. Read both again, each push off a spring balance."
    if alone:
        instead = "such hubs, read with that push, hardly ever show that: check the push"
    elif one.expected:
        instead = f"the others lead one to expect {one.expected}"
    else:
        instead = "the others do not go with that"
    return f"{label}: {one.said}, but {instead}. {READINGS[one.name].settle}."


def evidence_for(cause: str, weighed: tuple[Weighed, ...]) -> tuple[str, ...]:
    """Return the readings that speak for a cause, strongest first."""
    speaking = sorted(
        (one for one in weighed if one.odds.get(cause, 1.0) >= SPEAKS), key=lambda one: -one.odds[cause]
    )
    return tuple(f"{one.label}: {one.said}" for one in speaking)
