"""The hub the readings are about: the one described, or a usual one, with measured sizes in place of its own."""

from math import asin, pi
from typing import Any

from conemodel.parts.axle import Axle
from conemodel.parts.bearing import RowGeometry
from conemodel.parts.clamp_kinds import CLAMP_KINDS
from conemodel.parts.hub import SIDES, Hub, Stacks
from conemodel.parts.hub_families import FRONT_BELOW, THREADS, USUAL_ROOM, usual_pitch_diameter
from conemodel.parts.known_hub import KnownHub
from conemodel.parts.known_scenario import KnownScenario
from conemodel.parts.mounting import Clamp
from conemodel.parts.readings import Readings
from conemodel.parts.scenario import Scenario
from conemodel.parts.unknowns.joint import THREAD_SLACK
from conemodel.physics.thread import clearance_for_backlash

SAME_BALL = 0.15e-3
"""Ball sizes closer than this are the same size [m]; sizes in use stand further apart."""

INCH_CLEARANCE = float(clearance_for_backlash(axial_backlash=THREAD_SLACK.unit.to_si(THREAD_SLACK.usual)))
"""Clearance on the pitch diameter taken for the inch thread, which has no metric tolerance class [m]."""

LEAST_SPACING = 20e-3
"""Distance of the ball rows below which no usual hub is narrowed [m]. Assumption."""

USUAL_BORE = 5.1e-3
"""Bore of a hollow axle for a quick release [m]. Common practice, no source."""


def usual_hub(end: str) -> Scenario:
    """Return the hub taken where none was described: ``front`` or ``rear``."""
    return KnownScenario.of(KnownHub(family=f"usual {end}"))


def described_hub(readings: Readings, hub: Scenario | None) -> Scenario:
    """Return the hub to compute with: `hub`, or a usual one by width, with the measured sizes in place of its own.

    Balls that were counted do not change a described hub: what came out is no proof of what belongs there.

    Raises:
        InputProblems: the sizes cannot go together.
    """
    base = hub or usual_hub(_end_of(readings))
    shell = base.hub if hub is not None else _with_found_balls(base.hub, readings)
    width = _measured_width(readings) or shell.over_locknut_width
    pitch = readings.pitch_diameter.size
    if hub is None:  # a wider usual hub has its rows further apart, its cones as near the locknuts as before
        wider = width - shell.over_locknut_width
        shell = shell.replace(row_spacing=max(shell.row_spacing + wider, LEAST_SPACING))
    if pitch is not None and hub is None:
        shell = shell.replace(**{side: getattr(shell, side).replace(pitch_diameter=pitch) for side in SIDES})
    return base.replace(
        hub=shell.replace(over_locknut_width=width),
        axle=_axle(base, readings, width),
        stack=_stack(base.stack, readings),
        clamp=_clamp(base.clamp, readings),
        frame=base.frame.replace(
            dropout_width=readings.dropout_width.size or (base.frame.dropout_width if hub else width),
            dropout_thickness=readings.dropout_thickness.size or base.frame.dropout_thickness,
        ),
    )


def _end_of(readings: Readings) -> str:
    """Return which usual hub the measured width, the thread or the balls speak of."""
    width = _measured_width(readings) or readings.dropout_width.size
    if width is not None:
        return "front" if width < FRONT_BELOW else "rear"
    return "front" if readings.thread == "M9 x 1" else "rear"


def _measured_width(readings: Readings) -> float | None:
    """Return the width over the locknuts [m], as measured or from axle and protrusions; None where neither is."""
    if readings.over_locknut_width.size is not None:
        return readings.over_locknut_width.size
    axle = readings.axle_length.size
    ends = [getattr(readings, f"protrusion_{side}").size for side in SIDES]
    return None if axle is None or None in ends else axle - sum(ends)


def _with_found_balls(shell: Hub, readings: Readings) -> Hub:
    """Return a usual shell with rows for balls of another size than usual, where such were found.

    Sizes unlike from side to side are no evidence of what belongs there.
    """
    left, right = readings.balls_left.diameter.size, readings.balls_right.diameter.size
    if left is not None and right is not None and abs(left - right) >= SAME_BALL:
        return shell
    rows: dict[str, RowGeometry] = {}
    for side in SIDES:
        row: RowGeometry = getattr(shell, side)
        balls = getattr(readings, f"balls_{side}")
        size = balls.diameter.size
        if size is None or abs(size - row.ball_diameter) < SAME_BALL:
            continue
        count = balls.count or int(pi / asin(size / row.pitch_diameter) - USUAL_ROOM / 2)
        rows[side] = row.replace(
            ball_diameter=size, ball_count=count, pitch_diameter=usual_pitch_diameter(size, count)
        )
    return shell.replace(**rows)


def _axle(base: Scenario, readings: Readings, width: float) -> Axle:
    """Return the axle as measured."""
    changes: dict[str, Any] = {}
    if readings.thread is not None:
        diameter, pitch = THREADS[readings.thread]
        changes |= {"thread_diameter": diameter, "thread_pitch": pitch}
        if readings.thread == "3/8 x 26" and base.axle.thread_clearance is None:
            changes["thread_clearance"] = INCH_CLEARANCE
    hollow = None if readings.clamp is None else CLAMP_KINDS[readings.clamp].through_axle
    if hollow is False:
        changes["bore"] = 0.0
    elif hollow and base.axle.bore == 0.0:
        changes["bore"] = USUAL_BORE
    stick_out = [
        getattr(readings, f"protrusion_{side}").size or base.stack.side(side).protrusion for side in SIDES
    ]
    changes["length"] = readings.axle_length.size or width + sum(stick_out)
    return base.axle.replace(**changes)


def _stack(stack: Stacks, readings: Readings) -> Stacks:
    """Return the stacks with the protrusions as measured."""
    changes = {}
    for side in SIDES:
        size = getattr(readings, f"protrusion_{side}").size
        if size is not None:
            changes[side] = stack.side(side).replace(protrusion=size)
    return stack.replace(**changes)


def _clamp(clamp: Clamp, readings: Readings) -> Clamp:
    """Return the clamp of the kind that was seen."""
    if readings.clamp is None or readings.clamp == clamp.kind:
        return clamp
    return Clamp(kind=readings.clamp)
