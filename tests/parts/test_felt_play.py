"""What a hand says to play: the same word from the same play, wherever it is asked."""

import numpy as np
import pytest

from conemodel.base.errors import InputProblems
from conemodel.parts.felt_play import EARLIER_WORDS, PLAY_WORDS, Place, clear_from, felt_from, felt_word
from conemodel.parts.priors import Beliefs
from conemodel.parts.readings import Readings
from conemodel.parts.setting import Limits
from conemodel.parts.toml_files import read_part, write_part
from conemodel.tasks.diagnosis.likelihood import hand_chances

FINE = Limits(rim_play=50e-6, clear_rim_play=200e-6, axle_end_play=20e-6)
"""Finer hands, whose clear play is four times what they just feel."""

PLACES: tuple[Place, Place] = ("rim", "axle end")


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("limits", [Limits(), FINE, Limits(rim_play=1e-3)], ids=["usual", "fine", "coarse"])
def test_words_change_where_it_is_said_that_they_do(limits: Limits, place: Place) -> None:
    felt, clear = felt_from(limits, place), clear_from(limits, place)
    assert felt_word(limits, place, felt) == "none"
    assert felt_word(limits, place, clear * 1.001) == "clear"
    if clear > felt:
        assert felt_word(limits, place, (felt + clear) / 2) == "slight"


def test_clear_play_stands_to_just_felt_alike_at_both_places() -> None:
    ratios = [clear_from(FINE, place) / felt_from(FINE, place) for place in PLACES]
    assert ratios == pytest.approx([4.0, 4.0])


@pytest.mark.parametrize("place", PLACES)
def test_a_check_believes_the_same_thresholds(place: Place) -> None:
    """Hands scatter about the limits: half of them have felt it there, and half find it clear there (the median)."""
    beliefs = Beliefs(slip=1e-9)
    at_felt = hand_chances(np.array(felt_from(FINE, place)), place=place, limits=FINE, beliefs=beliefs)
    at_clear = hand_chances(np.array(clear_from(FINE, place)), place=place, limits=FINE, beliefs=beliefs)
    assert at_felt[PLAY_WORDS.index("none")] == pytest.approx(0.5, abs=1e-6)
    assert at_clear[PLAY_WORDS.index("clear")] == pytest.approx(0.5, abs=1e-6)


@pytest.mark.parametrize(("earlier", "now"), EARLIER_WORDS.items())
def test_a_file_with_an_earlier_word_is_read_and_written_as_now(earlier: str, now: str) -> None:
    readings = read_part(Readings, f'[found]\nrim_closed = {{ hand = "{earlier}" }}\n', name="found")
    assert readings.found.rim_closed.hand == now
    assert f'hand = "{now}"' in write_part(readings)


def test_a_word_that_nobody_says_is_refused_with_those_that_are() -> None:
    with pytest.raises(InputProblems, match="must be one of 'none', 'slight' or 'clear'"):
        read_part(Readings, '[found]\nrim_closed = { hand = "some" }\n', name="found")


def test_a_hand_known_from_a_real_hub_says_its_words_about_its_own_threshold_at_the_rim_only() -> None:
    """Half of its looks at its threshold feel nothing (the median); clear play stays in the limits' ratio."""
    own, usual = Beliefs(slip=1e-9, own_felt_at_rim=0.06e-3, own_factor=1.3), Beliefs(slip=1e-9)
    at_own = hand_chances(np.array(0.06e-3), place="rim", limits=FINE, beliefs=own)
    assert at_own[PLAY_WORDS.index("none")] == pytest.approx(0.5, abs=1e-6)
    at_clear = hand_chances(np.array(0.24e-3), place="rim", limits=FINE, beliefs=own)
    assert at_clear[PLAY_WORDS.index("clear")] == pytest.approx(0.5, abs=1e-6)
    apart = hand_chances(np.array(0.06e-3 * 1.3), place="rim", limits=FINE, beliefs=own)
    assert 1 - apart[PLAY_WORDS.index("none")] == pytest.approx(
        0.8413, abs=1e-4
    )  # one standard deviation above
    first, second = (
        hand_chances(np.array(30e-6), place="axle end", limits=FINE, beliefs=each) for each in (own, usual)
    )
    assert np.array_equal(first, second)
