"""An exercise on screen: the bench behind it, and each gesture of the widgets taken once.

The bench with its hidden numbers stays in the session, which is the server's; a page never gets it whole.
"""

import secrets
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from math import isfinite
from typing import Any

import streamlit as st

from conemodel.parts.exercise import Exercise
from conemodel.record.journal import Overtaken
from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.actions.holding import AXLE
from conemodel.tasks.practice.actions.locknut import EFFORTS, TURNED
from conemodel.tasks.practice.apply import act
from conemodel.tasks.practice.catalogue import Link
from conemodel.tasks.practice.marking import ExerciseMark
from conemodel.tasks.practice.session import Bench, Felt, HubState
from conemodel.tasks.practice.widget_data import Feel, feel_of
from conemodel.tasks.wording import CLOCK_MINUTE, clock_minutes
from conemodel.ui.practice.keeping import ELSEWHERE, Keeping

SAME_ANGLE = 1e-6
"""Difference below which the cone stands where its widget left it [rad]."""

BENCH, SPIN = "bench", "spin"
"""The widgets: that on which all of it is done, and the wheel that is spun."""


@dataclass
class Stand:
    """A hub on the bench as one session sees it.

    Attributes:
        name: start of the names of its widgets, its own in the session.
        bench: the state behind it.
        own_words: what was done, by number of the log's line, where the trainee's own gesture says it better.
        handled: the last gesture taken, by widget.
        sets: number of the state each widget shows; it rises when what is felt may have changed.
        keeping: its journal, None for a hub that is only felt; notice: what happened at it from elsewhere.
    """

    name: str
    bench: Bench
    own_words: dict[int, str] = field(default_factory=dict)
    handled: dict[str, int] = field(default_factory=dict)
    sets: dict[str, int] = field(default_factory=lambda: {"feel": 1, "turn": 1})
    keeping: Keeping | None = None
    notice: str = ""
    _feel: tuple[Bench, Feel] | None = field(default=None, repr=False)

    @property
    def feel(self) -> Feel:
        """What the hub can be felt to do now."""
        if self._feel is None or self._feel[0] is not self.bench:
            self._feel = (self.bench, feel_of(self.bench))
        return self._feel[1]

    def key(self, gesture: str) -> str:
        """Return the key of a widget."""
        return f"{self.name} {gesture}"

    def set_of(self, gesture: str) -> int:
        """Return the number of the state a widget shows; what holds or clamps a hub hangs on which it is."""
        if gesture in ("locknut", "lever", "hold", BENCH):
            return self.bench.current + 1
        return self.sets["turn" if gesture == "turn" else "feel"]

    def do(self, action: a.Action, own_words: str | None = None) -> None:
        """Do something at the bench and keep it; when the last word on a hub is said, the next one comes up.

        Where another window did something at it meanwhile, the bench becomes what it is there, and this is not done.
        """
        before, after = self.bench, act(self.bench, action)
        try:
            if self.keeping is not None:
                self.keeping.keep(after, action, own_words)
        except Overtaken as error:
            self._catch_up(error.bench)
            return
        self.bench, self.notice = after, ""
        if own_words is not None:
            self.own_words[len(before.log)] = own_words
        self._count_sets(before, action)
        left = [number for number, hub in enumerate(self.bench.hubs) if hub.done is None]
        if self.bench.hub.done is not None and left and not isinstance(action, a.Take):
            self.do(a.Take(next((n for n in left if n > self.bench.current), left[0])))

    def _catch_up(self, number: int) -> None:
        """Show the bench as another window left it."""
        there = self.keeping.catch_up(number) if self.keeping is not None else None
        if there is not None:
            self.bench, self.own_words = there
            self.notice = ELSEWHERE
        self.sets = {name: state + 1 for name, state in self.sets.items()}

    def _count_sets(self, before: Bench, action: a.Action) -> None:
        if _felt_part(before) != _felt_part(self.bench):
            self.sets["feel"] += 1
        if isinstance(action, a.TurnCone):
            stays = abs(self.bench.hub.shown - action.angle) > SAME_ANGLE
        else:
            stays = _turned_part(before) != _turned_part(self.bench)
        self.sets["turn"] += stays

    def hear(self) -> None:
        """Take every gesture that is new and was made on the hub as it stands.

        What a page brings along to a bench that it finds anew was done before.
        """
        for widget in (SPIN, BENCH):
            state = st.session_state.get(self.key(widget))
            told = (state.get("hand") if state else None) or {}
            self.handled.setdefault(widget, _whole(told, "sequence"))
            for hand in told.get("acts", ()) if widget == BENCH else (told,):
                gesture, number = hand.get("gesture", widget), _whole(hand, "sequence")
                if number <= self.handled[widget]:
                    continue
                self.handled[widget] = number
                if _whole(hand, "set_id") == self.set_of(gesture):
                    self.take(gesture, hand)

    def take(self, gesture: str, hand: Mapping[str, Any]) -> None:
        """Do what a gesture does, as its widget reports it."""
        for action in _actions(gesture, hand):
            words = None
            if isinstance(action, a.TurnCone):
                turned = float(hand.get("turned") or 0.0)
                if isfinite(turned):
                    words = cone_turn_words(turned, stopped=bool(hand.get("stopped")))
            self.do(action, words)


def cone_turn_words(turned: float, *, stopped: bool) -> str:
    """Return what the hand did that turned the cone by an angle [rad]; `stopped`: it wanted further in.

    >>> cone_turn_words(0.21, stopped=False), cone_turn_words(-1e-3, stopped=True)
    ('cone turned out, 2 minutes', 'cone pushed in: it would not turn further')
    """
    way = "out" if turned > 0 else "in"
    if abs(turned) > CLOCK_MINUTE / 4:  # the least turn that the words of the clock tell from zero
        return f"cone turned {way}, {clock_minutes(abs(turned))}"
    return "cone pushed in: it would not turn further" if stopped else f"cone turned {way} by a hair"


def _actions(gesture: str, hand: Mapping[str, Any]) -> Iterator[a.Action]:
    """Yield the actions of a gesture at the bench, none for an unknown one."""
    match gesture:
        case "rim" | "axle end" if _whole(hand, "cycles") > 0:
            yield a.Rock("rim" if gesture == "rim" else "axle end", brisk=bool(hand.get("brisk")))
        case "twirl":
            yield a.Twirl(full_turn=bool(hand.get("full_turn")))
        case "spin" if not hand.get("at_rest"):
            yield a.Spin()
        case "turn":
            angle = hand.get("angle")
            if isinstance(angle, int | float) and isfinite(angle):
                yield a.TurnCone(float(angle))
        case "lever":
            yield a.CloseClamp() if hand.get("close") else a.OpenClamp()
        case "locknut" | "hold":
            yield from held_or_tightened(hand)


def held_or_tightened(hand: Mapping[str, Any]) -> Iterator[a.Action]:
    """Yield what a hand does that is laid on or taken off, or pulls at the locknut; none for what no hand does."""
    what, effort, on = hand.get("what"), hand.get("effort"), bool(hand.get("on"))
    if what == "cone":
        yield a.HoldCone(on)
    elif by := next((by for by in AXLE if by == what), None):
        yield a.HoldAxle(by if on else "nothing")
    elif effort == "undo":
        yield a.Undo()
    elif pulled := next((known for known in EFFORTS if known == effort), None):
        turned = next((known for known in TURNED if known == hand.get("technique")), None)
        yield a.Tighten(pulled, turned or "nut turned")


def _whole(hand: Mapping[str, Any] | None, name: str) -> int:
    value = (hand or {}).get(name)
    return value if isinstance(value, int) else 0


def _felt_part(bench: Bench) -> tuple[int, HubState]:
    """Return the part of the state on which the feel of the hub depends."""
    plain = HubState(cone=0.0, shown=0.0)
    kept = replace(
        bench.hub,
        shown=plain.shown,
        felt=Felt(),
        positions=plain.positions,
        answers=(),
        seen=plain.seen,
        done=None,
        mark=None,
        marked_at=None,
        axle_held=plain.axle_held,
        cone_held=plain.cone_held,
        touched=False,
        acts=0,
        judged=None,
    )
    return bench.current, kept


def _turned_part(bench: Bench) -> tuple[object, ...]:
    """Return the part of the state on which the picture of the cone's clock depends."""
    hub = bench.hub
    return bench.current, hub.shown, hub.mark, hub.locks, hub.trims, hub.lock is None, hub.cone


@dataclass
class Sitting:
    """One exercise taken by one session, from its link to its mark.

    Attributes:
        link: what names it; keeping: its journal; own: the file it came from, if it is not on the ladder.
        stand: the hub on the bench; shelf: reference hubs that were felt, by state.
        marked: its mark, once the last word was said; saved: number of the attempt in the record, or why not.
        resumed_at: after how many acts it was taken up from the journal, None where it was begun here.
    """

    link: Link
    stand: Stand
    keeping: Keeping
    own: Exercise | None = None
    shelf: dict[str, Stand] = field(default_factory=dict)
    marked: ExerciseMark | None = None
    saved: int | str | None = None
    resumed_at: int | None = None

    @property
    def exercise(self) -> Exercise:
        """The exercise."""
        return self.stand.bench.exercise


def fresh_name() -> str:
    """Return a name for the widgets of a hub that no other has, in this session or one that a browser remembers.

    A page that lost its server tells the next one what its widgets last were; that must not be taken for a new gesture.
    """
    return f"bench{secrets.randbelow(10**12)}"
