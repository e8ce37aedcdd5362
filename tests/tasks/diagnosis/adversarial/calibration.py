"""What trials come to, counted: how often the interval holds, how wide it is, what is advised and how that ends."""

import json
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import asdict
from functools import lru_cache
from multiprocessing import get_context

import numpy as np

from conemodel.tasks.validation.calibration import BANDS, KEPT, TOLD, Band, Calibration, Told, Trials
from tests.tasks.diagnosis.adversarial.mechanic import HARDER
from tests.tasks.diagnosis.adversarial.trial import Bench, Outcome, set_up, try_all

UNPUSHED = {"unpushed_width": 16.7e-6, "unpushed_covered": 0.71}
"""Of 300 hubs of seed 1 read without a push before the diagnosis knew of pushes (afa3e7f): the median interval [m], and
the share of them that held the truth."""

PUSHES = tuple(HARDER)


def measure(
    hubs: int, seed: int, *, told: tuple[Told, ...] = TOLD, pushes: tuple[float, ...] = PUSHES, jobs: int = 1
) -> Iterator[Trials]:
    """Yield the trials of each kind: for each push and together, or for every push in turn."""
    cases = [(hubs, seed, tell, those) for tell in told for those in _groups(tell, pushes)]
    with ProcessPoolExecutor(jobs, mp_context=get_context("spawn")) as pool:
        found = pool.map(_outcomes, cases)
        for tell in told:
            groups = {those: next(found) for those in _groups(tell, pushes)}
            if len(groups) > 1:
                yield from (count(outcomes, told=tell, push=one) for (one,), outcomes in groups.items())
            yield count([one for outcomes in groups.values() for one in outcomes], told=tell, push=None)


def _groups(told: Told, pushes: tuple[float, ...]) -> tuple[tuple[float, ...], ...]:
    """Return the pushes tried apart; words are of free play, whatever the push."""
    if told == "words":
        return ((0.0,),)
    return tuple((push,) for push in pushes) if told in ("nothing", "push") else (pushes,)


def _outcomes(case: tuple[int, int, Told, tuple[float, ...]]) -> list[Outcome]:
    hubs, seed, told, pushes = case
    return try_all(_bench(hubs, seed), pushes=pushes, told=told)


@lru_cache(maxsize=1)
def _bench(hubs: int, seed: int) -> Bench:
    return set_up(hubs, seed)


def calibration_of(trials: list[Trials], *, hubs: int, seed: int) -> Calibration:
    """Return trials with what they were made of."""
    return Calibration(seed=seed, hubs=hubs, **UNPUSHED, trials=tuple(trials))


def keep(found: Calibration) -> None:
    """Write the counts where the page reads them, to the digits they are known to."""
    kept = json.dumps(asdict(found), indent=1, allow_nan=False)
    KEPT.write_text(kept + "\n", encoding="utf-8")


def count(outcomes: list[Outcome], *, told: Told, push: float | None) -> Trials:
    """Return the shares over trials."""
    answered = [each for each in outcomes if each.interval is not None]
    turned = [each for each in outcomes if each.advice == "turn"]
    left = [each for each in outcomes if each.advice == "leave"]
    widths = [each.interval[1] - each.interval[0] for each in answered if each.interval]
    return Trials(
        told=told,
        push=push,
        hubs=len(outcomes),
        answered=len(answered) / len(outcomes),
        covered=_mean([each.covered for each in answered]),
        width=float(np.median(widths)) if widths else None,
        turned=_mean([each.advice == "turn" for each in outcomes if each.before != "right"]),
        left=len(left) / len(outcomes),
        right=_mean([each.after == "right" for each in turned]),
        tight=_mean([each.after == "tight" for each in turned]),
        left_right=_mean([each.after == "right" for each in left]),
        accused=_mean([each.accused for each in outcomes if each.sound]),
        bands=tuple(_band(turned, low, high) for low, high in BANDS),
    )


def _band(turned: list[Outcome], low: float, high: float) -> Band:
    within = [each for each in turned if low <= each.promised < high or each.promised == high == 1.0]
    return Band(
        turns=len(within),
        promised=_mean([each.promised for each in within]),
        achieved=_mean([each.after == "right" for each in within]),
    )


def _mean(of: list[bool] | list[float]) -> float | None:
    """Return the mean, to a ten-thousandth; None of nothing."""
    return round(float(np.mean(of)), 4) if of else None


HEADING = (
    f"{'':24}{'width/um':>8} "
    + " ".join(f"{word:>8}" for word in ("covered", "answered", "turned", "left", "of these"))
    + " ".join(f"{word:>8}" for word in (" right", "tight", "accused"))
    + "   promised v achieved % (turns)"
)


def line_of(found: Trials) -> str:
    """Return trials as a line under `HEADING`."""
    shares = (found.covered, found.answered, found.turned, found.left, found.left_right)
    ends = (found.right, found.tight, found.accused)
    told = " ".join(f"{_percent(share):>8}" for share in (*shares, *ends))
    bands = "   ".join(
        f"{_percent(band.promised):>3} v {_percent(band.achieved):>3} ({band.turns})" for band in found.bands
    )
    name = f"{found.told}, {found.pushed}"
    return f"{name:24}{1e6 * (found.width or 0.0):8.1f} {told}   {bands}"


def _percent(share: float | None) -> str:
    return "-" if share is None else f"{100 * share:.0f}"
