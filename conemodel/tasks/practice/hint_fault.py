"""Hints on what is wrong with a hub: the feeling that tells it where that was left out, else what there was to feel.

How a fault is felt is common practice, no source; that it is so at this bench is held by the tests of its messages.
"""

from typing import NamedTuple

from conemodel.tasks.practice.error_stage import ErrorStage
from conemodel.tasks.practice.history import History
from conemodel.tasks.practice.questions import SOUND, right_answer

Hint = tuple[ErrorStage, str]

ALL_ROUND = 3
"""Positions in which a hub must have been rocked open before its play can be said to come and go."""


class Sign(NamedTuple):
    """How a fault is found: by what; what the hub then does, and what it does without the fault.

    `clamped` is how the clamp must be for it to show, None where that does not matter.
    """

    kind: str
    clamped: bool | None
    there: str
    absent: str


SIGNS = {
    "bent axle": Sign("Twirl", True, "grabs in one place, every turn", "does not grab in one place"),
    "dents": Sign("Twirl", True, "feels notchy", "does not feel notchy"),
    "dry grease": Sign("Twirl", None, "feels dry and scratchy", "does not feel scratchy"),
    "odd ball": Sign(
        "Rock", False, "moves more in one position than in another", "moves alike in all positions"
    ),
}
"""The faults that are asked for."""

EVEN = Sign("Twirl", True, "", "turns evenly all round")
"""How a hub is felt that has none of them, where none was named."""


def hint_fault(history: History) -> Hint:
    """Return the hint on a fault that was named wrong, or not at all.

    What decides is the feeling by which the fault there is would have been known; on a sound hub, the one that would
    have shown that the fault that was named is not there.
    """
    said, true = history.hub.answer("fault"), right_answer(history.secret, "fault")
    sign = SIGNS.get(said or "", EVEN) if true == SOUND else SIGNS[true]
    does = f"{sign.absent}, so {SOUND} is wrong" if true == SOUND else sign.there
    if left_out := (_not_rocked if sign.kind == "Rock" else _not_twirled)(history, sign):
        return "not checked", f"{left_out} This one then {does}."
    begun = f"You said {said}, but" if said else "You gave no answer, but"
    how = {True: "twirled clamped", None: "twirled", False: "rocked open"}[sign.clamped]
    return "judged", f"{begun} {how} it {does}."


def _not_twirled(history: History, sign: Sign) -> str | None:
    """Return how it was not twirled as the sign needs it, and the gesture; None where it was."""
    if history.twirled(clamped=True) or (sign.clamped is None and history.twirled(clamped=False)):
        return None
    if history.ever("Twirl", clamped=True):
        return "You twirled it less than a full turn: take it once right round, clamped."
    if history.ever("Twirl", clamped=False):
        return "You twirled it only open: close the clamp and twirl it a full turn."
    return "You never twirled it: twirl it a full turn, clamped."


def _not_rocked(history: History, _: Sign) -> str | None:
    """Return how it was not rocked open all round, and the gesture; None where it was."""
    places = len(history.places("Rock", clamped=False))
    if places >= ALL_ROUND:
        return None
    done = (
        "You never rocked it open",
        "You rocked it open in one position only",
        "You rocked it open in two only",
    )
    return f"{done[places]}: open the clamp, turn the wheel on by a quarter, rock it, and so all round."
