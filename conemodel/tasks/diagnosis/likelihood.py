"""How likely a reading is, if the hub were so: instruments, hands and fingers.

Functions take computed play or torque of any shape and return likelihoods of the same shape.
"""

from typing import NamedTuple

import numpy as np
from scipy.special import ndtr

from conemodel.base.normal import normal_density
from conemodel.base.units import Array
from conemodel.parts.felt_play import PLAY_WORDS, Place, clear_from, felt_from
from conemodel.parts.priors import Beliefs
from conemodel.parts.readings import Play, TurningWord
from conemodel.parts.setting import Limits
from conemodel.parts.unknowns.senses import FELT_RIPPLE
from conemodel.tasks.bearing.feel_words import FELT_CHANGE, FELT_TORQUE, STIFF_LOAD

TURNING_WORDS: tuple[TurningWord, ...] = ("free", "tight", "gritty", "notchy", "tight in one place")

GRIT_FELT = 0.85
"""Chance that grit is called gritty. Assumption."""


class Feel(NamedTuple):
    """What fingers meet, of one shape: torque, its ripple and its swing over a turn [N·m], grit."""

    torque: Array
    ripple: Array
    swing: Array
    grit: Array


def uncertainty_of(reading: Play, beliefs: Beliefs) -> float:
    """Return the standard uncertainty of a measured play [m]: as stated, or usual for the instrument."""
    if reading.uncertainty is not None:
        return reading.uncertainty
    return beliefs.dial_uncertainty if reading.by == "dial gauge" else beliefs.ruler_uncertainty


def least_spread(reading: Play, beliefs: Beliefs) -> float:
    """Return the standard error of a measured play against the model where there is next to no play [m]."""
    return float(play_spread(np.array(0.0), uncertainty_of(reading, beliefs), beliefs))


def play_likelihood(met: Array, spread: Array, *, read: float, uncertainty: float) -> Array:
    """Return the density of a measured play `read` [m] where the model has `met`, its standard error `spread` [m].

    What would fall below 0 is read as 0, which has a chance and not a density, so a gauge that shows nothing does not
    mean exactly nothing; `uncertainty` is the instrument's own [m].
    """
    if read <= 0.0:
        return np.asarray(ndtr(-met / spread)) / uncertainty
    return normal_density(read - met, spread)


def play_spread(play: Array, uncertainty: float, beliefs: Beliefs) -> Array:
    """Return the standard error of a reading against the model, where the free play is `play` [m].

    Instrument and model err normally and independently.
    """
    return np.asarray(np.sqrt(uncertainty**2 + beliefs.play_floor**2 + (beliefs.play_model * play) ** 2))


def hand_chances(play: Array, *, place: Place, limits: Limits, beliefs: Beliefs) -> Array:
    """Return the chance of each of `PLAY_WORDS` for a free play [m], first axis the words.

    Thresholds differ from hand to hand, log-normally about the hub's limits; a word is at times simply wrong. A hand
    whose own threshold was found on a real hub says its words at the rim about that, in the limits' ratio.
    """
    own = beliefs.own_felt_at_rim if place == "rim" else None
    finer = 1.0 if own is None else own / felt_from(limits, place)
    spread = np.log(beliefs.threshold_factor if own is None else beliefs.own_factor)
    log_play = np.log(np.maximum(play, 1e-9))
    above_felt, above_clear = (
        ndtr((log_play - np.log(finer * edge)) / spread)
        for edge in (felt_from(limits, place), clear_from(limits, place))
    )
    sure = np.stack((1 - above_felt, above_felt - above_clear, above_clear))
    return np.asarray((1 - beliefs.slip) * sure + beliefs.slip / len(PLAY_WORDS))


def turning_chances(feel: Feel, beliefs: Beliefs) -> Array:
    """Return the chance of each of `TURNING_WORDS`, first axis the words.

    What varies is said before what is merely stiff: grit, then dents, then a tight spot, then the level.
    """
    level = feel.torque + beliefs.other_drag
    felt = np.maximum(FELT_CHANGE * level, FELT_TORQUE)
    notchy, one_place = (
        ndtr(np.log(np.maximum(change, 1e-12) / felt) / np.log(FELT_RIPPLE.factor))
        for change in (feel.ripple, feel.swing)
    )
    tight = ndtr(np.log(np.maximum(feel.torque, 1e-9) / STIFF_LOAD) / np.log(beliefs.threshold_factor))
    left = np.ones_like(level)
    shares = {}
    for word, share in (
        ("gritty", GRIT_FELT * feel.grit),
        ("notchy", notchy),
        ("tight in one place", one_place),
    ):
        shares[word] = left * share
        left = left - shares[word]
    shares |= {"tight": left * tight, "free": left * (1 - tight)}
    sure = np.stack([shares[word] for word in TURNING_WORDS])
    return np.asarray((1 - beliefs.slip) * sure + beliefs.slip / len(TURNING_WORDS))


def weight_likelihood(torque: Array, *, read: float, uncertainty: float, beliefs: Beliefs) -> Array:
    """Return the density of a starting torque `read` [N·m] where the ball loads make `torque` [N·m].

    Grease and seals are added, normal with the spread believed; the load part is known to a fifth (assumption).
    """
    spread = np.sqrt(uncertainty**2 + beliefs.other_drag_spread**2 + (0.2 * torque) ** 2)
    return normal_density(read - torque - beliefs.other_drag, spread)
