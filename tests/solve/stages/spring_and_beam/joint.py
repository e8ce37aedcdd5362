"""The locked joint as a network of springs with gaps: nut, washers, cone and the axle between their threads.

Nothing here is imported from the package, so that the package can be held against it. SI throughout; positions
along the axle are positive outboard. Thread as an inclined plane with V flanks: Shigley, Mechanical Engineering
Design, from memory, page not seen.
"""

from dataclasses import dataclass
from math import atan, cos, inf, pi, radians, tan

import numpy as np
from scipy.optimize import brentq

GROUND = -1
SEATING = 1e-3
"""Force that rests a loose cone on its outboard flank, as the balls would [N]."""
TETHER = 1.0
"""Stiffness that keeps a part nothing touches from being anywhere at all [N/m]."""


@dataclass(frozen=True, kw_only=True)
class Spring:
    """Between two nodes; elongations from `low` to `high` [m] carry no force, beyond them `compliance` [m/N] acts."""

    start: int
    end: int
    compliance: float
    low: float = 0.0
    high: float = 0.0

    def force(self, place: np.ndarray) -> float:
        """Return the force that pulls the two nodes together [N], below 0 where it pushes them apart."""
        long = _at(place, self.end) - _at(place, self.start)
        return (max(long - self.high, 0.0) + min(long - self.low, 0.0)) / self.compliance


def _at(place: np.ndarray, node: int) -> float:
    return 0.0 if node == GROUND else float(place[node])


def settle(springs: list[Spring], loads: np.ndarray) -> np.ndarray:
    """Return where the nodes come to rest [m] under `loads` [N]: Newton with an exact search along each step.

    The energy is convex and made of parabolas, so the active flanks are found in a few steps.
    """
    count = len(loads)
    place = np.zeros(count)
    for _ in range(60):
        slope = _slope(springs, loads, place)
        if np.abs(slope).max() < 1e-7:
            return place
        stiffness = TETHER * np.eye(count)
        for spring in springs:
            if spring.force(place) != 0.0 or spring.low == spring.high:
                row = np.zeros(count)
                for node, sign in ((spring.end, 1.0), (spring.start, -1.0)):
                    if node != GROUND:
                        row[node] = sign
                stiffness += np.outer(row, row) / spring.compliance
        step = -np.linalg.solve(stiffness, slope)
        place = place + _best(springs, loads, place, step) * step
    raise RuntimeError("the network did not settle")


def _best(springs: list[Spring], loads: np.ndarray, place: np.ndarray, step: np.ndarray) -> float:
    def along(share: float) -> float:
        return float(_slope(springs, loads, place + share * step) @ step)

    return 1.0 if along(1.0) <= 0.0 else float(brentq(along, 0.0, 1.0, xtol=1e-15, rtol=1e-14))


def _slope(springs: list[Spring], loads: np.ndarray, place: np.ndarray) -> np.ndarray:
    slope: np.ndarray = TETHER * place - loads
    for spring in springs:
        force = spring.force(place)
        if spring.end != GROUND:
            slope[spring.end] += force
        if spring.start != GROUND:
            slope[spring.start] -= force
    return slope


AXLE, CONE, NUT = 0, 1, 2
"""Nodes of one side: axle at the middle of the nut's thread, cone, nut. The axle at the cone's thread is ground."""

SHARE_OF_NUT = {"nut turned": 1.0, "both": 0.5, "cone turned out": 0.0}


@dataclass(frozen=True, kw_only=True)
class LockedSide:
    """One side of a hub: compliances [m/N], backlashes [m], where both parts are screwed to and what came of it.

    `cone_at` and `nut_at` are the outboard flanks along the axle [m]: turning a part moves its own.
    """

    cone_thread: float
    nut_thread: float
    segment: float
    stack: float
    cone_backlash: float
    nut_backlash: float
    cone_at: float = 0.0
    nut_at: float = 0.0

    def at_rest(self, *, on_nut: float = 0.0, on_axle: float = 0.0) -> tuple[float, float]:
        """Return where the cone stands [m] and the force through the stack [N] under loads on nut and axle end [N]."""
        springs = [
            Spring(start=GROUND, end=AXLE, compliance=self.segment),
            Spring(
                start=GROUND,
                end=CONE,
                compliance=self.cone_thread,
                low=self.cone_at - self.cone_backlash,
                high=self.cone_at,
            ),
            Spring(
                start=AXLE,
                end=NUT,
                compliance=self.nut_thread,
                low=self.nut_at - self.nut_backlash,
                high=self.nut_at,
            ),
            Spring(start=CONE, end=NUT, compliance=self.stack, high=inf),
        ]
        place = settle(springs, np.array([on_axle, SEATING, on_nut]))
        return float(place[CONE]), -springs[-1].force(place)

    def turned(self, *, cone: float = 0.0, nut: float = 0.0) -> "LockedSide":
        """Return the same side with both parts turned by these leads [m], outboard above 0."""
        changed = {"cone_at": self.cone_at + cone, "nut_at": self.nut_at + nut}
        return LockedSide(**{**self.__dict__, **changed})

    def run_snug(self) -> "LockedSide":
        """Return the side with the nut run on until it has pushed the cone through its slack without force."""
        return self.turned(nut=-self.cone_backlash)

    def lock(self, *, force: float, technique: str) -> "LockedSide":
        """Return the side closed until `force` [N] goes through the stack; no force, no turn."""
        if force <= 0.0:
            return self
        nut = SHARE_OF_NUT[technique]

        def closed(by: float) -> "LockedSide":
            return self.turned(cone=(1 - nut) * by, nut=-nut * by)

        parts = self.cone_thread + self.nut_thread + self.segment + self.stack
        most = self.cone_backlash + 1.01 * force * parts + 1e-6
        return closed(float(brentq(lambda by: closed(by).at_rest()[1] - force, 0.0, most, xtol=1e-14)))

    def clamped_travel(self, *, force: float, entry: str) -> float:
        """Return how far a clamp force [N] moves the cone along the axle's thread [m], inboard below 0."""
        on_nut = 0.0 if entry == "axle end" else -force
        on_axle = {"locknut": 0.0, "axle end": -force, "axle nut": force}[entry]
        return self.at_rest(on_nut=on_nut, on_axle=on_axle)[0] - self.at_rest()[0]


def force_of_torque(*, torque: float, diameter: float, pitch: float, friction: float, face: float) -> float:
    """Return the force [N] of a nut turned with `torque` [N·m]: V flanks of 60° up a slope, rubbing at `face` [m]."""
    middle = diameter - 0.75 * tan(radians(60)) / 2 * pitch
    slope, rubbing = atan(pitch / (pi * middle)), atan(friction / cos(radians(30)))
    return torque / (middle / 2 * tan(slope + rubbing) + friction * face)


def thread_compliance(*, diameter: float, root_area: float, young: float, core_share: float) -> float:
    """Return the compliance of an engaged thread [m/N]: 0.4 d of nominal section, a share of 0.5 d of the root.

    VDI 2230, from memory.
    """
    teeth = 0.4 * diameter / (young * pi / 4 * diameter**2)
    return teeth + core_share * 0.5 * diameter / (young * root_area)
