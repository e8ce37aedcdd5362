"""Fit check: whether the parts go together before anything is adjusted: balls, axle, thread, dropouts, frame."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np
from scipy.special import ndtr

from conemodel.base.units import MM, NEWTON
from conemodel.parts.hub import SIDES, Side
from conemodel.parts.readings import Readings, Size
from conemodel.parts.scenario import Scenario
from conemodel.physics.packing import balls_that_fit
from conemodel.solve.stages.clamp import PROUD_WARNING
from conemodel.tasks.diagnosis.assumed_hub import THREADS, usual_pitch_diameter
from conemodel.tasks.headline import DO_NOT_RIDE

FitState = Literal["good", "look again", "wrong", "not measured"]

PITCH_UNKNOWN = 0.6e-3
"""How far the pitch diameter of a cup nobody measured may be from the usual one [m]. Assumption."""

SURE = 0.5
"""Chance from which a fault of fit is called wrong; from `DOUBT` on it is looked at again."""

DOUBT = 0.05
"""See `SURE`."""

UNEQUAL = 1.0e-3
"""Difference of the two protrusions from which the axle is not centred [m]. Assumption."""

FRAME_GIVES = 1.0e-3
"""Difference of hub and dropout width that a frame takes without a word [m]. Assumption."""

FULL_THREAD = 0.8
"""Thread a steel nut needs, over its diameter [-]. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """One thing that must go together.

    Attributes:
        key: stable name; label: in words.
        state: good, look again, wrong, or not measured.
        chance: that it is wrong, where that can be said.
        sentence: what was found and what to do.
        unsafe: the wheel can come out.
    """

    key: str
    label: str
    state: FitState
    sentence: str
    chance: float | None = None
    unsafe: bool = False


def fit_check(readings: Readings, scenario: Scenario) -> tuple[Fit, ...]:
    """Return whether what was measured goes together, for the hub `scenario` it is computed with."""
    return tuple(
        fit
        for part in (_packing, _axle_length, _thread, _dropout_margin, _protrusions, _frame)
        for fit in part(readings, scenario)
    )


def _state(chance: float) -> FitState:
    return "wrong" if chance > SURE else "look again" if chance > DOUBT else "good"


def packing_range(readings: Readings, scenario: Scenario, side: Side) -> tuple[float, float]:
    """Return how many balls fill the row of a side, least and most [ball widths]: a range, as nobody measures it well.

    The pitch diameter as measured, give or take two uncertainties, or as usual for the balls that belong there.
    """
    row = getattr(scenario.hub, side)
    ball = getattr(readings, f"balls_{side}").diameter.size or row.ball_diameter
    measured = readings.pitch_diameter
    if measured.size is not None:
        middle, reach = measured.size, 2 * measured.uncertainty
    else:
        middle, reach = usual_pitch_diameter(row.ball_diameter, row.ball_count), PITCH_UNKNOWN
    ends = (max(middle - reach, ball), max(middle + reach, ball))
    low, high = (float(balls_that_fit(ball_diameter=ball, pitch_diameter=end)) for end in ends)
    return low, high


def _packing(readings: Readings, scenario: Scenario) -> Iterator[Fit]:
    """Yield whether each row holds the balls it should."""
    for side in SIDES:
        row, balls = getattr(scenario.hub, side), getattr(readings, f"balls_{side}")
        low, high = packing_range(readings, scenario, side)
        belongs, count = row.ball_count, balls.count
        room = (max(low - belongs, 0.0), high - belongs)
        why = (
            "as measured" if readings.pitch_diameter.size is not None else "its pitch circle was not measured"
        )
        said = (
            f"The row on the {side} takes {low:.1f} to {high:.1f} ball widths ({why}); {belongs} belong there by the "
            f"hub's description, so room for about {room[0]:.1f} to {room[1]:.1f} of a ball is left. It always looks "
            "as if one more would go in: leave that room, and keep to the ball size and number the maker states."
        )
        state: FitState = "not measured"
        if count is not None and count > high:
            state, said = (
                "wrong",
                (
                    f"{count} balls were counted on the {side}, but at most {high:.1f} go round: count again and "
                    "measure the balls."
                ),
            )
        elif count is not None and count != belongs:
            state, said = (
                "wrong",
                (
                    f"{count} balls were counted on the {side} where {belongs} belong. What came out is no proof of "
                    "what belongs there: renew all balls of both rows together, in the number the maker states."
                ),
            )
        elif count is not None:
            state = "good"
        yield Fit(key=f"packing_{side}", label=f"balls on the {side}", state=state, sentence=said)


def _axle_length(readings: Readings, scenario: Scenario) -> Iterator[Fit]:
    """Yield whether axle length, width and protrusions add up."""
    length, width = readings.axle_length, readings.over_locknut_width
    left, right = readings.protrusion_left, readings.protrusion_right
    label = "axle length"
    if length.size is None or width.size is None or left.size is None or right.size is None:
        wanted = scenario.axle.length - scenario.hub.over_locknut_width
        yield Fit(
            key="axle_length",
            label=label,
            state="not measured",
            sentence=f"Axle length is the width over the locknuts and both protrusions: {MM.from_si(wanted):.1f} mm "
            "for the two together here.",
        )
        return
    over = length.size - width.size - left.size - right.size
    error = float(np.linalg.norm([size.uncertainty for size in (length, width, left, right)]))
    chance = float(2 * ndtr(-abs(over) / error))
    wrong = chance < 0.01
    yield Fit(
        key="axle_length",
        label=label,
        state="wrong" if wrong else "good",
        sentence=(
            f"Axle length, width and protrusions do not add up: {MM.from_si(over):+.1f} mm is over. One of the four "
            "was misread; measure them again."
            if wrong
            else f"Axle length, width and protrusions add up within {MM.from_si(abs(over)):.1f} mm."
        ),
    )


def _thread(readings: Readings, scenario: Scenario) -> Iterator[Fit]:
    """Yield whether enough thread stands out for what is screwed on it, and the thread is the hub's."""
    axle = scenario.axle
    if readings.thread is not None:
        diameter, pitch = THREADS[readings.thread]
        alike = abs(diameter - axle.thread_diameter) < 1e-4 and abs(pitch - axle.thread_pitch) < 5e-6
        yield Fit(
            key="thread",
            label="thread",
            state="good" if alike else "wrong",
            sentence=f"The axle is gauged {readings.thread}. Cones and locknuts must be of the same thread: 26 to the "
            "inch goes on 1 mm a turn or two and then strips it.",
        )
    if scenario.clamp.traits.through_axle:
        return
    need = FULL_THREAD * axle.thread_diameter
    for side in SIDES:
        size = getattr(readings, f"protrusion_{side}").size
        thick = readings.dropout_thickness.size
        if size is None or thick is None:
            continue
        left = size - thick
        yield Fit(
            key=f"engagement_{side}",
            label=f"thread for the axle nut on the {side}",
            state="good" if left >= need else "wrong",
            sentence=f"{MM.from_si(left):.1f} mm of thread stand out of the dropout on the {side}; a steel nut needs "
            f"{MM.from_si(need):.1f} mm, washer not counted.",
            unsafe=left < need,
        )


def _dropout_margin(readings: Readings, scenario: Scenario) -> Iterator[Fit]:
    """Yield whether the axle ends stand back from the dropouts' outer faces; it matters to a quick release only."""
    if not scenario.clamp.traits.held_by_ends:
        return
    thick = readings.dropout_thickness
    for side in SIDES:
        size: Size = getattr(readings, f"protrusion_{side}")
        key, label = f"margin_{side}", f"axle end in the dropout on the {side}"
        if size.size is None or thick.size is None:
            yield Fit(
                key=key,
                label=label,
                state="not measured",
                sentence=f"Measure the protrusion on the {side} and the dropout's thickness before riding: an axle "
                "that stands proud loses its play on closing like any other, and only these two clear it.",
            )
            continue
        margin = thick.size - size.size
        chance = float(ndtr(-margin / np.hypot(size.uncertainty, thick.uncertainty)))
        state = _state(chance)
        if state == "good" and margin <= PROUD_WARNING:
            state = "look again"
        yield Fit(
            key=key,
            label=label,
            state=state,
            chance=chance,
            unsafe=state == "wrong",
            sentence=_margin_words(side, margin, state),
        )


def _margin_words(side: Side, margin: float, state: FitState) -> str:
    mm = f"{MM.from_si(abs(margin)):.2f} mm"
    if state == "wrong":
        return (
            f"{DO_NOT_RIDE}: the axle stands {mm} proud of the dropout on the {side}, so the clamp squeezes the axle "
            "and not the frame, and the wheel can come out. Fit an axle of the right length."
        )
    if state == "look again":
        return f"On the {side} the axle end stands back by only {mm}: measure again with a calliper before riding."
    return f"On the {side} the axle end stands {mm} back from the dropout's outer face, as it must."


def _protrusions(readings: Readings, scenario: Scenario) -> Iterator[Fit]:
    """Yield whether the axle is centred in the hub."""
    left, right = readings.protrusion_left, readings.protrusion_right
    if left.size is None or right.size is None:
        return
    apart, error = left.size - right.size, float(np.hypot(left.uncertainty, right.uncertainty))
    chance = float(ndtr((abs(apart) - UNEQUAL) / error))
    state = _state(chance)
    more = "left" if apart > 0 else "right"
    yield Fit(
        key="protrusions",
        label="protrusions alike",
        state=state,
        chance=chance,
        sentence=(
            "Both ends stand out alike: the axle is centred."
            if state == "good"
            else f"The axle stands out {MM.from_si(abs(apart)):.1f} mm more on the {more}: unlock both sides and "
            "centre it, then adjust."
        ),
    )


def _frame(readings: Readings, scenario: Scenario) -> Iterator[Fit]:
    """Yield whether hub and frame are of one width, and the force that makes them so."""
    width, between = readings.over_locknut_width, readings.dropout_width
    if width.size is None or between.size is None:
        return
    apart = width.size - between.size
    error = float(np.hypot(width.uncertainty, between.uncertainty))
    chance = float(ndtr((abs(apart) - FRAME_GIVES) / error))
    force = abs(apart) * scenario.frame.spread_stiffness
    verb = "spread" if apart > 0 else "squeezed"
    much = f"{MM.from_si(abs(apart)):.1f} mm, some {NEWTON.from_si(force):.0f} N"
    yield Fit(
        key="frame",
        label="hub in the frame",
        state=_state(chance),
        chance=chance,
        sentence=f"The frame has to be {verb} by {much} (frame stiffness assumed)."
        + (
            ""
            if chance <= SURE
            else f" The hub is {'wider' if apart > 0 else 'narrower'} than the frame: no setting of the cone cures "
            "that. Spacers or another axle make the width; the frame's maker says what it may be set to."
        ),
    )
