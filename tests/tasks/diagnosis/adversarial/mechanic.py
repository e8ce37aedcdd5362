"""The mechanic: a gauge that errs, a hand that pushes, a wheel that gives, words by thresholds that drift.

Nothing here is imported from the package. SI throughout.
"""

from dataclasses import dataclass

import numpy as np

from tests.tasks.diagnosis.adversarial.hub import Hub
from tests.tasks.diagnosis.adversarial.looks import CLAMPS, Look

GAUGE = 0.02e-3
"""Most that a gauge errs either way [m]: an even range, as every other that is given so."""

DIVISION = 0.01e-3
"""A gauge is read to this [m]."""

HAND_FACTOR, KEPT = 1.4, 0.7
"""How far a hand's threshold is from a usual hand's, and how much of that is still so at the next look."""

FELT = {"rim": (0.1e-3, 0.3e-3), "axle end": (0.05e-3, 0.15e-3)}
"""Free play from which a usual hand says slight, and clear [m]."""

HARDER = {0.0: 5.0, 2.0: 6.0, 5.0: 15.0}
"""The second push of a mechanic who reads at two [N], by the first: three times as hard where there is one."""


@dataclass(frozen=True, kw_only=True)
class Found:
    """What a mechanic found at one look.

    Attributes:
        push: each way at the rim [N].
        rim, harder, along: gauge readings by how the clamp stands [m]: at the rim under both pushes, along the axle.
        rim_word, axle_end_word, turns: words by how the clamp stands.
    """

    push: float
    rim: dict[str, float]
    harder: dict[str, float]
    along: dict[str, float]
    rim_word: dict[str, str]
    axle_end_word: dict[str, str]
    turns: dict[str, str]


def find(hub: Hub, number: int, looks: list[Look], push: float, dice: np.random.Generator) -> list[Found]:
    """Return what is found at each look on `hub`, the looks' `number`, rocked with `push` [N] each way."""
    drift = dice.standard_normal()
    found = []
    for look in looks:
        hand = HAND_FACTOR**drift
        found.append(_find_once(hub, number, look, push, hand, dice))
        drift = KEPT * drift + np.sqrt(1 - KEPT**2) * dice.standard_normal()
    return found


def _find_once(
    hub: Hub, number: int, look: Look, push: float, hand: float, dice: np.random.Generator
) -> Found:
    """Return what is found at one look; `hand` is its threshold over a usual hand's."""
    beside = {"open": 0.0, "closed": hub.elsewhere}

    def rocked(force: float) -> dict[str, float]:
        flex = 2 * force / hub.wheel
        return {c: _read(look.rim[c, force][number] + beside[c] + flex, dice) for c in CLAMPS}

    return Found(
        push=push,
        rim=rocked(push),
        harder=rocked(HARDER[push]),
        along={c: _read(look.along[c, push][number], dice) for c in CLAMPS},
        rim_word={c: _say("rim", look.rim[c, 0.0][number] + beside[c], hand) for c in CLAMPS},
        axle_end_word={c: _say("axle end", look.axle_end[c][number], hand) for c in CLAMPS},
        turns={c: look.torque[c].word(number, hand) for c in CLAMPS},
    )


def _read(moved: float, dice: np.random.Generator) -> float:
    """Return what a gauge shows of a movement [m]."""
    shown = moved + dice.uniform(-GAUGE, GAUGE)
    return max(round(shown / DIVISION), 0) * DIVISION


def _say(place: str, play: float, hand: float) -> str:
    """Return the word for a free play [m] at a place."""
    felt, clear = (hand * least for least in FELT[place])
    return "clear" if play >= clear else "slight" if play > felt else "none"
