"""Up-down staircases on the simulated hands: where they settle is published, whatever the hand.

[Levitt1971], table I: one down after two right answers and up after one wrong settles at 70.7 %, after three right at
79.4 % (quoted from memory; each is the root at which both ways are as likely, 0.5^(1/2) and 0.5^(1/3)).
C. Kaernbach, Simple adaptive testing with the weighted up-down method, 1991: a step up three times the step down
settles at 75 % (abstract seen: any point, by unequal steps; p times down is 1 - p times up). They hold for steps small
beside the spread (M. A. García-Pérez, Forced-choice staircases with fixed step sizes, 1998, abstract seen).
"""

from random import Random

import numpy as np
import pytest

from conemodel.tasks.hand.psychometric import TOLD, TOLD_SPREADS, chance_of_second
from tests.tasks.hand.observer import Observer

STEP = 0.05
"""Of the spread of a pair."""


def settle(observer: Observer, *, rights: int, up: float, trials: int = 30_000) -> float:
    """Return the mean difference at which a staircase moves, in the measure of the hand, its first tenth left out."""
    side, spread = Random(2), observer.look * 2**0.5
    size, run, seen = spread, 0, []
    for _ in range(trials):
        second_has_more = side.random() < 0.5
        first, second = (0.0, size) if second_has_more else (size, 0.0)
        right = observer.calls_second(first, second) == second_has_more
        run = run + 1 if right else 0
        if not right:
            size += up * STEP * spread
        elif run == rights:
            size, run = max(size - STEP * spread, 0.0), 0
        seen.append(size)
    return float(np.mean(seen[trials // 10 :]))


@pytest.mark.parametrize(
    ("rights", "up", "settles"),
    [(2, 1.0, 0.7071), (3, 1.0, 0.7937), (1, 3.0, 0.75)],
    ids=["Levitt, two down one up", "Levitt, three down one up", "Kaernbach, one to three"],
)
def test_a_staircase_settles_where_the_psychometric_function_has_its_published_share(rights, up, settles):
    observer = Observer(look=0.4, draw=Random(3))
    at = settle(observer, rights=rights, up=up)
    share = chance_of_second(difference=at, spread=observer.look * 2**0.5, lean=0.0, lapse=0.0)
    # 30,000 trials leave some 0.003; the steps' own shift is of that size
    assert float(share) == pytest.approx(settles, abs=0.012)


def test_the_threshold_is_where_kaernbachs_staircase_settles():
    observer = Observer(look=0.4, draw=Random(4))
    assert settle(observer, rights=1, up=3.0) == pytest.approx(TOLD_SPREADS * 0.4 * 2**0.5, rel=0.05)
    assert float(chance_of_second(difference=TOLD_SPREADS, spread=1.0, lean=0.0, lapse=0.0)) == TOLD
