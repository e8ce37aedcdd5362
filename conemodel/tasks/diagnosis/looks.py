"""Looks that need no measuring: what each shows, how sure, how it is asked. One entry for each answer of `Checks`."""

from dataclasses import dataclass

import numpy as np

from conemodel.parts.priors import Beliefs
from conemodel.parts.readings import Checks

FOUND = 0.85
"""Chance that a look shows a fault that is there. Assumption."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """One look.

    Attributes:
        asked: as it is put, to be answered by yes or no; hint: how to look.
        instruction: what to do, where it is advised as the next step by itself.
        shows: the cause a yes speaks for; None where it speaks for none but stands in the way of adjusting.
        place: the place that rocks, where it is one that could rock besides the bearing; it is asked first.
    """

    asked: str
    hint: str = ""
    instruction: str = ""
    shows: str | None = None
    place: str = ""


LOOKS = {
    "freehub_rocks": Look(
        asked="The freehub rocks on the hub",
        hint="Hold the rim still and rock the sprockets.",
        shows="elsewhere",
        place="the freehub",
    ),
    "headset_or_pivots_rock": Look(
        asked="Headset, fork or frame pivots rock",
        hint="Rock the bicycle with the brake on: it is not the hub's if it rocks there too.",
        shows="elsewhere",
        place="headset, fork or frame pivots",
    ),
    "spokes_loose": Look(
        asked="Spokes are loose", hint="Squeeze them in pairs.", shows="elsewhere", place="the spokes"
    ),
    "axle_moves_in_dropouts": Look(
        asked="The axle moves in the dropouts",
        hint="Watch the axle end while somebody rocks the rim.",
        shows="elsewhere",
        place="the axle in the dropouts",
    ),
    "far_side_unlocked": Look(
        asked="The far side is unlocked",
        hint="Cone and locknut of the side not worked on must not turn against each other.",
        place="the locknut of the far side",
    ),
    "axle_wobbles": Look(
        asked="The axle wobbles, rolled on a flat plate",
        instruction="roll the axle on a flat plate",
        shows="bent",
    ),
    "track_dented": Look(
        asked="A ball-point tip finds dents or pits in a race",
        instruction="feel the races with a ball-point tip",
        shows="dented",
    ),
    "cone_rocks_on_thread": Look(
        asked="The unlocked cone rocks on its thread, or the locknut will not tighten",
        instruction="rock the unlocked cone on its thread",
        shows="worn_thread",
    ),
    "cup_moves_in_shell": Look(
        asked="A cup turns in its shell, or has crept along it",
        hint="Hold the shell and try to turn the bare cup by thumb; look for a bright edge beside it.",
        instruction="try whether a cup turns in its shell",
        shows="loose_cup",
    ),
}
"""Every look by its field of `Checks`."""

ASKED_FIRST = {name: look for name, look in LOOKS.items() if look.place}
"""Looks at what else could rock."""

ELSEWHERE = {name: look.place for name, look in ASKED_FIRST.items() if look.shows == "elsewhere"}
"""Places other than the bearing from which play at the rim may come, each with its look."""

MARKS = {name: look for name, look in LOOKS.items() if not look.place}
"""Looks at one part, taken apart."""


def chance_of_checks(checks: Checks, cause: str, beliefs: Beliefs) -> float:
    """Return the chance of the answers given, if a `cause` is the matter."""
    chance = 1.0
    for name, look in MARKS.items():
        chance *= chance_of_answer(getattr(checks, name), FOUND if cause == look.shows else beliefs.slip)
    if cause != "elsewhere":
        return chance * _no_place(checks, beliefs)
    return chance * float(np.mean([place_chance(checks, place, beliefs) for place in ELSEWHERE]))


def place_chance(checks: Checks, place: str, beliefs: Beliefs) -> float:
    """Return the chance of the answers about freehub, headset and so on if the play comes from one `place`."""
    return float(
        np.prod(
            [
                chance_of_answer(getattr(checks, name), FOUND if name == place else beliefs.slip)
                for name in ELSEWHERE
            ]
        )
    )


def _no_place(checks: Checks, beliefs: Beliefs) -> float:
    return float(np.prod([chance_of_answer(getattr(checks, name), beliefs.slip) for name in ELSEWHERE]))


def chance_of_answer(answer: str | None, yes: float) -> float:
    """Return the chance of an answer whose chance of a yes is `yes`; 1 where nobody looked."""
    return 1.0 if answer is None else yes if answer == "yes" else 1 - yes
