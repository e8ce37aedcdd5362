"""Under the rider in words: how hard the balls press, how far from a dent that is, and what is only assumed."""

from collections.abc import Iterator

import numpy as np

from conemodel.base.units import DEG, MM, MPA, UM
from conemodel.parts.scenario import Scenario
from conemodel.show.bearing.ball_loads import place_words
from conemodel.show.formatting import newtons
from conemodel.tasks.bearing.ball_loads import Band, Loads, RowLoads, Worst
from conemodel.tasks.bearing.load_cases import CASES


def rider_lead(loads: Loads) -> str:
    """Return the hardest pressed ball in a sentence."""
    side, row, at = find_hardest_ball(loads)
    if row.ball_load[at] <= 0:
        return f"Under the {CASES[loads.case]} no ball carries anything."
    worst = loads.worst
    pressure = max(float(worst.cone_pressure.value), float(worst.cup_pressure.value))
    return (
        f"{newtons(float(row.ball_load[at]))} on one ball of the {side} row, {place_words(float(row.azimuth[at]))}: "
        f"{MPA.from_si(pressure):.0f} MPa. {dent_words(worst)}"
    )


def find_hardest_ball(loads: Loads) -> tuple[str, RowLoads, int]:
    """Return the row and the place in it of the ball that presses hardest."""
    side, row = max(
        (("left", loads.left), ("right", loads.right)), key=lambda each: float(each[1].cone_pressure.max())
    )
    return side, row, int(np.argmax(row.cone_pressure))


def dent_words(worst: Worst) -> str:
    """Return whether a dent that can be felt remains, over the range of possible groove radii."""
    margin, dent = worst.margin, worst.dent
    size = f"{UM.from_si(float(dent.value)):.2f} µm"
    if not np.isfinite(margin.value):
        return "No dent."
    if float(margin.low) >= 1:
        return f"No dent that can be felt (about {size} stays)."
    if float(margin.high) < 1:
        return f"A dent stays that can be felt, about {size}: the race is marked."
    return f"It may leave a dent that can be felt, about {size}: that hangs on the groove nobody measured."


def rider_lines(loads: Loads, scenario: Scenario) -> Iterator[str]:
    """Yield the engineering numbers, each with what it rests on."""
    worst, assumed = loads.worst, scenario.assumed
    _, row, at = find_hardest_ball(loads)
    if row.ball_load[at] <= 0:
        return
    grooves = f"{assumed.conformity_low:g} to {assumed.conformity_high:g} of the ball's diameter"
    for race, band in (("cone", worst.cone_pressure), ("cup", worst.cup_pressure)):
        yield f"Peak pressure on the {race} {_with_band(band, MPA.per_si, '.0f')} MPa."
    margin = _with_band(worst.margin, 1.0, ".2f")
    yield f"Margin to 4200 MPa: {margin}. In brackets: groove radii from {grooves} (assumption)."
    yield (
        f"Contact angle of that ball {DEG.from_si(float(row.contact_angle[at])):.1f}°. It touches the cone over an "
        f"ellipse of {_ellipse(row.cone_semi_major[at], row.cone_semi_minor[at])}, the cup over "
        f"{_ellipse(row.cup_semi_major[at], row.cup_semi_minor[at])}, across × along the track."
    )
    yield (
        f"Permanent set of ball and race {_with_band(worst.dent, UM.per_si, '.2f')} µm; felt from about "
        f"{UM.from_si(1e-4 * scenario.hub.left.ball_diameter):.2f} µm, a ten-thousandth of the ball (ISO 76, for close "
        "grooves)."
    )
    yield (
        f"The balls are taken as evenly spaced. With all the room between them in one gap, the worst ball carries "
        f"{loads.gap_rise:.0%} more."
    )


def _with_band(band: Band, per_si: float, form: str) -> str:
    value, low, high = (float(each) * per_si for each in (band.value, band.low, band.high))
    return f"{value:{form}} ({low:{form}} to {high:{form}})"


def _ellipse(major: float, minor: float) -> str:
    return f"{2 * MM.from_si(float(major)):.2f} × {2 * MM.from_si(float(minor)):.2f} mm"
