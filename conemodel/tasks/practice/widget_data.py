"""What a hand feels, as curves for the widgets: the least that feeling needs, and no finer than a hand.

Everything here reaches the reader's browser, and whoever reads the page's source can read it there:

- rocking: free travel as this hand feels it this time, in steps of what a hand tells apart; its springy part is
  always that of the same hub just touching, so it says nothing of preload.
- turning, locknut undone: where the balls begin to resist, in whole degrees of cone. That is where first touch
  is, before the hand has gone there. With the locknut tight: nothing.
- twirling and spinning: the level of drag as it is felt this time, in steps of about an eighth, and with a fault its
  course over the turn.
- what is felt is missed by a factor new with every act and one that stays for the sitting (`parts.scatter`): who
  reads the page's source knows no more of the hub than a hand that felt it once.
- the clock: where the cone is seen to stand, in steps an eye can read.
- the picture: the hub of the exercise's own file, sound and its cone just touching (`open_hub`), held as the trainee
  left it.

Not given away: thread fit, clamp force, drift to come, the good range, the state drawn, the key.
"""

from dataclasses import dataclass

from conemodel.tasks.practice.actions import Action, Rock, Spin, Twirl
from conemodel.tasks.practice.apply import why_not
from conemodel.tasks.practice.rock_feel import RockFeel, rock_feel
from conemodel.tasks.practice.session import Bench
from conemodel.tasks.practice.torque_feel import (
    SpinFeel,
    TurnFeel,
    TwirlFeel,
    spin_feel,
    turn_feel,
    twirl_feel,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Feel:
    """What the hub on the bench can be felt to do now; None where it cannot be done, with the reason in `why_not`."""

    rim: RockFeel | None
    axle_end: RockFeel | None
    twirl: TwirlFeel | None
    turn: TurnFeel
    spin: SpinFeel | None
    set_id: int
    why_not: dict[str, str]


def feel_of(bench: Bench) -> Feel:
    """Return everything the widgets need for the hub on the bench, and nothing else of it."""
    secret, hub = bench.secret, bench.hub
    tries: dict[str, Action] = {
        "rim": Rock("rim"),
        "axle end": Rock("axle end"),
        "twirl": Twirl(),
        "spin": Spin(),
    }
    barred = {name: why_not(bench, action) for name, action in tries.items()}
    return Feel(
        rim=None if barred["rim"] else rock_feel(secret, hub, "rim"),
        axle_end=None if barred["axle end"] else rock_feel(secret, hub, "axle end"),
        twirl=None if barred["twirl"] else twirl_feel(secret, hub),
        turn=turn_feel(secret, hub),
        spin=None if barred["spin"] else spin_feel(secret, hub),
        set_id=len(bench.log),
        why_not={name: reason for name, reason in barred.items() if reason},
    )
