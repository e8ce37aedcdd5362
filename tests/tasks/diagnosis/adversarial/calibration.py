"""What trials come to: how often the interval holds, how wide it is, what is advised and how that ends."""

from dataclasses import dataclass

import numpy as np

from tests.tasks.diagnosis.adversarial.trial import Outcome

BANDS = ((0.0, 0.5), (0.5, 0.8), (0.8, 1.0))
"""Bands of the chance that is promised with a turn."""


@dataclass(frozen=True, kw_only=True)
class Band:
    """Advised turns whose promised chance lies in one band: how many, the mean promised, the share that ended right."""

    turns: int
    promised: float
    achieved: float


@dataclass(frozen=True, kw_only=True)
class Calibration:
    """Shares over trials.

    Attributes:
        hubs: how many; answered: with an interval of closed end play.
        covered: of those, with the truth in it; width: median of the intervals [m].
        turned: of hubs that were not right, with a turn advised; left: of all, told to be left alone.
        right, tight: of advised turns, ended so; left_right: of hubs left alone, were right.
        accused: of sound hubs, with a clamp told not to clamp.
        bands: of advised turns, by what was promised.
    """

    hubs: int
    answered: float
    covered: float
    width: float
    turned: float
    left: float
    right: float
    tight: float
    left_right: float
    accused: float
    bands: tuple[Band, ...]


def calibrate(outcomes: list[Outcome]) -> Calibration:
    """Return the shares over trials."""
    answered = [each for each in outcomes if each.interval is not None]
    turned = [each for each in outcomes if each.advice == "turn"]
    wrong = [each for each in outcomes if each.before != "right"]
    left = [each for each in outcomes if each.advice == "leave"]
    return Calibration(
        hubs=len(outcomes),
        answered=len(answered) / len(outcomes),
        covered=_share([each.covered for each in answered]),
        width=float(np.median([each.interval[1] - each.interval[0] for each in answered if each.interval])),
        turned=_share([each.advice == "turn" for each in wrong]),
        left=len(left) / len(outcomes),
        right=_share([each.after == "right" for each in turned]),
        tight=_share([each.after == "tight" for each in turned]),
        left_right=_share([each.after == "right" for each in left]),
        accused=_share([each.accused for each in outcomes if each.sound]),
        bands=tuple(_band(turned, low, high) for low, high in BANDS),
    )


def _band(turned: list[Outcome], low: float, high: float) -> Band:
    within = [each for each in turned if low <= each.promised < high or each.promised == high == 1.0]
    return Band(
        turns=len(within),
        promised=_share([each.promised for each in within]),
        achieved=_share([each.after == "right" for each in within]),
    )


def _share(of: list[bool] | list[float]) -> float:
    """Return the mean, nan of none."""
    return float(np.mean(of)) if of else float("nan")


def line_of(name: str, found: Calibration) -> str:
    """Return a calibration as a line under `HEADING`."""
    bands = "   ".join(
        f"{100 * band.promised:3.0f} v {100 * band.achieved:3.0f} ({band.turns})" for band in found.bands
    )
    shares = (
        found.covered,
        found.answered,
        found.turned,
        found.left,
        found.left_right,
        found.right,
        found.tight,
    )
    told = " ".join(f"{100 * share:8.0f}" for share in shares)
    return f"{name:24}{1e6 * found.width:8.1f} {told} {100 * found.accused:8.0f}   {bands}"


HEADING = (
    f"{'':24}{'width/um':>8} "
    + " ".join(
        f"{word:>8}"
        for word in ("cover", "answer", "turned", "left", "of these", "right", "tight", "accused")
    )
    + "   promised v achieved % (turns)"
)
