"""What is to be said of a hub for every position of its cone: runs of positions of which the same is said."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from itertools import pairwise
from typing import Any, NamedTuple

import numpy as np

from conemodel.base.units import DEG, Array
from conemodel.parts.scenario import Scenario
from conemodel.solve.stages.inputs import inputs_over
from conemodel.solve.stages.terms import SettingTerms, setting_terms
from conemodel.tasks.setting.felt_curve import FeltCurve
from conemodel.tasks.setting.outlook import Outlook
from conemodel.tasks.setting.verdict import Verdict, judge
from conemodel.tasks.wording import CLOCK_MINUTE, MANY

STEP = DEG.to_si(0.2)
"""How closely a change of the answer is placed [rad]: half a micrometre on a thread of one millimetre a turn."""

HALF = CLOCK_MINUTE / 2
"""Turns up to `MANY` of these are said to one of them, longer ones to two [rad]; see `clock_face_turn`."""


class Run(NamedTuple):
    """Positions of the cone of which the same is said: from `start` [rad], out from finger contact, to the next run.

    `verdict` is the one near the middle of them; of its `turn` only the end is the same for all, `aim` [rad].
    """

    start: float
    verdict: Verdict
    aim: float | None


def answers_over(
    scenario: Scenario, outlook: Outlook, felt: Mapping[str, FeltCurve], *, ends: tuple[float, float]
) -> tuple[Run, ...]:
    """Return what is said from the first to the last of `ends` [rad], from what is `felt` clamped and ridden.

    Args:
        scenario: the hub; its back-off does not matter.
        outlook: of it.
        felt: by stage, over the end play after it.
        ends: positions of the cone [rad].
    """
    angle = np.arange(ends[0], ends[1] + STEP / 2, STEP)
    terms = setting_terms(scenario, inputs_over(scenario, back_off=angle))
    known: dict[int, Verdict] = {}

    def verdict_at(place: int) -> Verdict:
        if place not in known:
            here = _at(terms, place)
            found = {name: curve.at(here.end_play(name)) for name, curve in felt.items()}
            known[place] = judge(scenario, here, outlook, found)
        return known[place]

    aimed = outlook.aim.moved / scenario.axle.lead_per_radian
    runs: list[Run] = []
    for place, verdict in _changes(verdict_at, _round_turns(angle, aimed)):
        turn = verdict.turn_to_make
        run = Run(float(angle[place]), verdict, None if turn is None else aimed)
        if not runs or runs[-1].verdict.headline != verdict.headline:
            runs.append(run)
    return tuple(runs)


def _round_turns(angle: Array, aimed: float) -> list[int]:
    """Return both ends of `angle` (n,) [rad] and the places from which the turn to `aimed` [rad] is a round one."""
    most = int((angle[-1] - angle[0]) / HALF) + MANY
    halves = np.concatenate((np.arange(MANY), np.arange(MANY, most, 2)))
    round_turns = aimed + HALF * np.concatenate((-halves[::-1], halves))
    places = np.unique(np.rint((round_turns - angle[0]) / STEP).astype(int))
    return [0, *(int(place) for place in places if 0 < place < angle.size - 1), angle.size - 1]


def _changes(verdict_at: Callable[[int], Verdict], places: list[int]) -> Iterator[tuple[int, Verdict]]:
    """Yield the first place of each run with a verdict from within it."""
    yield 0, verdict_at(0)
    for before, after in pairwise(places):
        inside = before > 0 and after < places[-1]
        if inside and _standing(verdict_at(before)) == _standing(verdict_at(after)):
            # only the turn is another: what is said of it changes half way between two round ones
            yield (before + after + 1) // 2, verdict_at(after)
        else:
            yield from ((place, verdict_at(place)) for place in _divide(verdict_at, before, after))


def _divide(verdict_at: Callable[[int], Verdict], before: int, after: int) -> Iterator[int]:
    """Yield every place after `before`, up to `after`, from which something else is said."""
    if _said(verdict_at(before)) == _said(verdict_at(after)):
        return
    if after - before == 1:
        yield after
        return
    middle = (before + after) // 2
    yield from _divide(verdict_at, before, middle)
    yield from _divide(verdict_at, middle, after)


def _standing(verdict: Verdict) -> tuple[object, ...]:
    """Return all that a verdict says but how far to turn and what is felt."""
    answer = verdict.headline.answer
    moving = verdict.headline.question == "adjustment" and verdict.turn_to_make is not None
    return verdict.state, answer.words, answer.certainty, moving or answer.act


def _said(verdict: Verdict) -> tuple[object, ...]:
    """Return all that a verdict says but what is felt."""
    answer = verdict.headline.answer
    return verdict.state, answer.words, answer.certainty, answer.act


def _at(terms: SettingTerms[Any], place: int) -> SettingTerms[float]:
    """Return the terms at one of n positions of the cone."""
    lengths = {
        stage: {key: float(length[place] if np.ndim(length) else length) for key, length in each.items()}
        for stage, each in terms.lengths.items()
    }
    return replace(terms, lengths=lengths)
