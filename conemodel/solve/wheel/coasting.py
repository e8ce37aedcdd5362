"""A wheel let spin until it stops: the motion integrated under torques that depend on its speed."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from conemodel.base.errors import NotConverged
from conemodel.base.units import Array

RELATIVE, ABSOLUTE = 1e-9, 1e-12
"""Error allowed in a step of the integration: of the value, and below it in SI."""

CURVE_POINTS = 121
"""Points of a curve of speed over time."""

SPEED_POINTS = 2000
"""Points of the sum over speed where only the time is wanted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Coast:
    """A wheel coasting to rest.

    Attributes:
        time: (n,) [s], from 0 to the stop; speed: (n,) [rad/s]; turned: angle gone through (n,) [rad].
        stop_time: when it stands [s].
        start_energy: of the spinning wheel [J]; spent: by each torque until the stop [J].
    """

    time: Array
    speed: Array
    turned: Array
    stop_time: float
    start_energy: float
    spent: Mapping[str, float]


Torque = Callable[[Array], Array]


def coast(*, inertia: float, start_speed: float, torques: Mapping[str, Torque]) -> Coast:
    """Integrate I dω/dt = -Σ M(ω) from `start_speed` [rad/s] until the wheel stands.

    `inertia` [kg·m²]; each of `torques` takes speeds [rad/s] and returns torques [N·m] of the same shape, which
    together must stay above 0. What each takes in energy is integrated beside the motion.

    Raises:
        NotConverged: the wheel does not come to rest.
    """
    each = list(torques.values())

    def change(_: float, state: Array) -> Array:
        speed = state[:1]
        torque = np.concatenate([np.broadcast_to(one(np.maximum(speed, 0.0)), (1,)) for one in each])
        return np.concatenate((-torque.sum(keepdims=True) / inertia, speed, torque * speed))

    def standing(_: float, state: Array) -> float:
        return float(state[0])

    standing.terminal = True  # type: ignore[attr-defined]
    standing.direction = -1.0  # type: ignore[attr-defined]
    at_rest = sum(float(np.asarray(one(np.zeros(1))).item()) for one in each)
    if at_rest <= 0.0:
        raise NotConverged("nothing brings this wheel to rest: no torque is left at standstill")
    start = np.zeros(2 + len(each))
    start[0] = start_speed
    longest = 1.01 * inertia * start_speed / at_rest  # no torque falls below that at rest as speed rises
    from scipy.integrate import solve_ivp  # half a second to load, and a prediction does without

    found = solve_ivp(
        change,
        (0.0, longest),
        start,
        method="LSODA",
        events=standing,
        dense_output=True,
        rtol=RELATIVE,
        atol=ABSOLUTE,
    )
    stops, states, curve_at = found.t_events, found.y_events, found.sol
    if stops is None or states is None or curve_at is None or stops[0].size == 0:
        raise NotConverged(f"the wheel did not come to rest: {found.message}")
    stop, last = float(stops[0][0]), states[0][0]
    time = np.linspace(0.0, stop, CURVE_POINTS)
    curve = curve_at(time)
    return Coast(
        time=time,
        speed=np.maximum(curve[0], 0.0),
        turned=curve[1],
        stop_time=stop,
        start_energy=inertia * start_speed**2 / 2,
        spent={name: float(energy) for name, energy in zip(torques, last[2:], strict=True)},
    )


def coasting_time(*, inertia: float, start_speed: float, steady: Array, torque: Torque) -> Array:
    """Return the time to rest t = I ∫ dω/M(ω) for each `steady` torque (n,) [N·m] beside `torque`, (n,) [s].

    The same motion as `coast` with the variables parted: no step in time, many wheels at once.
    """
    middle = start_speed * (np.arange(SPEED_POINTS) + 0.5) / SPEED_POINTS
    whole = steady[..., None] + torque(middle)
    with np.errstate(divide="ignore"):
        time: Array = inertia * (start_speed / SPEED_POINTS / whole).sum(axis=-1)
    return time
