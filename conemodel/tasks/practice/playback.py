"""Acts at the bench as text, and the bench that comes of playing them back from its start.

Every number drawn at the bench hangs on its keys alone, so the same acts give the same bench and the same log. Each act
is kept with what it was answered by; where the program answers otherwise now, the bench is not taken for the same.
"""

import json
from collections.abc import Iterable
from dataclasses import asdict, fields
from hashlib import sha256
from typing import Any, NamedTuple

from pydantic import TypeAdapter, ValidationError

from conemodel.base.errors import ConemodelError
from conemodel.tasks.practice.actions import ACTIONS, Action
from conemodel.tasks.practice.actions.cone import PINCHED
from conemodel.tasks.practice.apply import act
from conemodel.tasks.practice.session import Bench

_READERS: dict[str, TypeAdapter[Action]] = {name: TypeAdapter(kind) for name, kind in ACTIONS.items()}


class CannotPlayBack(ConemodelError):
    """Acts that do not lead back to the bench they were made at; the message says which and why."""


class PlayedAct(NamedTuple):
    """One act that was tried at the bench, and what it was answered by."""

    act: str
    told: str


REWORDED = {"The balls are pinched.": PINCHED}
"""What was told once in other words, so that what was kept with them is played back all the same."""


def write_act(action: Action) -> str:
    """Return an act as text that `read_act` reads back to an equal one.

    >>> from conemodel.tasks.practice.actions import TurnCone
    >>> write_act(TurnCone(0.1))
    '{"act": "TurnCone", "angle": 0.1}'
    """
    return json.dumps({"act": type(action).__name__, **asdict(action)})  # type: ignore[call-overload]


def read_act(text: str) -> Action:
    """Return the act in a text.

    Raises:
        CannotPlayBack: it is none that can be done here.
    """
    try:
        values: dict[str, Any] = json.loads(text)
        name = values.pop("act")
        if set(values) != {field.name for field in fields(ACTIONS[name])}:  # type: ignore[arg-type]
            raise CannotPlayBack(f"“{name}” is chosen by other things now")
        return _READERS[name].validate_python(values)
    except (ValueError, KeyError, TypeError, AttributeError, ValidationError) as error:
        raise CannotPlayBack(f"“{text[:60]}” is nothing that can be done at this bench") from error


def proof_of(start: Bench) -> str:
    """Return a word by which the start of a bench is known again; it gives no hidden number away."""
    drawn = [(hub.key, f"{hub.start.cone:.6e}", f"{hub.start.shown:.6e}") for hub in start.hidden]
    return sha256(repr(drawn).encode()).hexdigest()[:16]


def play_back(start: Bench, acts: Iterable[PlayedAct]) -> Bench:
    """Return the bench after acts, in order, from its start.

    Raises:
        CannotPlayBack: an act is none, or is answered otherwise than it was.
    """
    bench = start
    for number, (text, told) in enumerate(acts, start=1):
        try:
            bench = act(bench, read_act(text))
        except CannotPlayBack as error:
            raise CannotPlayBack(f"act {number}: {error}") from error
        if bench.log[-1].told != REWORDED.get(told, told):
            raise CannotPlayBack(f"act {number} is answered otherwise now: the program has changed since")
    return bench
