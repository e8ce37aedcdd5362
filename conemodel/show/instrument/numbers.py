"""What the instrument shows for every position of the cone, and exactly at one: plain values for a browser."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from conemodel.base.units import DEG, MM, NEWTON, Array, Unit
from conemodel.show.headline import SIGNS, STATE_SIGNS
from conemodel.solve.stages.terms import STAGES
from conemodel.tasks.headline import of_ten
from conemodel.tasks.setting.answers_over import Run
from conemodel.tasks.setting.felt_curve import FeltCurve
from conemodel.tasks.setting.glance import Glance
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.setting.travel import LEFT_OUT, Travel, most_loaded
from conemodel.tasks.setting.verdict import Verdict
from conemodel.tasks.wording import round_on_clock

Json = dict[str, Any]

MM_DIGITS, DEG_DIGITS, NEWTON_DIGITS = 4, 2, 1
"""Digits after the point that are sent: a tenth of a micrometre, a hundredth of a degree, a tenth of a newton."""


def numbers_json(travel: Travel) -> Json:
    """Return a hub over the position of its cone, in mm, degrees and newtons.

    `end_play` has a list over the grid `from`, `to`, `step` for each stage, or one number where it is the same all
    over; straight lines between serve. `felt` is over its own `end_play`. `answers` are columns: the last row whose
    `from` is not above the cone's angle holds; a column of words has places in `texts`; `turn` is the one to make as
    it is said, and `aim` where it should end, or null; beside a turn `act` is left out.
    """
    first, last = (round(DEG.from_si(float(travel.cone_angle[end])), DEG_DIGITS) for end in (0, -1))
    return {
        "from": first,
        "to": last,
        "step": (last - first) / (travel.cone_angle.size - 1),
        "end_play": {name: _constant_or_list(travel.end_play[name]) for name in STAGES},
        "felt": _felt(travel.felt, travel.ball_load),
        "good": _rounded(np.array([travel.window.tight_edge, travel.window.loose_edge]), MM, MM_DIGITS),
        "short": _rounded(travel.axle_end_moves, MM, MM_DIGITS),
        "assumed": _rounded(np.array(travel.assumed["clamped"]), MM, MM_DIGITS),
        "assumed_words": f"the race stands within this {of_ten(1 - 2 * LEFT_OUT).removesuffix(' such hubs')}",
        "unmeasured": list(travel.unmeasured),
        "took": dict(travel.took),
        "answers": _answers(travel.runs),
    }


def exact_json(prediction: Prediction) -> Json:
    """Return what a prediction says at its own position of the cone, in mm, degrees and newtons.

    It stands for what `numbers_json` gives between its points; its `answer` is one row, the words written out.
    """
    clamped, ridden = (prediction.stages[name] for name in ("clamped", "ridden"))
    end_play = {name: stage.end_play for name, stage in prediction.stages.items()}
    return {
        **glance_json(Glance(prediction.scenario, end_play, prediction.verdict)),
        "rim": float(MM.from_si(clamped.rim_play)),
        "axle_end": float(MM.from_si(clamped.axle_end_play)),
        "preload": float(NEWTON.from_si(clamped.preload)),
        "ball_load": float(NEWTON.from_si(float(most_loaded(ridden.solution)))),
    }


def glance_json(glance: Glance) -> Json:
    """Return the part of `exact_json` that a glance at a setting has, in mm and degrees."""
    angle, turn = glance.scenario.setting.back_off, glance.verdict.turn_to_make
    return {
        "angle": float(DEG.from_si(angle)),
        "end_play": {name: float(MM.from_si(length)) for name, length in glance.end_play.items()},
        "answer": {
            **answer_words(glance.verdict),
            "turn": _said_turn(glance.verdict),
            "aim": None if turn is None else float(DEG.from_si(angle + turn.angle)),
        },
    }


def answer_words(verdict: Verdict) -> dict[str, str | None]:
    """Return the words of a verdict, its headline's, and the state that may be named, if any."""
    headline = verdict.headline
    adjusted = headline.question == "adjustment"
    return {
        "question": headline.question,
        "sign": STATE_SIGNS[verdict.named] if adjusted else SIGNS[headline.question],
        "state": verdict.named if adjusted else None,
        "words": headline.answer.words,
        "certainty": headline.answer.certainty,
        "act": headline.answer.act,
        "why": headline.answer.why,
    }


def _said_turn(verdict: Verdict) -> int | None:
    """Return the turn to make as it is said [°], positive out."""
    turn = verdict.turn_to_make
    return None if turn is None else round(DEG.from_si(round_on_clock(turn.angle)))


def _answers(runs: Sequence[Run]) -> Json:
    """Return what is said in each of `runs` as columns, each text written once; figures beside it give the reason."""
    texts: dict[str | None, int] = {}
    rows = [answer_words(run.verdict) | ({"act": None} if run.aim is not None else {}) for run in runs]
    columns = {
        name: [texts.setdefault(row[name], len(texts)) for row in rows] for name in rows[0] if name != "why"
    }
    return {
        "from": [round(float(DEG.from_si(run.start)), DEG_DIGITS) for run in runs],
        "turn": [_said_turn(run.verdict) for run in runs],
        "aim": [None if run.aim is None else round(float(DEG.from_si(run.aim)), DEG_DIGITS) for run in runs],
        **columns,
        "texts": list(texts),
    }


def _felt(felt: FeltCurve, ball_load: Array) -> Json:
    """Return over the end play what hands find, and what the most loaded ball carries under the rider."""
    return {
        "end_play": _rounded(felt.end_play, MM, MM_DIGITS),
        "rim": _rounded(felt.rim_play, MM, MM_DIGITS),
        "axle_end": _rounded(felt.axle_end_play, MM, MM_DIGITS),
        "preload": _rounded(felt.preload, NEWTON, NEWTON_DIGITS),
        "ball_load": _rounded(ball_load, NEWTON, NEWTON_DIGITS),
    }


def _constant_or_list(lengths: Array) -> Any:
    """Return lengths (n,) [m] in mm, one number where all are the same."""
    return _rounded(lengths[0] if np.ptp(lengths) == 0.0 else lengths, MM, MM_DIGITS)


def _rounded(values: Any, unit: Unit, digits: int) -> Any:
    """Return SI values, any shape, in a unit and rounded, as plain numbers and never as a negative zero."""
    return (np.round(np.asarray(values) * unit.from_si(1.0), digits) + 0.0).tolist()
