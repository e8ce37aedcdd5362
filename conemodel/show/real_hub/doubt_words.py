"""Counts and plays at pen marks that are asked for again, in words: the question, and what answers it in a tap."""

from conemodel.base.units import MINUTE, MM
from conemodel.show.formatting import typeset
from conemodel.tasks.real_hub.count_doubt import CountDoubt
from conemodel.tasks.real_hub.marked_readings import DIVISION
from conemodel.tasks.real_hub.play_doubt import INCH, TIMES, PlayDoubt


def doubt_words(doubt: CountDoubt | PlayDoubt) -> str:
    """Return the question that a count or plays in doubt ask.

    >>> doubt_words(CountDoubt(mark=0, count=MINUTE.to_si(60), fits=MINUTE.to_si(15)))
    '60 minutes? 15 would fit'
    >>> doubt_words(PlayDoubt(mark=0, read=2.4e-6, meant={"nut loose": (2.4e-4, 2.6e-4)}))
    '0.24 mm? That is 24 hundredths'
    >>> doubt_words(PlayDoubt(mark=0, read=5.9e-6, meant={"locked": (1.4986e-4,)}, times=25.4))
    '0.0059 mm? 0.15 would fit: inches?'
    """
    if isinstance(doubt, PlayDoubt) and doubt.times != TIMES:
        return f"{_mm(doubt.read)} mm? {_mm(doubt.read * doubt.times)} would fit{_unit(doubt)}"
    if isinstance(doubt, PlayDoubt):
        return f"{_hundredths(doubt.read)} mm? That is {MM.from_si(doubt.read) * 1e4:g} hundredths"
    asked = f"{minutes_number(doubt.count)} minutes?"
    if doubt.fits is None:
        return f"{asked} No thread has so much slack"
    return f"{asked} {minutes_number(doubt.fits)} would fit"


def mend_words(doubt: CountDoubt | PlayDoubt) -> str:
    """Return what mends it in a tap; empty where nothing that is known would.

    >>> mend_words(PlayDoubt(mark=0, read=2.4e-6, meant={"nut loose": (2.4e-4, 2.6e-4)}))
    'It was 24 and 26 hundredths'
    """
    if isinstance(doubt, PlayDoubt):
        *before, last = [_hundredths(play) for there in doubt.meant.values() for play in there]
        plays = f"{', '.join(before)} and {last}" if before else last
        return f"It was {plays} hundredths"
    return "" if doubt.fits is None else f"It was {minutes_number(doubt.fits)} minutes"


def confirm_words(doubt: CountDoubt | PlayDoubt) -> str:
    """Return what says in a tap that it is right.

    >>> confirm_words(PlayDoubt(mark=0, read=2.4e-6, meant={"nut loose": (2.4e-4, 2.6e-4)}))
    '0.24 hundredths is right'
    """
    if isinstance(doubt, PlayDoubt):
        return (
            f"{_mm(doubt.read)} mm is right"
            if doubt.times != TIMES
            else f"{_hundredths(doubt.read)} hundredths is right"
        )
    return f"{minutes_number(doubt.count)} minutes is right"


def in_a_file(doubt: CountDoubt | PlayDoubt) -> str:
    """Return how it is answered where the readings stand in a file."""
    if isinstance(doubt, PlayDoubt):
        return "In the file: correct the plays (they are in mm), or write plays_checked = true at that mark."
    return "In the file: correct the count, or write count_checked = true at that mark."


def minutes_number(count: float) -> str:
    """Return a count in minutes of a clock face [rad] as a bare number."""
    return typeset(f"{MINUTE.from_si(count):g}")


def _hundredths(play: float) -> str:
    """Return a play in hundredths of a millimetre [m] as a bare number."""
    return f"{play / DIVISION:.4g}"


def _mm(play: float) -> str:
    """Return a play in millimetres [m] as a bare number."""
    return f"{MM.from_si(play):.2g}"


def _unit(doubt: PlayDoubt) -> str:
    """Return what the plays may have been written down in; empty where it is the same unit."""
    return ": inches?" if doubt.times == INCH else ""
