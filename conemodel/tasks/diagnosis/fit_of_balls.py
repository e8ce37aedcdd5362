"""Whether the balls go together: their number and size, from side to side and with what belongs there."""

from collections.abc import Iterator, Sequence

import numpy as np
from scipy.special import ndtr

from conemodel.base.units import MM
from conemodel.parts.hub import SIDES, Side
from conemodel.parts.hub_families import usual_pitch_diameter
from conemodel.parts.readings import Readings, Size
from conemodel.parts.scenario import Scenario
from conemodel.physics.packing import balls_that_fit
from conemodel.tasks.diagnosis.fit import Fit, FitState

LOT = 0.02e-3
"""Standard error of a ball's size beside that of its measurement: rounding, wear, lots [m]. Assumption."""

ROUNDING = 1e-9
"""What sums of sizes may be off by in a computer [m]."""

UNLIKE = 0.997
"""Chance from which two sizes are called unlike: beyond three standard errors. Assumption."""

PITCH_UNKNOWN = 0.6e-3
"""How far the pitch diameter of a cup nobody measured may be from the usual one [m]. Assumption."""


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


def packing(readings: Readings, scenario: Scenario) -> Iterator[Fit]:
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
        yield Fit(
            key=f"packing_{side}",
            label=f"balls on the {side}",
            state=state,
            words=f"{count} balls on the {side}, not {belongs}",
            sentence=said,
        )
    yield from _counts_alike(readings, scenario)


def _counts_alike(readings: Readings, scenario: Scenario) -> Iterator[Fit]:
    """Yield whether the counts differ from side to side as they should."""
    left, right = readings.balls_left.count, readings.balls_right.count
    if left is None or right is None:
        return
    alike = left - right == scenario.hub.left.ball_count - scenario.hub.right.ball_count
    yield Fit(
        key="ball_count",
        label="balls from side to side",
        state="good" if alike else "wrong",
        words=f"{left} balls on the left, {right} on the right",
        sentence=f"{left} balls were counted on the left and {right} on the right."
        + ("" if alike else " The sides do not match: count again, and look for one that fell out."),
    )


def ball_sizes(readings: Readings, scenario: Scenario) -> Iterator[Fit]:
    """Yield whether balls that were measured are as unlike from side to side as they should be, and of what size."""
    left, right = readings.balls_left.diameter, readings.balls_right.diameter
    rows = scenario.hub
    if left.size is not None and right.size is not None:
        meant = rows.left.ball_diameter - rows.right.ball_diameter
        found = f"{_mm(left.size)} on the left and {_mm(right.size)} on the right"
        yield _compare("sides", left.size - right.size - meant, (left, right), found)
    for side in SIDES:
        size: Size = getattr(readings, f"balls_{side}").diameter
        belongs = getattr(rows, side).ball_diameter
        if size.size is not None:
            found = f"{_mm(size.size)} on the {side} where {_mm(belongs)} belong"
            yield _compare(side, size.size - belongs, (size,), found)


def _mm(size: float) -> str:
    return f"{MM.from_si(size):.3f} mm"


def _compare(of: str, apart: float, sizes: Sequence[Size], found: str) -> Fit:
    """Return whether balls `apart` from what they should be [m] are another size."""
    error = float(np.linalg.norm([LOT, *(size.uncertainty for size in sizes)]))
    chance = 1 - float(2 * ndtr(-abs(apart) / error))
    wrong, alike = chance > UNLIKE, abs(apart) <= LOT + ROUNDING
    return Fit(
        words="balls of unlike size" if of == "sides" else "balls of another size",
        key=f"ball_size_{of}",
        label="ball sizes from side to side" if of == "sides" else f"size of the balls on the {of}",
        state="wrong" if wrong else "good" if alike else "look again",
        sentence=f"The balls measure {found}: "
        + (
            "they are not of one kind. Renew all balls of both rows together, of the size and in the number the maker "
            "states."
            if wrong
            else "as they must."
            if alike
            else f"{_mm(abs(apart))} off what they must be, more than one lot of balls differs by but within what this "
            "measurement may err. Measure again with a micrometer."
        ),
    )
