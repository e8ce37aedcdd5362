"""Attempts of somebody who does anything at all at the bench, from a seed, with what each act did to which hub.

It keeps its own record of acts, beside the bench's log, so that what is said of an attempt can be held against it.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from math import radians
from random import Random
from typing import get_args

from conemodel.parts.setting import AxleHeld, ClampSeat, Technique
from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.actions.judge import Sure
from conemodel.tasks.practice.apply import act
from conemodel.tasks.practice.hub_terms import end_play_of, in_frame, window_for
from conemodel.tasks.practice.questions import QUESTIONS, right_answer
from conemodel.tasks.practice.session import Bench, HubState


@dataclass(frozen=True)
class Step:
    """One act that was done: the hub it was done to, before and after, and what was answered."""

    action: a.Action
    hub: int
    before: HubState
    after: HubState
    told: str


@dataclass
class Attempt:
    """A bench, and every act on it that was not refused or taken back."""

    bench: Bench
    steps: list[Step] = field(default_factory=list)

    def do(self, action: a.Action) -> None:
        before, number = self.bench.hub, self.bench.current
        self.bench = act(self.bench, action)
        event = self.bench.log[-1]
        if event.refused or isinstance(action, a.Take | a.InWords):
            return
        if isinstance(action, a.TakeBack):
            self.steps.pop()
        else:
            self.steps.append(Step(action, number, before, self.bench.hub, event.told))

    def do_all(self, way: "Way", chance: Random) -> None:
        for action in way(self, chance):
            self.do(action)


def attempt(bench: Bench, chance: Random) -> Attempt:
    """Return an attempt at every hub of an exercise, to its last word."""
    made = Attempt(bench)
    for number in range(len(bench.hubs)):
        made.do(a.Take(number))
        for _ in range(chance.randrange(2, 9)):
            made.do_all(chance.choice(_WAYS), chance)
        if chance.random() < 0.7:
            made.do_all(_with_some_care, chance)
        for question in bench.exercise.questions:
            right = right_answer(bench.hidden[number], question)
            word = right if chance.random() < 0.8 else chance.choice(QUESTIONS[question].answers)
            made.do(a.Answer(question, word))
        made.do(a.Finish(refuse=chance.random() < 0.05))
    return made


Acts = Iterator[a.Action]
Way = Callable[[Attempt, Random], Acts]


def _with_some_care(made: Attempt, chance: Random) -> Acts:
    """Somebody who mostly does what was taught, and leaves out a thing now and then."""

    def seldom() -> bool:
        return chance.random() < 0.15

    for sight in ("protrusion", "balls"):
        yield from () if seldom() else (a.Look(sight),)
    yield from () if made.bench.hub.lock and chance.random() < 0.3 else _aim(made, chance, wide=0.3)
    if not seldom():
        yield from (a.HoldAxle("nothing"), a.FitClamp("spacers on locknuts"), a.CloseClamp())
    for felt in (a.Rock(), a.Twirl(full_turn=not seldom()), a.OpenClamp(), a.Rock()):
        yield from () if seldom() else (felt,)
    if made.bench.exercise.rides or seldom():
        yield from (a.OpenClamp(), a.FitClamp("dropouts"), a.CloseClamp(), a.PutRight("brake"))
    yield from () if seldom() else (a.Rock(),)


def _hold(_: Attempt, chance: Random) -> Acts:
    yield a.HoldAxle(chance.choice(get_args(AxleHeld)))
    yield a.HoldCone(chance.random() < 0.7)


def _lock(made: Attempt, chance: Random) -> Acts:
    yield a.OpenClamp()
    yield a.HoldAxle(chance.choice(("vice", "vice", "far spanners")))
    yield a.HoldCone(chance.random() < 0.7)
    yield a.Undo()
    yield a.ScrewIn()
    yield a.TurnCone(made.bench.hub.shown + radians(chance.uniform(-20, 180)))
    yield _tighten(chance)


def _tighten(chance: Random) -> a.Action:
    techniques: tuple[Technique, ...] = ("nut turned", "nut turned", "nut turned", "cone turned out", "both")
    return a.Tighten(chance.choice(("light", "firm", "hard")), chance.choice(techniques))


def _aim(made: Attempt, chance: Random, *, wide: float = 1.1) -> Acts:
    """Somebody lucky: to somewhere near the good range, by what nobody can know."""
    bench = made.bench
    if bench.hub.lock is None:
        yield from _lock(made, chance)
    secret, hub = made.bench.secret, made.bench.hub
    window = window_for(secret, hub)
    wanted = window.tight_edge + chance.uniform(0.5 - wide, 0.5 + wide) * window.width
    turn = (wanted - end_play_of(secret, in_frame(secret, hub))) / secret.scenario.axle.lead_per_radian
    if chance.random() < 0.5:
        yield a.Mark()
    yield a.OpenClamp()
    yield a.HoldAxle("vice")
    yield a.HoldCone(chance.random() < 0.9)
    yield a.Undo()
    yield a.TurnCone(made.bench.hub.shown + turn + radians(3))
    yield a.Tighten()


def _clamp(_: Attempt, chance: Random) -> Acts:
    seats: tuple[ClampSeat | None, ...] = (
        None,
        "dropouts",
        "dropouts",
        "spacers on locknuts",
        "spacer on axle end",
    )
    yield a.HoldAxle("nothing")
    yield a.OpenClamp()
    yield a.FitClamp(chance.choice(seats))
    yield a.CloseClamp()


def _check(_: Attempt, chance: Random) -> Acts:
    yield a.HoldAxle("nothing")
    yield a.OpenClamp()
    yield a.FitClamp("spacers on locknuts")
    yield a.CloseClamp()
    yield a.Rock()
    yield a.Twirl()


def _feel(_: Attempt, chance: Random) -> Acts:
    ways = (a.Rock(), a.Rock("axle end"), a.Twirl(), a.Twirl(full_turn=False), a.TurnWheel(), a.Spin())
    yield from chance.sample(ways, chance.randrange(1, 4))


def _say(_: Attempt, chance: Random) -> Acts:
    yield a.Judge(chance.uniform(-1, 1), chance.choice(get_args(Sure)))
    if chance.random() < 0.2:
        yield a.InWords(chance.random() < 0.5)


def _open(_: Attempt, chance: Random) -> Acts:
    yield a.OpenClamp()


def _trim(_: Attempt, chance: Random) -> Acts:
    yield from (a.HoldAxle("far spanners"), a.HoldCone(), a.Trim(radians(chance.uniform(-12, 12))))
    yield a.HoldAxle("nothing")


def _look(_: Attempt, chance: Random) -> Acts:
    yield a.Look(chance.choice(("protrusion", "balls", "brake")))


def _put_right(_: Attempt, chance: Random) -> Acts:
    yield a.OpenClamp()
    if chance.random() < 0.5:
        yield from (a.FitClamp(None), a.HoldAxle("vice"), a.Undo(), a.PutRight("axle"), a.PutRight("balls"))
        yield from (a.Look("protrusion"), a.Look("balls"))
    yield a.PutRight("brake")


def _back(_: Attempt, chance: Random) -> Acts:
    yield a.TakeBack()


def _mark(_: Attempt, chance: Random) -> Acts:
    yield a.Mark()


_WAYS = (
    _hold,
    _lock,
    _aim,
    _aim,
    _clamp,
    _clamp,
    _check,
    _check,
    _feel,
    _feel,
    _say,
    _open,
    _trim,
    _look,
    _put_right,
    _back,
    _mark,
)


def open_end_play(made: Attempt, number: int, hub: HubState) -> float:
    """Return the end play of a hub with no clamp on it [m]."""
    return end_play_of(made.bench.hidden[number], replace(hub, closed=False, seat=None))
