"""The good range: the end plays, once clamped, that leave no felt play and an acceptable preload."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

import numpy as np
from scipy.interpolate import PchipInterpolator

from conemodel.base.units import MM, MPA, NEWTON_MM, ONE, Array, Unit
from conemodel.parts.bearing import Pair
from conemodel.parts.mounting import Wheel
from conemodel.parts.scenario import Scenario
from conemodel.parts.setting import Limits
from conemodel.solve.curves import LOOSE_END, TIGHT_END, hub_curves, life_curve, road_load
from conemodel.solve.felt import felt_curve
from conemodel.solve.positions import touching_end_play
from conemodel.solve.stages import pair_of

NOWHERE = 10e-3
"""Edge of a limit on tightness that no end play meets [m]: looser than any hub, so that no setting is good."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """One limit of the good range.

    Attributes:
        name: its field in the scenario's limits; label: in words.
        side: the side of the range it bounds.
        edge: end play at which it is just met [m]; the end of the range looked at where it never is.
        value: the limit itself, SI; unit: what to print it in.
        binding: it is the first to be met on its side.
    """

    name: str
    label: str
    side: Literal["loose", "tight"]
    edge: float
    value: float
    unit: Unit
    binding: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """The good range of a hub, clamped.

    Attributes:
        loose_edge, tight_edge: its ends, end play [m]; tight_edge is the smaller.
        target: end play to aim at, the middle [m].
        limits: every limit that is switched on.
    """

    loose_edge: float
    tight_edge: float
    limits: tuple[Limit, ...]

    @property
    def target(self) -> float:
        """End play to aim at [m]: the middle, where the hand has most room for error on both sides."""
        return (self.loose_edge + self.tight_edge) / 2

    @property
    def width(self) -> float:
        """Width [m]; not above zero where no setting is good."""
        return self.loose_edge - self.tight_edge

    def state(self, end_play: float) -> Literal["loose", "right", "tight"]:
        """Return where a clamped end play [m] lies."""
        if end_play > self.loose_edge:
            return "loose"
        return "tight" if end_play < self.tight_edge else "right"


def window_of(scenario: Scenario) -> Window:
    """Return the good range of a scenario's hub once clamped; it does not depend on the setting.

    Errors: `NotConverged`.
    """
    return _window(pair_of(scenario), scenario.wheel, scenario.limits)


@lru_cache(maxsize=64)
def _window(pair: Pair, wheel: Wheel, limits: Limits) -> Window:
    """Return the good range from the parts it depends on."""
    found, touching = list(_limits(pair, wheel, limits)), touching_end_play(pair)
    loose = min((limit.edge for limit in found if limit.side == "loose"), default=touching + LOOSE_END)
    tight = max((limit.edge for limit in found if limit.side == "tight"), default=touching + TIGHT_END)
    ends = {"loose": loose, "tight": tight}
    bound = tuple(replace(limit, binding=limit.edge == ends[limit.side]) for limit in found)
    return Window(loose_edge=loose, tight_edge=tight, limits=bound)


def _limits(pair: Pair, wheel: Wheel, limits: Limits) -> Iterator[Limit]:
    """Yield every limit that is switched on, with its edge; which one binds is not known yet."""
    curves = hub_curves(pair)
    if "rim_play" not in limits.off:
        edge = felt_curve(pair, wheel.rim_radius).end_play_at(limits.rim_play)
        yield _limit("rim_play", "no play felt at the rim", "loose", edge, limits.rim_play, MM)
    if "torque" not in limits.off:
        edge = _last_above(curves.end_play, curves.torque, limits.torque)
        yield _limit("torque", "turning torque from preload", "tight", edge, limits.torque, NEWTON_MM)
    if "cone_pressure" not in limits.off:
        edge = _last_above(curves.end_play, curves.cone_pressure, limits.cone_pressure)
        yield _limit("cone_pressure", "pressure on the cone", "tight", edge, limits.cone_pressure, MPA)
    if "life_ratio" not in limits.off:
        edge = life_edge(pair, wheel, limits.life_ratio)
        yield _limit("life_ratio", "fatigue life against its best", "tight", edge, limits.life_ratio, ONE)


def _limit(
    name: str, label: str, side: Literal["loose", "tight"], edge: float, value: float, unit: Unit
) -> Limit:
    return Limit(name=name, label=label, side=side, edge=edge, value=value, unit=unit, binding=False)


def _last_above(end_play: Array, falling: Array, value: float) -> float:
    """Return the end play [m] above which a curve that falls with end play stays under `value`."""
    if falling[0] <= value:
        return float(end_play[0])
    if falling[-1] > value:
        return NOWHERE
    return float(PchipInterpolator(end_play, falling - value).roots(extrapolate=False)[-1])


def life_edge(pair: Pair, wheel: Wheel, ratio: float) -> float:
    """Return the tightest end play [m] whose life under the straight load is `ratio` of the hub's best."""
    curve = life_curve(pair, road_load(wheel, side=False))
    if not np.isfinite(curve.life).all():
        return float(
            curve.end_play[0]
        )  # nothing loads the balls somewhere, so no life can be held against the best
    best = int(np.argmax(curve.life))
    share = curve.life / curve.life[best]
    if share[0] >= ratio or best == 0:
        return float(curve.end_play[0])
    rising = PchipInterpolator(curve.end_play[: best + 1], np.log(share[: best + 1] / ratio))
    return float(rising.roots(extrapolate=False)[-1])
