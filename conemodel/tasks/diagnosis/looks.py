"""Looks that need no measuring: what each shows, how sure, how it is asked. One entry for each answer of `Checks`."""

from dataclasses import dataclass

import numpy as np

from conemodel.parts.checks import Checks
from conemodel.parts.priors import Beliefs

FOUND = 0.85
"""Chance that a look shows a fault that is there. Assumption."""

FREEHUBS_ROCK = 0.7
"""Share of sound wheels whose freehub rocks a little. Assumption; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Inspection:
    """One look.

    Attributes:
        asked: as it is put, to be answered by yes or no; hint: how to look.
        instruction: what to do, where it is advised as the next step by itself.
        shows: the cause a yes speaks for; None where it speaks for none.
        place: the place that rocks, where it is one that could rock besides the bearing; it is asked first.
        stop: what was found, in the largest words: a yes is a fault whatever was felt. Empty where it is none.
        advice: what to do about that; the cause's where left out.
        usual: chance of a yes where nothing is the matter; a slip of the eye where left out.
    """

    asked: str
    hint: str = ""
    instruction: str = ""
    shows: str | None = None
    place: str = ""
    stop: str = ""
    advice: str = ""
    usual: float | None = None


LOOKS = {
    "freehub_rocks": Inspection(
        asked="The freehub rocks on the hub",
        hint="Hold the rim still and rock the sprockets. Nearly every one rocks a little: that alone is no fault.",
        shows="elsewhere",
        place="the freehub",
        usual=FREEHUBS_ROCK,
    ),
    "headset_or_pivots_rock": Inspection(
        asked="Headset, fork or frame pivots rock",
        hint="Rock the bicycle with the brake on: it is not the hub's if it rocks there too.",
        shows="elsewhere",
        place="headset, fork or frame pivots",
    ),
    "spokes_loose": Inspection(
        asked="Spokes are loose", hint="Squeeze them in pairs.", shows="elsewhere", place="the spokes"
    ),
    "axle_moves_in_dropouts": Inspection(
        asked="The axle moves in the dropouts",
        hint="Watch the axle end while somebody rocks the rim.",
        shows="elsewhere",
        place="the axle in the dropouts",
    ),
    "far_side_unlocked": Inspection(
        asked="The far side is unlocked",
        hint="Cone and locknut of the side not worked on must not turn against each other.",
        shows="creeping",
        place="the locknut of the far side",
        stop="Far side unlocked",
        advice="The axle turns in it, so no turn of the cone counts: lock it hard first, then feel again.",
    ),
    "axle_wobbles": Inspection(
        asked="The axle wobbles, rolled on a flat plate",
        instruction="roll the axle on a flat plate",
        shows="bent",
        stop="Bent axle",
    ),
    "axle_broken": Inspection(
        asked="The axle is cracked or broken",
        hint="Draw the rod and pull both ends apart; look at the roots of the thread beside the cones.",
        instruction="see that the axle is whole",
        shows="broken_axle",
        stop="Broken axle",
    ),
    "hub_cracked": Inspection(
        asked="A flange or the shell is cracked",
        hint="Look round every spoke hole and beside the cups.",
        instruction="look round the spoke holes and the shell for cracks",
        shows="cracked_hub",
        stop="Cracked hub",
    ),
    "track_dented": Inspection(
        asked="A ball-point tip finds dents, pits or flaking in a race",
        instruction="feel the races with a ball-point tip",
        shows="dented",
        stop="Dented or pitted race",
    ),
    "cone_rocks_on_thread": Inspection(
        asked="The cone rocks on its thread, the locknut loose",
        hint="Normal slack: the locknut takes it up. How much is too much, only measuring tells.",
    ),
    "locknut_never_hard": Inspection(
        asked="The locknut never comes up hard",
        hint="Against the held cone it must come to a firm stop; one that goes on turning has a stripped thread.",
        instruction="tighten the locknut against the held cone: it must come up hard",
        shows="worn_thread",
        stop="Locknut will not tighten",
    ),
    "washer_tab_lost": Inspection(
        asked="The keyed washer has lost its tab",
        instruction="see that the keyed washer still has its tab",
        shows="creeping",
        stop="Washer tab lost",
        advice="Nothing keeps the locknut from turning the cone with it. Renew the washer, then adjust.",
    ),
    "cup_moves_in_shell": Inspection(
        asked="A cup turns in its shell, or has crept along it",
        hint="Hold the shell and try to turn the bare cup by thumb; look for a bright edge beside it.",
        instruction="try whether a cup turns in its shell",
        shows="loose_cup",
        stop="Cup loose in the shell",
    ),
    "seal_or_brake_rubs": Inspection(
        asked="A seal, dust cap or the brake rubs",
        hint="Turn the wheel out of the frame, then with the brake open: the drag goes.",
        instruction="see whether a seal, dust cap or brake rubs",
        shows="rubbing",
        stop="A seal or brake rubs",
    ),
}
"""Every look by its field of `Checks`."""

ASKED_FIRST = {name: look for name, look in LOOKS.items() if look.place}
"""Looks at what else could rock."""

ELSEWHERE = {name: look.place for name, look in ASKED_FIRST.items() if look.shows == "elsewhere"}
"""Places other than the bearing from which play at the rim may come, each with its look."""

PARTS = {name: look for name, look in LOOKS.items() if not look.place}
"""Looks at one part, taken apart."""

MARKS = {name: look for name, look in PARTS.items() if look.shows}
"""Those that tell a cause."""


def chance_of_checks(checks: Checks, cause: str, beliefs: Beliefs) -> float:
    """Return the chance of the answers given, if a `cause` is the matter."""
    chance = 1.0
    for name, look in LOOKS.items():
        if look.shows and name not in ELSEWHERE:
            chance *= chance_of_look(checks, name, beliefs, there=look.shows == cause)
    if cause != "elsewhere":
        return chance * place_chance(checks, None, beliefs)
    return chance * float(np.mean([place_chance(checks, place, beliefs) for place in ELSEWHERE]))


def place_chance(checks: Checks, place: str | None, beliefs: Beliefs) -> float:
    """Return the chance of the answers about freehub, headset and so on if the play comes from one `place`, or none."""
    each = [chance_of_look(checks, name, beliefs, there=name == place) for name in ELSEWHERE]
    return float(np.prod(each))


def chance_of_look(checks: Checks, name: str, beliefs: Beliefs, *, there: bool) -> float:
    """Return the chance of the answer to one look, with what it shows `there` or not; 1 where nobody looked."""
    answer, usual = getattr(checks, name), LOOKS[name].usual
    if answer is None:
        return 1.0
    yes = beliefs.slip if usual is None else usual
    if there:
        yes = max(FOUND, yes)
    return yes if answer == "yes" else 1 - yes


def found_by_eye(checks: Checks) -> dict[str, Inspection]:
    """Return the looks that found a fault: each decides, whatever was felt."""
    return {name: look for name, look in LOOKS.items() if look.stop and getattr(checks, name) == "yes"}
