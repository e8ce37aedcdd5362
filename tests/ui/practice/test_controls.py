"""A scripted player at the widgets' end: what mouse, touch and keys report leads to the good range equally often.

At the contract between widget and page, not in a browser: 200 hubs for each of three hands would take an hour there.
What each hand can report is what the widget's script sends: pixels of a canvas some 380 px wide, a finger that is
not so fine, keys of six degrees and of one.
"""

from collections.abc import Callable, Iterator
from math import radians
from random import Random

import pytest

from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.catalogue import ladder
from conemodel.tasks.practice.hidden_hub import Given, begin
from conemodel.tasks.practice.marking import mark
from conemodel.tasks.practice.session import Bench
from conemodel.ui.practice.session import Stand
from tests.tasks.practice import players

SEEDS = range(200)
LOCKS = 3
"""One fewer than the exercise allows."""

Strokes = Callable[[float, Random], Iterator[float]]


def mouse(turn: float, _: Random) -> Iterator[float]:
    """Drag, let go, regrip; to a pixel at a third of the canvas's width."""
    yield from _strokes(turn, most=radians(150), step=radians(0.45))


def touch(turn: float, chance: Random) -> Iterator[float]:
    """Shorter strokes; where a finger lets go is off by a pixel or two, which the next stroke does not see."""
    for stroke in _strokes(turn, most=radians(60), step=radians(0.45)):
        yield stroke + radians(chance.uniform(-0.45, 0.45))


def keys(turn: float, _: Random) -> Iterator[float]:
    """Arrow keys: a minute of the clock each, then sixths of a minute."""
    degrees = round(turn / radians(1))
    way = 1 if degrees > 0 else -1
    minutes, rest = divmod(abs(degrees), 6)
    for group in [5] * (minutes // 5) + [minutes % 5]:
        yield way * group * radians(6)
    yield way * rest * radians(1)


def _strokes(turn: float, *, most: float, step: float) -> Iterator[float]:
    left = turn
    while abs(left) > most:
        yield most if left > 0 else -most
        left -= most if left > 0 else -most
    yield round(left / step) * step


def clumsy(turn: float, chance: Random) -> Iterator[float]:
    """A hand that no widget gives: off by up to two minutes of the clock each time."""
    yield turn + radians(chance.uniform(-12.0, 12.0))


class AtTheWidgets:
    """Does at a bench what a player wants, by the gestures that are a widget's and by the buttons that are not."""

    def __init__(self, strokes: Strokes, seed: int) -> None:
        self.strokes, self.chance = strokes, Random(seed)

    def do(self, bench: Bench, *actions: a.Action) -> Bench:
        stand = Stand(name="hand", bench=bench)
        for action in actions:
            if isinstance(action, a.TurnCone):
                for stroke in self.strokes(action.angle - stand.bench.hub.shown, self.chance):
                    angle = stand.bench.hub.shown + stroke
                    stand.take("turn", {"angle": angle, "turned": stroke})
            elif isinstance(action, a.Rock):
                stand.take(action.grip, {"cycles": 2, "knocks": 4, "brisk": action.brisk})
            elif isinstance(action, a.Twirl):
                stand.take("twirl", {"full_turn": action.full_turn})
            else:
                stand.do(action)
            assert not stand.bench.log[-1].refused, stand.bench.log[-1]
        return stand.bench


def rate(strokes: Strokes, seeds: range) -> float:
    """Return the share of hubs of exercise 5 that a hand brings into the good range."""
    exercise, right = ladder()["05-quick-release"], 0
    with pytest.MonkeyPatch.context() as patch:
        for seed in seeds:
            patch.setattr(players, "do", AtTheWidgets(strokes, seed).do)
            bench = begin(exercise, Given(salt="hands", seed=seed, key="k"))
            right += mark(players.adjust(bench, out=115.0, locks=LOCKS)).hubs[0].off_by == 0.0
    return right / len(seeds)


def test_mouse_touch_and_keys_lead_to_the_good_range_equally_often() -> None:
    """Within five points of each other; a clumsy hand is told apart."""
    rates = {strokes.__name__: rate(strokes, SEEDS) for strokes in (mouse, touch, keys)}
    assert max(rates.values()) - min(rates.values()) <= 0.05, rates
    assert rate(clumsy, SEEDS[:60]) < min(rates.values()) - 0.05, rates
