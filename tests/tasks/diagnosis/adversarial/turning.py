"""What fingers meet as a hub turns: how stiff it is, how much that changes over a turn, and what they call it.

Nothing here is imported from the package. SI throughout. Torque of loaded balls: Palmgren, from memory, page not seen.
Dents: the slope of a cosine squared that every ball runs over at once, by hand.
"""

from dataclasses import dataclass

import numpy as np

from tests.tasks.diagnosis.adversarial.rows import Rows, bring_to_rest

POSITIONS = 6
"""Places of the wheel at which it is felt, over a turn of the balls."""

RATING = 7e3
"""Static axial rating of a row [N]: nine balls of 6.35 mm at 4200 MPa; it enters by its cube root."""

GREASE = 9e-3
"""Torque of grease and seals that fingers meet beside it [N·m]."""

STIFF = 12e-3
"""Torque of the balls from which a usual hand calls an axle tight [N·m]."""

NOTICED, LEAST = 0.13, 1e-3
"""Change of torque a usual hand notices: a share of its level, and never less than so much [N·m]."""

DENT_LENGTH = 0.2e-3
"""Half the length of a dent along its track [m]."""


@dataclass(frozen=True, kw_only=True)
class Torque:
    """Torque of the loaded balls, its swing over a turn and the ripple of dents, (n,) [N·m]."""

    level: np.ndarray
    swing: np.ndarray
    ripple: np.ndarray

    def word(self, number: int, hand: float) -> str:
        """Return what a hand says of a hub; `hand` is its threshold over a usual one's."""
        level = float(self.level[number])
        noticed = hand * max(NOTICED * (level + GREASE), LEAST)
        if self.ripple[number] > noticed:
            return "notchy"
        if self.swing[number] > noticed:
            return "tight in one place"
        return "tight" if level > hand * STIFF else "free"


def torque_of(rows: Rows, *, end_play: np.ndarray, dent: np.ndarray) -> Torque:
    """Return the torque of hubs that carry nothing, at `end_play` with dents of a depth (n,) [m]."""
    turns = np.empty((POSITIONS, len(rows)))
    preload = np.empty_like(turns)
    for place in range(POSITIONS):
        turn = np.full(len(rows), 4 * np.pi * place / POSITIONS)  # the balls go round about half as fast
        standing = rows.turned(turn, np.repeat(turn[:, None] / 2, 2, axis=1))
        rest = bring_to_rest(standing, end_play=end_play, load=np.zeros((len(rows), 5)))
        turns[place], preload[place] = _palmgren(rows, rest.balls), rest.preload
    gamma = rows.ball * np.cos(rows.angle) / rows.pitch
    arm = rows.pitch / 4 * (1 - gamma**2)
    slope = np.pi / 2 * dent / DENT_LENGTH
    ripple = preload.mean(axis=0) / np.sin(rows.angle) * arm * slope
    return Torque(level=turns.mean(axis=0), swing=np.ptp(turns, axis=0), ripple=ripple)


def _palmgren(rows: Rows, balls: np.ndarray) -> np.ndarray:
    """Return the torque of both rows (n,) [N·m]: 0.001 (Fa/C0)^0.33 times 0.9 Fa cot α times the pitch diameter."""
    thrust = (balls * np.sin(rows.angle)[:, None, None]).sum(axis=2)
    load = 0.9 * thrust / np.tan(rows.angle)[:, None]
    return np.asarray((1e-3 * (thrust / RATING) ** 0.33 * load * rows.pitch).sum(axis=1))
