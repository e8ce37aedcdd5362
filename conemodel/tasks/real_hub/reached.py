"""How far measuring a hub gets: what simulated mechanics reached at hubs of another make, kept in a file.

A slow test counts it again and holds the file to what it finds; the command that it names writes the file.
"""

import json
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from conemodel.parts.measured_hub import ReadBy

KEPT = Path(__file__).parent / "reached.json"
"""Where it is kept."""


DRAWN = "a dial or a ruler read to its division, turns within 3° of their pen line, each locking and closing of its own"
"""How those mechanics erred, fixed before anything was tried."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reached:
    """What hubs came to that were measured and turned as the program says; shares of all hubs [-].

    Attributes:
        read_by: what their play was read by; hubs: how many; answered: share that got a turn.
        readings: mean number of readings before it.
        first, second: share right after the first turn, and after the second; promised: mean chance of the first.
        tight: of those turned, share that ended too tight at first.
        slack_error: by how much at most the slack was missed on four of five [m].
        covered: by quantity, how often an interval of four times in five held the truth.
    """

    read_by: ReadBy
    hubs: int
    answered: float
    readings: float
    first: float
    second: float
    promised: float
    tight: float
    slack_error: float
    covered: dict[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Unmeasured:
    """Share of hubs right that were set without measuring [-], their cones turned once from finger contact.

    Attributes:
        hubs: how many; fixed: by the back-off that is best for all of them; quarter: by a quarter turn.
        feeler: by one for the slack that a feeler found.
    """

    hubs: int
    fixed: float
    quarter: float
    feeler: float


@lru_cache(maxsize=1)
def reached() -> tuple[dict[ReadBy, Reached], Unmeasured]:
    """Return what is reached by each gauge, and without measuring."""
    kept = json.loads(KEPT.read_text(encoding="utf-8"))
    measured = (Reached(**each) for each in kept["measured"])
    return {each.read_by: each for each in measured}, Unmeasured(**kept["unmeasured"])
