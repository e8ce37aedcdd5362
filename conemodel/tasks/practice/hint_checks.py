"""Hints on what was not felt, seen or held, and on what took too much: by what was done instead."""

from collections.abc import Callable

from conemodel.tasks.practice.actions.obstacles import IN_FRAME
from conemodel.tasks.practice.error_stage import ErrorStage
from conemodel.tasks.practice.history import History

Hint = tuple[ErrorStage, str]

NOT_KNOWN = "It came out right, but you could not know."


def _clamped(history: History) -> Hint:
    if history.since_moved("Rock", clamped=True):
        done = "You rocked it before the clamp was last closed, not after it: rock it again."
    elif history.ever("Rock", clamped=True):
        done = "You rocked it clamped before the last move, not after it: rock it again."
    elif history.ever("Rock", clamped=False):
        done = "You rocked it only open: close the clamp and rock it again."
    else:
        done = "You never rocked it clamped: rock it with the clamp closed, after every move."
    return "not checked", f"{NOT_KNOWN} {done}"


def _twirled(history: History) -> Hint:
    if history.since_moved("Twirl", clamped=True):
        done = "You twirled it less than a full turn: take it once right round."
    elif history.since_moved("Twirl", clamped=False):
        done = "You twirled it only open: close the clamp on spacers and twirl it again."
    elif history.ever("Twirl", clamped=True):
        done = "You twirled it clamped before the last move, not after it: twirl it again."
    else:
        done = "You never twirled it clamped: rocking cannot tell right from too tight."
    frame = " In the frame that cannot be done: take the wheel out and clamp it on spacers."
    return "not checked", f"{NOT_KNOWN} {done}{frame if history.hub.seat in IN_FRAME else ''}"


def _locked(_: History) -> Hint:
    return "not checked", "You said it was done with the locknut loose: tighten it, then feel it all again."


def _refused(_: History) -> Hint:
    return (
        "judged",
        "You refused a hub that can be set: wiggle the loose cone, and refuse only one that rattles.",
    )


def _left_alone(_: History) -> Hint:
    return "judged", (
        "It was right as it came, and you moved the cone: what rocks without free movement, and twirls smooth and not "
        "stiff, is left alone."
    )


def _most_locks(history: History) -> Hint:
    return "touch", (
        f"You tightened it {history.locks} times: feel how far it is off, and turn the cone by that from a pen line."
    )


def _most_moves(history: History) -> Hint:
    return (
        "touch",
        f"You moved the cone {history.moves} times: feel how far it is off first, then make one trim.",
    )


def _open(history: History) -> Hint:
    if history.hub.felt.rocked_open == "none":
        done = "Open it had no play for the clamp to take up."
    elif history.ever("Rock", clamped=False):
        done = "You rocked it open before the last move, and after it only clamped."
    else:
        done = "You rocked it only clamped."
    return "not checked", f"{done} Rock it open first: the play you feel there is what the clamp takes up."


def _drift(history: History) -> Hint:
    last = history.last("Tighten")
    if last is None:
        return (
            "drift",
            "You did not lock it again: undo it, hold the cone with a spanner, and tighten the locknut.",
        )
    if not last.cone_held:
        return (
            "drift",
            "You left the cone free as you locked it: hold it with a spanner, and watch the pen line.",
        )
    return (
        "drift",
        "The cone went in clearly as you locked it: undo it, lean on its spanner, and lock it again.",
    )


def _positions(history: History) -> Hint:
    where = "one position" if len(history.hub.positions) == 1 else f"{len(history.hub.positions)} positions"
    done = f"You felt it in {where} only" if history.hub.positions else "You never felt it"
    return (
        "not checked",
        f"{done}: turn wheel or axle on by a quarter and feel it again, in three places or more.",
    )


def _mark(history: History) -> Hint:
    if history.hub.marked_at is None:
        return "touch", "You drew no pen line: draw it over axle, cone and locknut before you undo anything."
    return (
        "touch",
        "It took you more than two lockings from the pen line: feel how far it is off before you undo it.",
    )


def _axle_ends(history: History) -> Hint:
    changed = history.ever_saw("protrusion")
    done = "You changed the axle and did not look again" if changed else "You never looked at the axle ends"
    return "not checked", f"{done}: see that both ends stand back from the dropouts' outer faces."


def _balls(_: History) -> Hint:
    return "not checked", "You never counted the balls: count them on both sides before the cone goes on."


HINT_CHECK: dict[str, Callable[[History], Hint]] = {
    "refused": _refused,
    "locked": _locked,
    "left alone": _left_alone,
    "clamped": _clamped,
    "twirled": _twirled,
    "locks": _most_locks,
    "moves": _most_moves,
    "play felt open": _open,
    "drift held": _drift,
    "three positions": _positions,
    "from the mark": _mark,
    "protrusion first": _axle_ends,
    "balls counted": _balls,
}
"""What is said of each criterion that is no answer, no turn of the cone."""
