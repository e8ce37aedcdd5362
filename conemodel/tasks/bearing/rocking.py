"""Rocking the rim: force against movement, with play, contact and the wheel's own flex told apart."""

from dataclasses import dataclass

import numpy as np

from conemodel.base.errors import NotConverged
from conemodel.base.units import Array
from conemodel.parts.scenario import Scenario
from conemodel.solve.freeplay.free_play import rim_direction, solve_free_play
from conemodel.solve.stages.terms import pair_of, setting_terms
from conemodel.solve.wheel.rocking import rocking_curve

PUSH = 20.0
"""Force of a hand rocking the rim [N]. Assumption."""

POINTS = 61
"""Points of the curve, from a push one way to a push the other."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rocking:
    """The rim rocked sideways by a hand, at one stage.

    Attributes:
        stage: or `given` for an end play by itself; end_play: [m].
        force: on the rim, along the axle (n,) [N], both ways.
        bearing: movement of the rim from play and contact (n,) [m].
        wheel: movement from the flex of wheel and spokes, in series (n,) [m].
        total: both together (n,) [m].
        dead_band: free play, stop to stop, with no force at all [m].
        wheel_stiffness: of the wheel alone [N/m].
        contact: movement from stop to full push that is neither play nor wheel, both ways together [m].
    """

    stage: str
    end_play: float
    force: Array
    bearing: Array
    wheel: Array
    total: Array
    dead_band: float
    wheel_stiffness: float
    contact: float


def rock(
    scenario: Scenario, *, stage: str = "clamped", end_play: float | None = None, push: float = PUSH
) -> Rocking:
    """Rock the rim with `push` [N] both ways after `stage`, or at an `end_play` [m].

    A hand cannot tell play from flex by the amount, only by its being free; so play is worked out by itself, as
    movement without force, and never subtracted from the curve.

    Raises:
        NotConverged: no balance of forces was found.
    """
    wheel = scenario.wheel
    pair = pair_of(scenario)
    at = setting_terms(scenario).end_play(stage) if end_play is None else end_play
    # closest about the middle, where play ends and the balls begin to bear
    force = push * np.linspace(-1, 1, POINTS) ** 3
    curve = rocking_curve(
        pair, end_play=at, rim_radius=wheel.rim_radius, force=force, wheel_stiffness=wheel.side_stiffness
    )
    if not curve.converged.all():
        raise NotConverged("no balance of forces was found for this push on the rim")
    play = float(solve_free_play(pair, end_play=at, direction=rim_direction(wheel.rim_radius)).travel)
    bearing, flex = np.asarray(curve.bearing), np.asarray(curve.wheel)
    return Rocking(
        stage=stage if end_play is None else "given",
        end_play=at,
        force=force,
        bearing=bearing,
        wheel=flex,
        total=bearing + flex,
        dead_band=play,
        wheel_stiffness=wheel.side_stiffness,
        contact=float(bearing[-1] - bearing[0] - play),
    )


def bench_and_frame(scenario: Scenario, *, push: float = PUSH) -> tuple[Rocking, Rocking]:
    """Return the rim rocked on the bench, locked, and in the frame, clamped.

    Raises:
        NotConverged: no balance of forces was found.
    """
    return rock(scenario, stage="locked", push=push), rock(scenario, stage="clamped", push=push)
