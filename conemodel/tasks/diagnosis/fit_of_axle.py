"""Whether axle, thread and hub go together: lengths, the thread's class, the width in the frame."""

from collections.abc import Iterator

import numpy as np
from scipy.special import ndtr

from conemodel.base.units import MM, NEWTON
from conemodel.parts.hub_families import THREADS
from conemodel.parts.readings import Readings
from conemodel.parts.scenario import Scenario
from conemodel.tasks.diagnosis.fit import SURE, Fit, state_of

AS_DESCRIBED = 0.002e-3
"""Standard uncertainty of a thread's slack that a hub's description gives [m]. Assumption."""

FRAME_GIVES = 1.0e-3
"""Difference of hub and dropout width that a frame takes without a word [m]. Assumption."""


def axle_length(readings: Readings, scenario: Scenario) -> Iterator[Fit]:
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


def thread(readings: Readings, scenario: Scenario) -> Iterator[Fit]:
    """Yield whether the thread that was gauged is the hub's."""
    if readings.thread is None:
        return
    axle = scenario.axle
    diameter, pitch = THREADS[readings.thread]
    alike = abs(diameter - axle.thread_diameter) < 1e-4 and abs(pitch - axle.thread_pitch) < 5e-6
    yield Fit(
        key="thread",
        label="thread",
        state="good" if alike else "wrong",
        sentence=f"The axle is gauged {readings.thread}. Cones and locknuts must be of the same thread: 26 to the "
        "inch goes on 1 mm a turn or two and then strips it.",
    )


def thread_slack(readings: Readings, scenario: Scenario) -> Iterator[Fit]:
    """Yield whether the cone's slack on its thread, measured or as described, is within the thread's class."""
    measured, axle = readings.thread_slack, scenario.axle
    if measured.size is not None:
        slack, error, source = measured.size, measured.uncertainty, "as measured"
    elif axle.thread_clearance is not None:
        slack, error, source = axle.backlash, AS_DESCRIBED, "as the hub is described"
    else:
        return
    most = axle.most_backlash
    chance = float(ndtr((slack - most) / error))
    state = state_of(chance)
    has = f"The cone has {MM.from_si(slack):.3f} mm of slack on its thread, {source}"
    yield Fit(
        key="thread_slack",
        label="slack of the cone on its thread",
        state=state,
        chance=chance,
        sentence=(
            f"{has}, where {MM.from_si(most):.3f} mm is the most its class allows: the thread is worn. Renew axle and "
            "cone before anything is adjusted."
            if state == "wrong"
            else f"{has}; {MM.from_si(most):.3f} mm is the most its class allows, and the locknut takes it up."
        ),
    )


def hub_in_frame(readings: Readings, scenario: Scenario) -> Iterator[Fit]:
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
        state=state_of(chance),
        chance=chance,
        sentence=f"The frame has to be {verb} by {much} (frame stiffness assumed)."
        + (
            ""
            if chance <= SURE
            else f" The hub is {'wider' if apart > 0 else 'narrower'} than the frame: no setting of the cone cures "
            "that. Spacers or another axle make the width; the frame's maker says what it may be set to."
        ),
    )
