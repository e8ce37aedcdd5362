"""Whether the axle's ends stand as what holds the wheel needs: within the dropouts, or far enough for a nut."""

from collections.abc import Iterator

import numpy as np
from scipy.special import ndtr

from conemodel.base.units import MM
from conemodel.parts.hub import SIDES, Side
from conemodel.parts.readings import Readings, Size
from conemodel.parts.scenario import Scenario
from conemodel.solve.stages.clamp import PROUD_WARNING
from conemodel.tasks.diagnosis.fit import Fit, FitState, state_of
from conemodel.tasks.headline import DO_NOT_RIDE

UNEQUAL = 1.0e-3
"""Difference of the two protrusions from which the axle is not centred [m]. Assumption."""

FULL_THREAD = 0.8
"""Thread a steel nut needs, over its diameter [-]. Common practice, no source."""

NUTTED_FROM = 12e-3
"""Protrusion from which an axle carries nuts: dropout, washer and nut are thicker. Common practice, no source [m]."""

MAYBE_PROUD_FROM = 5.5e-3
"""Protrusion from which an end may stand out of a thin dropout [m]. Common practice, no source."""

HELD_BY = "held_by"
"""Key of the fit that asks what holds the wheel."""

MARGINS = tuple(f"margin_{side}" for side in SIDES)
"""Keys of the fits of an axle end in its dropout."""

DROPOUT_UNKNOWN = "dropout_unknown"
"""Key of the fit that asks for the dropout's thickness, beside an end that may stand proud of it."""


def axle_ends(readings: Readings, scenario: Scenario) -> Iterator[Fit]:
    """Yield whether the ends suit what holds the wheel; where they do not go with it, ask first what does."""
    if ends_ask_for_nuts(readings):
        yield _ask_what_holds(readings)
    elif scenario.clamp.traits.held_by_ends:
        yield from _margins(readings)
    elif not scenario.clamp.traits.through_axle:
        yield from _engagements(readings, scenario)


def ends_ask_for_nuts(readings: Readings) -> bool:
    """Return whether the axle stands out as far as only a nutted one does, and nobody said what holds the wheel."""
    return readings.clamp is None and any(size >= NUTTED_FROM for size in _sizes(readings))


def _sizes(readings: Readings) -> list[float]:
    """Return the protrusions that were measured [m]."""
    sizes = (readings.protrusion_left.size, readings.protrusion_right.size)
    return [size for size in sizes if size is not None]


def _ask_what_holds(readings: Readings) -> Fit:
    far = " and ".join(f"{MM.from_si(size):.0f}" for size in _sizes(readings))
    return Fit(
        key=HELD_BY,
        label="what holds the wheel",
        state="look again",
        words="Say first what holds the wheel",
        sentence=f"The axle stands out {far} mm, as a nutted axle does: say first what holds the wheel. With nuts that "
        "is as it must be; a quick release could not clamp on it, and the wheel could come out.",
    )


def _engagements(readings: Readings, scenario: Scenario) -> Iterator[Fit]:
    """Yield whether enough thread stands out of each dropout for an axle nut."""
    need = FULL_THREAD * scenario.axle.thread_diameter
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


def _margins(readings: Readings) -> Iterator[Fit]:
    """Yield whether the axle ends stand back from the dropouts' outer faces."""
    thick = readings.dropout_thickness
    if thick.size is None and max(_sizes(readings), default=0.0) >= MAYBE_PROUD_FROM:
        yield _ask_for_dropout(readings)
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
        chance = _chance_proud(size, thick)
        state = state_of(chance)
        if state == "good" and margin <= PROUD_WARNING:
            state = "look again"
        yield Fit(
            key=key,
            label=label,
            state=state,
            chance=chance,
            words="axle off centre" if _mean_that_fits(readings) is not None else "",
            unsafe=state == "wrong",
            sentence=_margin_words(side, margin, state, _mean_that_fits(readings)),
        )


def _ask_for_dropout(readings: Readings) -> Fit:
    far = " and ".join(f"{MM.from_si(size):.1f}" for size in _sizes(readings))
    return Fit(
        key=DROPOUT_UNKNOWN,
        label="axle ends in the dropouts",
        state="look again",
        words=f"{DO_NOT_RIDE} before the dropouts are measured",
        sentence=f"The axle stands out {far} mm, and thin dropouts are hardly thicker. An end longer than its dropout "
        "is thick stands proud: the clamp squeezes the axle and not the frame, and the wheel can come out. Measure the "
        "dropouts' thickness at their slots; where one end stands out further, centre the axle first.",
        unsafe=True,
    )


def _chance_proud(size: Size, thick: Size) -> float:
    """Return the chance that an end stands proud of a dropout, both measured."""
    margin = (thick.size or 0.0) - (size.size or 0.0)
    return float(ndtr(-margin / np.hypot(size.uncertainty, thick.uncertainty)))


def _mean_that_fits(readings: Readings) -> float | None:
    """Return what each end of a centred axle would stand out [m]; None where even that is proud, or unknown."""
    left, right, thick = readings.protrusion_left, readings.protrusion_right, readings.dropout_thickness
    if left.size is None or right.size is None or thick.size is None:
        return None
    error = float(np.hypot(left.uncertainty, right.uncertainty)) / 2
    mean = Size(size=(left.size + right.size) / 2, uncertainty=error)
    return mean.size if state_of(_chance_proud(mean, thick)) == "good" else None


def _margin_words(side: Side, margin: float, state: FitState, centred: float | None) -> str:
    mm = f"{MM.from_si(abs(margin)):.2f} mm"
    if state == "wrong":
        cure = (
            "Fit an axle of the right length."
            if centred is None
            else f"It is off centre, not too long: centred, each end would stand out {MM.from_si(centred):.1f} mm, "
            "which fits. Unlock both sides, centre it, lock both hard, and measure both ends again before riding."
        )
        return (
            f"The axle stands {mm} proud of the dropout on the {side}, so the clamp squeezes the axle and not the "
            f"frame, and the wheel can come out. {cure}"
        )
    if state == "look again":
        return f"On the {side} the axle end stands back by only {mm}: measure again with a calliper before riding."
    return f"On the {side} the axle end stands {mm} back from the dropout's outer face, as it must."


def protrusions(readings: Readings, scenario: Scenario) -> Iterator[Fit]:
    """Yield whether the axle is centred in the hub."""
    left, right = readings.protrusion_left, readings.protrusion_right
    if left.size is None or right.size is None:
        return
    apart, error = left.size - right.size, float(np.hypot(left.uncertainty, right.uncertainty))
    chance = float(ndtr((abs(apart) - UNEQUAL) / error))
    state, more = state_of(chance), "left" if apart > 0 else "right"
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
