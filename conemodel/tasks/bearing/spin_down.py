"""What a spinning wheel shows: its drag beside the quoted measurement, how long it spins, where it rests."""

from dataclasses import dataclass
from math import pi

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.scenario import Scenario
from conemodel.physics.friction import quoted_bearing_power
from conemodel.physics.motion import GRAVITY, air_torque, resting_angle
from conemodel.solve.curves.hub_tables import road_load
from conemodel.solve.equilibrium.pair import PairSolution
from conemodel.solve.equilibrium.wheel_positions import solve_positions
from conemodel.solve.stages.terms import pair_of, setting_terms
from conemodel.solve.wheel.ball_drag import load_drag
from conemodel.solve.wheel.coasting import Coast, Torque, coast, coasting_time
from conemodel.solve.wheel.hub_drag import HubDrag, grease_torque, hub_drag

START_SPEED = 8 * pi
"""Speed of a wheel spun hard by hand, four turns a second [rad/s]. Assumption."""

HEAVY_SPOT = (0.010, 0.310)
"""A valve or reflector: 10 g [kg] at 310 mm [m]. Common practice, no source."""

TYRE_HEIGHT = 25e-3
"""From where the rim is held to the road [m]. Assumption."""

QUOTED_FACTOR = 2.0
"""How far the upper edge of a well-set hub's drag may lie from the quoted measurement [-]: other hubs, other grease,
other seals. Judgement."""

ROAD_SPEED = 10.0
"""Speed at which drag is held against the quoted measurement [m/s]."""

WHY_SPIN_PROVES_NOTHING = (
    "A loose hub spins longest: nothing presses its balls together. Spin time rises until the preload is gone and "
    "stays there however much play there is, and it changes more with grease, seals and air than with the cone. "
    "It can show that a hub is too tight, never that it is right."
)
"""Said beside every spin time."""


@dataclass(frozen=True, slots=True, kw_only=True)
class QuotedComparison:
    """Drag of one wheel beside the quoted measurement of whole hubs.

    Attributes:
        road_speed: [m/s]; computed: the hub's drag there under its straight load, in parts.
        quoted: torque of one wheel in the measurement [N·m].
    """

    road_speed: float
    computed: HubDrag
    quoted: float

    @property
    def factors(self) -> tuple[float, float]:
        """Computed over quoted [-], at the lower and at the upper edge of the computed band."""
        return float(self.computed.total) / self.quoted, float(self.computed.total_upper) / self.quoted


@dataclass(frozen=True, slots=True, kw_only=True)
class HeavySpot:
    """A wheel with a heavy spot, let go.

    Attributes:
        torque: that resists it from rest [N·m]; torque_upper: upper edge of its band [N·m].
        moment: most the heavy spot can turn with, m g r [N·m].
        angle: greatest angle from straight down at which it stays put [rad]; a quarter turn where it never swings.
        swings: whether the heavy spot can turn the wheel at all.
    """

    torque: float
    torque_upper: float
    moment: float
    angle: float
    swings: bool


def drag_of(
    scenario: Scenario, *, stage: str = "clamped", end_play: float | None = None, speed: float = 0.0
) -> HubDrag:
    """Return what turns against the wheel hanging in the stand, in parts, mean over its positions [N·m].

    After `stage`, or at a given `end_play` [m]; at `speed` [rad/s]. The wheel's own weight is on the balls.

    Raises:
        NotConverged: no balance of forces was found.
    """
    ends = setting_terms(scenario).end_play(stage) if end_play is None else end_play
    return _drag(scenario, ends, _own_weight(scenario), speed)


def against_quoted(
    scenario: Scenario, *, end_play: float | None = None, road_speed: float = ROAD_SPEED
) -> QuotedComparison:
    """Hold the drag of one ridden wheel against the quoted measurement.

    Raises:
        NotConverged: no balance of forces was found.

    At the clamped setting, or at `end_play` [m], under the straight load. Source: [Martin1998]
    """
    ends = setting_terms(scenario).end_play("clamped") if end_play is None else end_play
    speed = road_speed / (scenario.wheel.rim_radius + TYRE_HEIGHT)
    computed = _drag(scenario, ends, np.asarray(road_load(scenario.wheel, side=False)), speed)
    quoted = float(quoted_bearing_power(road_speed=road_speed)) / 2 / speed
    return QuotedComparison(road_speed=road_speed, computed=computed, quoted=quoted)


def spin_down(
    scenario: Scenario,
    *,
    stage: str = "clamped",
    end_play: float | None = None,
    start_speed: float = START_SPEED,
) -> Coast:
    """Spin the wheel in the stand and let it come to rest; energy spent by load, grease, seals and air.

    Arguments as for `drag_of`; `start_speed` [rad/s].

    Raises:
        NotConverged: no balance of forces was found.
    """
    rest = drag_of(scenario, stage=stage, end_play=end_play)
    load, seals = float(rest.load), float(rest.seals)
    torques: dict[str, Torque] = {
        "load": lambda speed: np.full_like(speed, load),
        "grease": lambda speed: grease_torque(scenario, speed=speed),
        "seals": lambda speed: np.full_like(speed, seals),
        "air": _air(scenario),
    }
    return coast(inertia=scenario.wheel.rim_inertia, start_speed=start_speed, torques=torques)


def spin_times_of(
    scenario: Scenario, *, end_play: Array, start_speed: float = START_SPEED
) -> tuple[PairSolution, Array]:
    """Return the hub hanging in the stand at each `end_play` (n,) [m] and how long it spins (n,) [s].

    Raises:
        NotConverged: no balance of forces was found.
    """
    pair = pair_of(scenario)
    solution = solve_positions(pair, end_play=end_play, load=_own_weight(scenario))
    steady = load_drag(pair, solution).torque.mean(axis=-1) + scenario.condition.seal_torque
    air = _air(scenario)
    time = coasting_time(
        inertia=scenario.wheel.rim_inertia,
        start_speed=start_speed,
        steady=steady,
        torque=lambda speed: grease_torque(scenario, speed=speed) + air(speed),
    )
    return solution, time


def heavy_spot(
    scenario: Scenario,
    *,
    stage: str = "clamped",
    end_play: float | None = None,
    spot: tuple[float, float] = HEAVY_SPOT,
) -> HeavySpot:
    """Return where a heavy `spot` of a mass [kg] at a radius [m] lets the wheel rest.

    Other arguments as for `drag_of`. The torque is that from rest: ball loads, grease and seals.

    Raises:
        NotConverged: no balance of forces was found.
    """
    mass, radius = spot
    drag = drag_of(scenario, stage=stage, end_play=end_play)
    torque = float(drag.total)
    moment = mass * GRAVITY * radius
    angle = float(resting_angle(torque=torque, mass=mass, radius=radius))
    return HeavySpot(
        torque=torque,
        torque_upper=float(drag.total_upper),
        moment=moment,
        angle=angle,
        swings=torque < moment,
    )


def _drag(scenario: Scenario, end_play: float, load: Array, speed: float) -> HubDrag:
    """Return the drag at one end play [m] under a load (5,), mean over the wheel's positions [N·m]."""
    pair = pair_of(scenario)
    solution = solve_positions(pair, end_play=end_play, load=load)
    return hub_drag(scenario, pair, solution, speed=speed).mean()


def _own_weight(scenario: Scenario) -> Array:
    """Return the load of the wheel hanging on its axle (5,) [N, N·m]."""
    return np.array([0.0, -scenario.wheel.rim_mass * GRAVITY, 0.0, 0.0, 0.0])


def _air(scenario: Scenario) -> Torque:
    """Return the torque of the air on the wheel as a function of its speed."""
    wheel = scenario.wheel

    def torque(speed: Array) -> Array:
        return np.asarray(air_torque(drag_area=wheel.air_drag_area, radius=wheel.rim_radius, speed=speed))

    return torque
