"""What can be done at the practice bench: one class for each action, and the list of them all."""

from conemodel.tasks.practice.actions.action import Action
from conemodel.tasks.practice.actions.answers import Answer, Finish
from conemodel.tasks.practice.actions.bench_order import Take, TakeBack
from conemodel.tasks.practice.actions.clamp import CloseClamp, FitClamp, OpenClamp
from conemodel.tasks.practice.actions.cone import Mark, ScrewIn, TurnCone, Wiggle
from conemodel.tasks.practice.actions.feel import Rock, Spin, TurnAxle, TurnWheel, Twirl
from conemodel.tasks.practice.actions.holding import HoldAxle, HoldCone
from conemodel.tasks.practice.actions.judge import InWords, Judge
from conemodel.tasks.practice.actions.locknut import RunUp, Tighten, Trim, Undo
from conemodel.tasks.practice.actions.look import Look, PutRight

__all__ = [
    "ACTIONS",
    "Action",
    "Answer",
    "CloseClamp",
    "Finish",
    "FitClamp",
    "HoldAxle",
    "HoldCone",
    "InWords",
    "Judge",
    "Look",
    "Mark",
    "OpenClamp",
    "PutRight",
    "Rock",
    "RunUp",
    "ScrewIn",
    "Spin",
    "Take",
    "TakeBack",
    "Tighten",
    "Trim",
    "TurnAxle",
    "TurnCone",
    "TurnWheel",
    "Twirl",
    "Undo",
    "Wiggle",
]

_KINDS: tuple[type[Action], ...] = (
    Take,
    ScrewIn,
    TurnCone,
    Mark,
    Wiggle,
    HoldAxle,
    HoldCone,
    RunUp,
    Tighten,
    Undo,
    Trim,
    TurnWheel,
    TurnAxle,
    Rock,
    Twirl,
    Spin,
    FitClamp,
    CloseClamp,
    OpenClamp,
    Look,
    PutRight,
    Judge,
    InWords,
    Answer,
    Finish,
    TakeBack,
)

ACTIONS: dict[str, type[Action]] = {kind.__name__: kind for kind in _KINDS}
"""Every action by the name the log has for it; their buttons stand on the page in this order."""
