"""A scripted player at a bench in a browser: the players' own rules, with hands and eyes on the page.

What has a gesture is done by it; what is a button beside the bench is done as that button does it. What was felt is
read off the picture alone.
"""

from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from math import exp, expm1, log, radians
from unittest.mock import patch

import numpy as np
from playwright.sync_api import Page

from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.hidden_hub import reference
from conemodel.tasks.practice.session import Bench
from conemodel.ui.practice.bench import HOLDS
from conemodel.ui.widgets.contract_twirl import TwirlHand
from tests.browser.bench_inputs import input_by
from tests.browser.own_bench import OwnBench
from tests.tasks.practice import namers, players
from tests.tasks.practice.hands import OFTEN, Hand, hardest_right, known
from tests.tasks.practice.inputs import By
from tests.tasks.practice.namers import lines

FINGERS = TwirlHand()
LEAST = 1e-4
"""The least torque that is made anything of [N·m], as at the model."""

LEAST_TURN = radians(0.5)
"""A turn that keys do not make at all."""

LETTERS = {hold.name: (hold.words, hold.key) for hold in HOLDS}


class PagePlayer:
    """Hands and eyes at one bench, by one input.

    Before, a hub of the kind that is known to be tight was rocked: so far goes a rim that has no play.
    """

    def __init__(self, page: Page, bench: Bench, by: By) -> None:
        beside = reference(bench.exercise.replace(assessed=False), "tight")
        self.springs = input_by(by, OwnBench(page, beside, "beside")).rock()
        page.evaluate("received()")
        self.own = OwnBench(page, bench, "mine")
        self.hand = input_by(by, self.own)
        self.gone_round: set[tuple[int, int]] = set()

    def do(self, bench: Bench, *actions: a.Action) -> Bench:
        """Do acts at the page's bench, which is the one that is given."""
        assert bench is self.own.bench
        for action in actions:
            self._do(action)
        return self.own.bench

    def feel(self, bench: Bench, *, twirl: bool = True, often: int = OFTEN) -> tuple[Bench, Hand]:
        """Rock and twirl, and mean what was seen."""
        play, drag = [], []
        for _ in range(often):
            play.append(self._rock())
            if twirl:
                drag.append(log(max(self._twirl(), LEAST)))
        name = bench.exercise.scenario
        mean = exp(np.mean(drag)) if drag else 0.0
        return self.own.bench, Hand(known(name), float(np.mean(play)), mean, hardest_right(name), Counter())

    def read(self, _: Bench, since: int) -> str:
        """Read all that stands on the bench and in its log."""
        return f"{self.own.page.locator('.whole-bench').inner_text()} {lines(self.own.bench, since)}"

    def _rock(self) -> float:
        swing = self.hand.rock()
        self.own.take()
        return swing - self.springs

    def _twirl(self) -> float:
        """Twirl, right round where this hub was not yet; the torque that fingers give so much to [N·m]."""
        state = self.own.bench.current, self.own.stand.set_of("twirl")
        lag = self.hand.twirl(again=state in self.gone_round)
        self.gone_round.add(state)
        self.own.take()
        return FINGERS.firm * expm1(lag / FINGERS.give)

    def _do(self, action: a.Action) -> None:
        hub, hand = self.own.bench.hub, self.hand
        match action:
            case a.Rock():
                self._rock()
            case a.Twirl():
                self._twirl()
            case a.HoldAxle(by) if by != hub.axle_held:
                self._lay_on(hub.axle_held if by == "nothing" else by)
            case a.HoldCone(held) if held != hub.cone_held:
                self._lay_on("cone")
            case a.TurnCone(angle) if abs(angle - hub.shown) > LEAST_TURN:
                hand.turn(angle - hub.shown)
                self.own.take()
            case a.Undo():
                hand.undo()
                self.own.take()
            case a.Tighten("firm"):
                hand.tighten()
                self.own.take()
            case a.OpenClamp() | a.CloseClamp():
                hand.throw_lever()
                self.own.take()
            case a.HoldAxle() | a.HoldCone() | a.TurnCone():
                pass  # it is so already
            case _:
                self.own.do(action)

    def _lay_on(self, what: str) -> None:
        self.hand.lay_on(*LETTERS[what])
        self.own.take()


@contextmanager
def at_the_page(player: PagePlayer) -> Iterator[Bench]:
    """Let the scripted players act and feel there; the bench they begin with."""
    with (
        patch.multiple(players, do=player.do, feel=player.feel),
        patch.multiple(namers, do=player.do, feel=player.feel, lines=player.read),
    ):
        yield player.own.bench
