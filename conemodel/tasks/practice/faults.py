"""What no setting of the cone cures: what each fault is in words, and what is found and done once it is stripped."""

from typing import NamedTuple

from conemodel.parts.exercise import Fault


class FaultWords(NamedTuple):
    """A fault as it is said after the last word: what it is, and the cure; common practice, no source."""

    what: str
    cure: str


FAULTS: dict[Fault, FaultWords] = {
    "bent axle": FaultWords("it grabs once a turn", "roll the axle on a flat plate"),
    "dents": FaultWords("the races are dented", "draw a ball-point over the tracks, renew cone and balls"),
    "dry grease": FaultWords(
        "the grease has dried", "clean it, see that the races are sound, grease it afresh"
    ),
    "odd ball": FaultWords("one ball is larger", "renew all balls of both rows, from one packet"),
    "thread worn out": FaultWords("the thread is worn out, so refuse it", "renew axle, cone and locknut"),
    "proud axle": FaultWords(
        "an axle end stands out past the dropout", "it takes an axle of the right length"
    ),
    "ball missing": FaultWords("a ball is missing", "count against the maker's number, renew them all"),
    "none": FaultWords("loose enough in one place, it is tight in another", "see what runs out of true"),
}
"""The words of every fault; none: the hub has no good range though nothing was drawn wrong with it."""
