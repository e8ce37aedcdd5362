"""Free play as a hand says it: the places it is judged at, the words, and from how much each word is said."""

from typing import Literal, get_args

from conemodel.parts.setting import Limits

Place = Literal["rim", "axle end"]
"""Where a hand judges play."""

PlayWord = Literal["none", "slight", "clear"]
"""What a hand says to it."""

PLAY_WORDS: tuple[PlayWord, ...] = get_args(PlayWord)

EARLIER_WORDS: dict[str, PlayWord] = {"just felt": "slight"}
"""Words that files of readings and links may still hold, and what is said now."""


def word_now(word: object) -> object:
    """Return a word as it is said now; what is no word of earlier days is left alone."""
    return EARLIER_WORDS.get(word, word) if isinstance(word, str) else word


def felt_from(limits: Limits, place: Place) -> float:
    """Return the free play just felt at a place [m]: an assumption, adjustable in the limits."""
    return limits.rim_play if place == "rim" else limits.axle_end_play


def clear_from(limits: Limits, place: Place) -> float:
    """Return the free play that is clear at a place [m]; at the axle end in the ratio it has at the rim.

    Never below what is just felt, whatever the limits are set to.

    >>> round(clear_from(Limits(), "rim") * 1e3, 3), round(clear_from(Limits(), "axle end") * 1e3, 3)
    (0.3, 0.15)
    """
    felt = felt_from(limits, place)
    return max(felt * limits.clear_rim_play / limits.rim_play, felt)


def felt_word(limits: Limits, place: Place, play: float) -> PlayWord:
    """Return what a hand says to a free play [m]: none up to what is just felt.

    >>> (
    ...     felt_word(Limits(), "rim", 0.0001),
    ...     felt_word(Limits(), "rim", 0.0002),
    ...     felt_word(Limits(), "rim", 0.0003),
    ... )
    ('none', 'slight', 'clear')
    """
    if play <= felt_from(limits, place):
        return "none"
    return "clear" if play >= clear_from(limits, place) else "slight"
