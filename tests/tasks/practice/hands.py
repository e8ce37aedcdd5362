"""A scripted hand: it feels as often as it likes by what the widgets are given, and reads no word of play or drag."""

from collections import Counter
from dataclasses import dataclass
from functools import lru_cache
from math import exp, log

import numpy as np

from conemodel.parts.felt_play import felt_from
from conemodel.parts.library import SCENARIOS
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.bearing.feel_words import STIFF_LOAD
from conemodel.tasks.practice.actions import Action, Rock, Twirl
from conemodel.tasks.practice.apply import act
from conemodel.tasks.practice.session import Bench
from conemodel.tasks.practice.torque_feel import signature_at
from conemodel.tasks.practice.widget_data import feel_of
from conemodel.tasks.setting.scenario_tables import tables_for

OFTEN = 5
"""How often a hand with full attention feels the same thing."""


def do(bench: Bench, *actions: Action) -> Bench:
    for action in actions:
        bench = act(bench, action)
        assert not bench.log[-1].refused, (bench.exercise.name, bench.log[-1])
    return bench


def said(bench: Bench) -> str:
    return bench.log[-1].told


@lru_cache(maxsize=8)
def known(name: str) -> Scenario:
    """What anyone may know of the hub: its scenario file, with no hidden number."""
    return load_scenario(SCENARIOS / f"{name}.toml")


def lead(bench: Bench) -> float:
    return known(bench.exercise.scenario).axle.lead_per_radian


@lru_cache(maxsize=8)
def hardest_right(name: str) -> float:
    """How hard a hub that is just not stiff turns [N·m], as anyone can compute it: without load, and the limit."""
    return signature_at(known(name), 60).level + STIFF_LOAD


@dataclass(frozen=True)
class Hand:
    """What a hand makes of having felt the same hub several times."""

    scenario: Scenario
    play: float
    drag: float
    hardest: float
    words: Counter[str]

    @property
    def loose(self) -> bool:
        return self.play > felt_from(self.scenario.limits, "rim")

    @property
    def stiff(self) -> bool:
        return self.drag > self.hardest

    @property
    def says(self) -> str:
        return "loose" if self.loose else "tight" if self.stiff else "right"

    @property
    def end_play(self) -> float:
        """The end play that goes with the play felt at the rim [m]."""
        curve = tables_for(self.scenario).rim_play
        return float(np.interp(self.play, curve.height, curve.x))

    def found(self, cue: str) -> bool:
        """Whether the fingers found something more often than not."""
        return sum(times for words, times in self.words.items() if cue in words) > OFTEN / 2


def feel(bench: Bench, *, twirl: bool = True, often: int = OFTEN) -> tuple[Bench, Hand]:
    """Rock and twirl, and mean what was felt."""
    play, drag, words = [], [], Counter[str]()
    for _ in range(often):
        rim = feel_of(bench).rim
        assert rim is not None
        still = [m for m, f in zip(rim.movement, rim.force, strict=True) if f == 0]
        play.append(max(still) - min(still))
        bench = do(bench, Rock())
        if twirl:
            fingers = feel_of(bench).twirl
            assert fingers is not None
            drag.append(log(max(fingers.friction[0], 1e-4)))
            words[fingers.turning] += 1
            bench = do(bench, Twirl())
    name = bench.exercise.scenario
    mean = exp(np.mean(drag)) if drag else 0.0
    return bench, Hand(known(name), float(np.mean(play)), mean, hardest_right(name), words)
