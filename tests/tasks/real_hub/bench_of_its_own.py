"""Real hubs and hands that share nothing with the package: what such a hand counts and reads at such a hub.

Nothing here is imported from the package. SI throughout. The sums are the plainest there are: rows of balls as one
triangle and one spring, play at the rim by the ring of a continuous row, the axle as a rod. Hertz by the fits of
Brewe and Hamrock (1977), the locknut by VDI 2230, drag by Palmgren's load part; all from memory, pages not seen.
"""

from dataclasses import dataclass
from functools import cached_property
from math import cos, pi, radians, sin, sqrt, tan

import numpy as np

BALL, COUNT, PITCH_CIRCLE, RIM = 6.35e-3, 9, 20e-3, 0.311
THREAD, PITCH, BORE, STEEL = 10e-3, 1e-3, 5.1e-3, 206e9
LEAD = PITCH / (2 * pi)
MINUTE = 2 * pi / 60
MIDDLE, ROOT = THREAD - 0.649519 * PITCH, THREAD - 1.226869 * PITCH
ROOT_AREA = pi / 4 * (ROOT**2 - BORE**2)
FACE_RADIUS = 6.25e-3

BOWED = (0.0, 20e-6, 50e-6, 100e-6, 200e-6, 400e-6)
"""End plays at which free play was worked out ball by ball, and its share of the straight line for grooves of 0.52 and
0.56 [-], by an independent computation of the project; the last is its trend, drawn on."""
SHARE = {0.52: (1.0, 0.93, 0.85, 0.78, 0.66, 0.5), 0.56: (1.0, 0.975, 0.94, 0.89, 0.83, 0.74)}

MARK = radians(2.0)
"""Standard error of a count from a pen mark [rad]."""


@dataclass(frozen=True, kw_only=True)
class Hub:
    """One hub. Lengths [m], angles [rad].

    Attributes:
        angle, groove, spacing: of its rows; phase: share by which single balls let it rock further than a ring.
        slack: of the cone's thread; friction: of threads and faces; pinch: torque of the fingers [N·m].
        lock: torque at the locknut [N·m]; thread_give: of one engaged thread [m/N].
        clamp: force [N]; shortened: share of the axle's shortening over its root's section [-].
        wheel: stiffness at the rim [N/m]; rubbing: drag over Palmgren's [-].
    """

    angle: float
    groove: float
    spacing: float
    phase: float
    slack: float
    friction: float
    pinch: float
    lock: float
    thread_give: float
    clamp: float
    shortened: float
    wheel: float
    rubbing: float

    @property
    def clamp_give(self) -> float:
        rod = (self.spacing + 10e-3) / (STEEL * ROOT_AREA) * self.shortened
        return self.clamp * (rod + 2 * 0.6 * self.thread_give)

    def locked_by(self, drift: float, pull: float) -> float:
        """Return what locking takes off end play with a cone that drifts [rad], the nut pulled `pull` times as hard."""
        arm = 0.16 * PITCH + (0.58 * MIDDLE + FACE_RADIUS) * self.friction
        return self.slack + self.lock * pull / arm * self.thread_give + drift * LEAD

    @cached_property
    def contact(self) -> float:
        """End play that the fingers leave."""
        force = self.pinch / (LEAD + self.friction * MIDDLE / (2 * cos(radians(30))))
        ends, preload, _ = self._squeezed
        return float(np.interp(force, preload, ends))

    def drag_end_play(self, torque: float) -> float:
        """Return the end play at which preload drags by a torque."""
        ends, _, torques = self._squeezed
        return float(np.interp(torque, torques, ends))

    def rim_play(self, end_play: float) -> float:
        if end_play <= 0:
            return 0.0
        closer = np.interp(self.groove, (0.52, 0.56), (0, 1))
        share = [np.interp(end_play, BOWED, SHARE[groove]) for groove in (0.52, 0.56)]
        arm = tan(self.angle) / (self.spacing / 2 + PITCH_CIRCLE / 2 * tan(self.angle))
        ring = end_play * (1 + RIM * arm * (1 + self.phase))
        return float(ring * (share[0] + closer * (share[1] - share[0])))

    @cached_property
    def _squeezed(self) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        """End plays, falling, with preload and drag at each."""
        stiffness, rating = self._balls()
        apart = (2 * self.groove - 1) * BALL
        pressed = np.linspace(0, 60e-6, 800)
        length = np.hypot(apart * sin(self.angle) + pressed, apart * cos(self.angle))
        load = stiffness * np.maximum(length - apart, 0.0) ** 1.5
        preload = COUNT * load * (apart * sin(self.angle) + pressed) / length
        gives = (self.spacing + 10e-3) / (STEEL * ROOT_AREA) + 1 / 220e6 + 2 * self.thread_give
        ends = -(2 * pressed + gives * preload)
        f1 = 1e-3 * (preload / (COUNT * rating * sin(self.angle))) ** 0.33
        drag = 2 * f1 * 0.9 * preload / tan(self.angle) * PITCH_CIRCLE
        return ends, preload, drag * self.rubbing

    def _balls(self) -> tuple[float, float]:
        """Return K of Q = K δ^1.5 of a ball between both races, and its load at 4200 MPa on the cone."""
        reduced, gamma = 208e9 / (1 - 0.3**2), BALL * cos(self.angle) / PITCH_CIRCLE
        across, soft, rating = self.groove * BALL / (2 * self.groove - 1), 0.0, 0.0
        for along in (BALL * (1 + gamma) / 2, BALL * (1 - gamma) / 2):
            ratio = across / along
            k, both = 1.0339 * ratio**0.636, 1 / (1 / across + 1 / along)
            second, first = 1.0003 + 0.5968 / ratio, 1.5277 + 0.6023 * np.log(ratio)
            soft += (pi * k * reduced * sqrt(both * second / (4.5 * first**3))) ** (-2 / 3)
            half = (6 * k**2 * second * both / (pi * reduced)) ** (
                1 / 3
            )  # longer half axis, per cube root of load
            rating = (4200e6 * pi * half**2 / (1.5 * k)) ** 3
        return soft**-1.5, rating


def draw_hub(dice: np.random.Generator) -> Hub:
    """Return a hub somewhere about the usual one; what is drawn was fixed before anything was tried."""
    return Hub(
        angle=radians(dice.uniform(36, 44)),
        groove=dice.uniform(0.54, 0.60),
        spacing=88e-3 + dice.uniform(-2.5e-3, 2.5e-3),
        phase=dice.uniform(0, 1 / cos(pi / COUNT) - 1),
        slack=_inside(dice, 0.09e-3, 0.036e-3, 0.015e-3, 0.166e-3),
        friction=_inside(dice, 0.13, 0.025, 0.08, 0.18),
        pinch=dice.triangular(0.05, 0.1, 0.2),
        lock=dice.triangular(10, 15, 20),
        thread_give=2.5e-10 + dice.uniform(0, 1) * 6.1e-10,
        clamp=dice.triangular(3e3, 5e3, 8e3),
        shortened=dice.uniform(0.86, 1.0),
        wheel=60e3 * 1.3 ** dice.standard_normal(),
        rubbing=1.4 ** dice.standard_normal(),
    )


def _inside(dice: np.random.Generator, middle: float, spread: float, low: float, high: float) -> float:
    """Return a number of a bell that lies between two limits."""
    while True:
        drawn = dice.normal(middle, spread)
        if low <= drawn <= high:
            return float(drawn)


@dataclass(frozen=True, kw_only=True)
class Hand:
    """One hand: the play and the drag it just feels [m, N·m], and the factor by which a look differs from them."""

    felt_play: float
    felt_drag: float
    scatter: float = 1.25

    def look(self, threshold: float, dice: np.random.Generator) -> float:
        return float(threshold * self.scatter ** dice.standard_normal())


def draw_hand(dice: np.random.Generator) -> Hand:
    """Return a hand; two thirds lie within a factor of two of the usual one."""
    each = 2.0 ** dice.standard_normal(2)
    return Hand(felt_play=0.1e-3 * each[0], felt_drag=1.9e-3 * each[1])


def end_play_at(hub: Hub, hand_at: float, state: str, dice: np.random.Generator) -> float:
    """Return the end play in a state with the cone meant to stand `hand_at` [rad] out, locked afresh."""
    end_play = hub.contact + (hand_at + MARK * dice.standard_normal()) * LEAD
    if state != "nut loose":
        drift = radians(dice.triangular(2, 3, 5))
        end_play -= hub.locked_by(drift, 1.12 ** dice.standard_normal())
    return end_play - (hub.clamp_give if state == "clamped" else 0.0)


def come_in(
    hub: Hub, hand: Hand, state: str, dice: np.random.Generator, *, step: float = 1.0
) -> tuple[float, float]:
    """Return the smallest count with play and the largest with drag [min], as a hand finds them coming in from loose.

    It stops at a count where it feels drag for the first time.
    """
    count, last = 45.0, 45.0
    rocks = True
    while count > -20:
        end_play = end_play_at(hub, count * MINUTE, state, dice)
        rocks = rocks and hub.rim_play(end_play) > hand.look(hand.felt_play, dice)
        last = count if rocks else last
        if end_play < hub.drag_end_play(hand.look(hand.felt_drag, dice)):
            break
        count -= step
    return last, count
