"""A simulated mechanic who measures a hub of `bench_of_its_own` at pen marks and makes the turns that are advised.

Shares no formula with the package. SI throughout. What is drawn was fixed before anything was tried: a dial within
0.01 mm, written to 0.01 mm; its stand and the hand give up to 0.3 µm/N, stop to stop; a turn from a pen mark within 3°,
evenly; each locking with a drift and a pull of its own; each closing of the lever within 5 % (one standard deviation);
pushes 1.3 times as hard or soft as meant.
"""

from dataclasses import dataclass, field
from math import radians, tan

import numpy as np
from scipy.optimize import brentq

from tests.tasks.real_hub.bench_of_its_own import COUNT, LEAD, RIM, Hub

TURN = radians(3.0)
"""Furthest that a turn from a pen mark misses [rad]."""

FELT, STIFF, PRESSED, LIVED = 0.1e-3, 12e-3, 2000 / 4200, -30e-6
"""The good range: free play at the rim [m], torque from preload [N·m], pressure on the cone over the rating's; and the
end play at which fatigue life is half its best [m], an order of size from the project's design notes."""


@dataclass(frozen=True, kw_only=True)
class Gauge:
    """What reads a play: furthest error [m], division [m]."""

    along_axle: bool = True
    error: float = 0.01e-3
    division: float = 0.01e-3


DIAL = Gauge()
RIM_DIAL = Gauge(along_axle=False)
RULER = Gauge(along_axle=False, error=0.5e-3, division=0.5e-3)


def good_range(hub: Hub) -> tuple[float, float]:
    """Return the tight and the loose end of a hub's own good range [m]."""
    loose = brentq(lambda end_play: hub.rim_play(end_play) - FELT, 1e-6, 80e-6)
    _, rating = hub._balls()
    preload = COUNT * rating * PRESSED**3 * np.sin(hub.angle)
    ends, preloads, _ = hub._squeezed
    pressed = float(np.interp(preload, preloads, ends))
    return max(hub.drag_end_play(STIFF), pressed, LIVED), float(loose)


@dataclass(kw_only=True)
class Bench:
    """A hub in the hand of one who measures it: where its cone stands, and how it was locked and clamped last."""

    hub: Hub
    gauge: Gauge
    dice: np.random.Generator
    slack_taken: float = 0.0
    at: float = 0.0
    taken: float = 0.0
    clamp: float = 0.0
    softer: float = 1.0
    pushed: float = field(init=False)
    stand: float = field(init=False)

    def __post_init__(self) -> None:
        self.pushed = 1.3 ** self.dice.standard_normal()
        self.stand = self.dice.uniform(0.02e-6, 0.3e-6)

    def turn(self, by: float) -> None:
        """Undo the locknut and turn the cone by so much [rad] from where it stands."""
        self.at += by + self.dice.uniform(-TURN, TURN)
        self.taken = self.clamp = 0.0

    def lock(self) -> None:
        drift = radians(self.dice.triangular(2, 3, 5))
        self.taken = self.hub.locked_by(drift, 1.12 ** self.dice.standard_normal())

    def close(self) -> None:
        self.clamp = self.hub.clamp_give * self.softer * (1 + 0.05 * self.dice.standard_normal())

    @property
    def end_play(self) -> float:
        return self.hub.contact + self.at * LEAD - self.taken - self.clamp

    def read(self, pushes: tuple[float, ...]) -> tuple[float, ...]:
        """Return the plays read under pushes [N]; what the gauge errs by is the same under all of them."""
        off = self.dice.uniform(-self.gauge.error, self.gauge.error)
        plays = (self._play(push * self.pushed) + off for push in pushes)
        step = self.gauge.division
        return tuple(max(round(play / step) * step, 0.0) for play in plays)

    def _play(self, push: float) -> float:
        if self.gauge.along_axle:
            return max(self.end_play, 0.0) + self._balls(push) + self.stand * push
        return self.hub.rim_play(self.end_play) + 2 * push / self.hub.wheel + self._rocked(push)

    def _balls(self, push: float) -> float:
        """Return what both rows give under a push along the axle, one after the other, without preload."""
        stiffness, _ = self.hub._balls()
        sine = np.sin(self.hub.angle)
        return float(2 * (push / (COUNT * sine) / stiffness) ** (2 / 3) / sine)

    def _rocked(self, push: float) -> float:
        """Return what the balls give at a rim that is pushed: the moment as a couple on both rows."""
        half = self.hub.spacing / 2 + 10e-3 * tan(self.hub.angle)
        couple = push * RIM / (2 * half) / (COUNT / 4)  # a quarter of each row carries most of it
        stiffness, _ = self.hub._balls()
        pressed = (couple / np.cos(self.hub.angle) / stiffness) ** (2 / 3) / np.cos(self.hub.angle)
        return float(2 * pressed * RIM / half)

    def is_right(self) -> bool:
        tight, loose = good_range(self.hub)
        return bool(tight <= self.end_play <= loose)
