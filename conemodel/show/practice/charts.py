"""Charts of practice: where the play of a marked hub went, and a trainee's progress over time."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from conemodel.base.units import DEG
from conemodel.show.charts.vega_lite import (
    Spec,
    chart,
    curve,
    on_scale,
    rule,
    title,
    tone,
    tooltip,
    values,
    written,
)
from conemodel.show.formatting import degrees
from conemodel.show.waterfall.rows import Row, rows_shown
from conemodel.solve.stages.terms import Term

STAGE_OF = {
    "finger": "contact",
    "back_off": "backed_off",
    "axle_shortening": "clamped",
    "cone_thread_clamp": "clamped",
}
"""The stage a term belongs to; what is not named here happened at the locknut."""

STAGES = ("contact", "backed_off", "locked", "clamped")
HEIGHT, FRAME, LEAST_REACH = 260, 76, 15.0
"""Height of the chart of progress and of its heading and axis [px], and the least its scale reaches each way [°]."""


def hub_rows(terms: Sequence[Term], *, lead: float) -> tuple[Row, ...]:
    """Return the rows of the waterfall for a hub's terms; `lead` of the cone's thread [m/rad]."""
    stages = {
        stage: [term for term in terms if STAGE_OF.get(term.key, "locked") == stage] for stage in STAGES
    }
    return rows_shown(stages, lead=lead)


class Aim(NamedTuple):
    """What a cone was set to by hand, in words: the heading of a chart, being on it, and either side of it."""

    heading: str
    on: str
    out: str
    inward: str


GOOD_RANGE = Aim("How far outside the good range, clamped", "in the good range", "too loose", "too tight")
FIRST_TOUCH = Aim("How far from first touch", "at first touch", "too far out", "too far in")


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """One attempt as the chart of progress shows it.

    Attributes:
        when, exercise: when it was, and of what; passed: as marked.
        off_turn: how far off its worst hub ended, as a turn of the cone [rad].
        hubs, right: how many hubs it had, and how many of them were right; 1 and 0 where that was not kept.
    """

    when: str
    exercise: str
    passed: bool
    off_turn: float
    hubs: int = 1
    right: int = 0

    @property
    def count(self) -> str:
        """How many hubs were right, where it had several: its dot is that of the worst alone."""
        return f"{self.right} of {self.hubs} right" if self.hubs > 1 else ""


def progress_chart(attempts: Sequence[Done], aim: Aim = GOOD_RANGE) -> Spec:
    """Return attempts in order, how far off its aim each ended, as Vega-Lite. Full = passed."""
    rows = [
        {
            "number": number,
            "off": DEG.from_si(done.off_turn),
            "passed": "passed" if done.passed else "not yet",
            "exercise": done.exercise,
            "when": done.when[:16].replace("T", " "),
            "words": _ended_words(done, aim),
            "count": done.count if done.passed and done.off_turn else "",
        }
        for number, done in enumerate(attempts, start=1)
    ]
    reach = max([LEAST_REACH, *(abs(float(str(row["off"]))) * 1.1 for row in rows)])
    x = on_scale(0.5, len(rows) + 0.5, "attempt", tickMinStep=1, format="d")("number")
    y = on_scale(-reach, reach, "turn of the cone, °")
    points = {
        "mark": {"type": "point", "size": 130, "stroke": tone("ink"), "strokeWidth": 2},
        "encoding": {
            "x": x,
            "y": y("off"),
            "fillOpacity": {"condition": {"test": "datum.passed === 'passed'", "value": 1}, "value": 0},
            "fill": {"value": tone("ink")},
            "tooltip": tooltip(
                ("when", "when"), ("exercise", "exercise"), ("passed", "result"), ("words", "ended")
            ),
        },
    }
    layers = [
        rule("y", y, 0.0, colour="good", strokeWidth=3),
        _joined(x, y("off")),
        points,
        *written({"x": x, "y": y("off"), "text": {"field": "count"}}, dy=-18),
        *_sides(aim),
    ]
    return chart(layers, rows=rows, height=HEIGHT + FRAME, heading=title(aim.heading, 12))


def _joined(x: Spec, y: Spec) -> Spec:
    """Return lines from attempt to attempt at the same exercise: what differs in kind is not joined."""
    line = curve(x, y, colour="rule", width=1)
    return {**line, "encoding": {**line["encoding"], "detail": {"field": "exercise", "type": "nominal"}}}


def _sides(aim: Aim) -> list[Spec]:
    """Return which side is which."""
    return [
        mark
        for place, words in ((12, f"{aim.out} ↑"), (HEIGHT - 12, f"{aim.inward} ↓"))
        for mark in written(
            {"x": {"value": 8}, "y": {"value": place}, "text": {"value": words}},
            {"data": values({})},
            align="left",
        )
    ]


def _off_words(off_turn: float, aim: Aim) -> str:
    if off_turn == 0.0:
        return aim.on
    return f"{degrees(abs(off_turn))} {aim.out if off_turn > 0 else aim.inward}"


def _ended_words(done: Done, aim: Aim) -> str:
    """Return where an attempt ended; of several hubs, that it is the worst, and how many were right."""
    off = _off_words(done.off_turn, aim)
    return f"{off}, the worst of its hubs; {done.count}" if done.count else off


def alt_text_progress(attempts: Sequence[Done], aim: Aim = GOOD_RANGE) -> str:
    """Return the chart of progress in words."""
    said = [
        f"{number}: {done.exercise}, {'passed' if done.passed else 'not yet'}, {_ended_words(done, aim)}."
        for number, done in enumerate(attempts, start=1)
    ]
    return "Progress, attempt by attempt. " + " ".join(said)
