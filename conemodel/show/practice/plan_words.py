"""Today's plan in words."""

from math import ceil

from conemodel.tasks.practice.plan.checked_run import CheckedRun
from conemodel.tasks.practice.plan.today import Today

NUMBERS = [
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
]
"""Small numbers in words."""


def counted(number: int, what: str) -> str:
    """Return how many of something there are.

    >>> counted(1, "hub"), counted(3, "hub"), counted(13, "hub")
    ('one hub', 'three hubs', '13 hubs')
    """
    return f"{number_words(number)} {what}{'' if number == 1 else 's'}"


def number_words(number: int) -> str:
    """Return a number from 0 up in words, a large one in figures."""
    return NUMBERS[number] if number < len(NUMBERS) else str(number)


def today_words(today: Today) -> str:
    """Return what is to be done today in one line: how many hubs, and about how long they take."""
    if today.left:
        minutes = max(1, ceil(today.seconds / 60))
        return f"Today: {counted(today.hubs, 'hub')}, about {counted(minutes, 'minute')}"
    return "Done for today" if today.planned else "Nothing is due today"


def run_words(run: CheckedRun) -> str:
    """Return how many assessed hubs in a row were right and checked; empty where none ever was.

    >>> run_words(CheckedRun(2, 5))
    'Right and checked in a row, assessed: two hubs; the most so far: five'
    >>> run_words(CheckedRun(8, 8, 7, 7))
    'Right and checked in a row, assessed: eight hubs, seven of them read in words'
    """
    if not run.best:
        return ""
    now, most = counted(run.now, "hub"), f"; the most so far: {number_words(run.best)}"
    most = f"{most}{_read_words(run.best_read)}" if run.best > run.now else ""
    return f"Right and checked in a row, assessed: {now}{_read_words(run.now_read)}{most}"


def _read_words(read: int) -> str:
    """Return how many of some hubs were read and not felt, empty where none was."""
    return f", {number_words(read)} of them read in words" if read else ""
