"""Players of the naming of eight hubs, assessed: a hand that feels them, and a reader of every word there is."""

from collections.abc import Callable
from random import Random

from conemodel.tasks.practice.actions import InWords, Judge, Rock, Take, Twirl
from conemodel.tasks.practice.commitment import read
from conemodel.tasks.practice.marking import mark
from conemodel.tasks.practice.session import Bench
from tests.tasks.practice.hands import do, feel
from tests.tasks.practice.hubs import open_link

NAMING = "02-loose-right-tight"
MARKS = {"loose": -0.7, "right": 0.0, "tight": 0.7}

Judging = Callable[[Bench, Random], tuple[Bench, float]]


def start(seed: int) -> Bench:
    """Return the round of a seed as everybody is given it."""
    return open_link(f"{NAMING}.words.{seed}")


def name_all(bench: Bench, judging: Judging, seed: int, *before: InWords) -> bool:
    """Name every hub of a round; whether it is passed."""
    bench, chance = do(bench, *before), Random(seed)
    for hub in range(len(bench.hubs)):
        bench, at = judging(do(bench, Take(hub)), chance)
        bench = do(bench, Judge(at, "sure"))
    return mark(bench).passed


def by_hand(bench: Bench, _: Random) -> tuple[Bench, float]:
    """A hand with full attention: feels, and says what it felt."""
    bench, hand = feel(bench)
    return bench, MARKS[hand.says]


def lines(bench: Bench, since: int) -> str:
    return " ".join(read(bench, number) for number in range(since, len(bench.log)))


def by_words_alone(bench: Bench, chance: Random) -> tuple[Bench, float]:
    """Reads every line there is, feels nothing and judges nothing: matches the words to a name, or guesses."""
    since = len(bench.log)
    bench = do(bench, Rock(), Twirl())
    told = lines(bench, since)
    if "movement, then" in told:
        return bench, MARKS["loose"]
    if "heavily" in told or "stops dead" in told:
        return bench, MARKS["tight"]
    return bench, MARKS["right"] if "lightly" in told else chance.choice(list(MARKS.values()))
