"""What is so of a hub: its end play open and closed, and how its rim and its axle move under a push.

Nothing here is imported from the package. SI throughout.
"""

from dataclasses import dataclass

import numpy as np

from tests.tasks.diagnosis.adversarial.clamp import taken_by_tilt
from tests.tasks.diagnosis.adversarial.hub import AXLE, RIM, Hub, rows_of
from tests.tasks.diagnosis.adversarial.rows import Rows, bring_to_rest

BREATH = 0.01
"""Push that stands for none [N]: it moves the rim of a hub without play by less than half a micrometre."""

LOOSE = 0.15e-3
"""End play at which it is seen what faults take off it [m]."""


@dataclass(frozen=True, kw_only=True)
class Truth:
    """Hubs and what is so of them; arrays (n,) [m].

    Attributes:
        open_rows, closed_rows: rows with the clamp open, and closed between leaning dropouts.
        closing: what the clamp takes; bowing: the part that leaning dropouts take, which the closed rows' tilt does.
        hidden: what faults of balls and cups take off the movement along the axle.
    """

    hubs: list[Hub]
    open_rows: Rows
    closed_rows: Rows
    closing: np.ndarray
    bowing: np.ndarray
    hidden: np.ndarray

    @property
    def opened(self) -> np.ndarray:
        """End play open at the last look."""
        return np.array([hub.opened for hub in self.hubs])

    @property
    def closed(self) -> np.ndarray:
        """End play closed at the last look, as the sum of the parts has it."""
        return np.asarray(self.opened - self.closing)

    @property
    def free(self) -> np.ndarray:
        """End play closed that is left to the shell: less than the sum where balls or cups are odd."""
        return np.asarray(self.closed - self.hidden)


def find_truth(hubs: list[Hub]) -> Truth:
    """Return what is so of hubs."""
    rows = rows_of(hubs)
    spacing, core = rows.spacing, np.array([hub.core_share for hub in hubs])
    clamp = np.array([hub.clamp for hub in hubs])
    tilt = np.zeros((len(hubs), 2, 2))
    tilt[..., 0] = [AXLE.slopes(spacing=hub.spacing, lean=hub.lean, force=hub.clamp) for hub in hubs]
    bowing = taken_by_tilt(rows, tilt)
    squeezed = clamp * (AXLE.shortening(spacing) + 2 * AXLE.push_of_cone(core))
    return Truth(
        hubs=hubs,
        open_rows=rows,
        closed_rows=rows.leaning(tilt),
        closing=squeezed + bowing,
        bowing=bowing,
        hidden=_hidden(rows),
    )


def _hidden(rows: Rows, positions: int = 4) -> np.ndarray:
    """Return what faults of balls and cups take off the free movement along the axle, mean over a turn (n,)."""
    loose, lost = np.full(len(rows), LOOSE), np.zeros(len(rows))
    for place in range(positions):
        turn = np.full(len(rows), 2 * np.pi * place / positions)
        standing = rows.turned(turn, np.repeat(turn[:, None] / 2, 2, axis=1))
        lost += LOOSE - move(standing, end_play=loose, way=along_axle(len(rows)), push=BREATH)
    return lost / positions


def along_axle(count: int) -> np.ndarray:
    """Return a push along the axle (n, 5)."""
    return np.tile((1.0, 0.0, 0.0, 0.0, 0.0), (count, 1))


def at_rim(azimuth: np.ndarray) -> np.ndarray:
    """Return a push of 1 N along the axle at the rim's point at `azimuth` (n,), about mid-span (n, 5)."""
    none = np.zeros_like(azimuth)
    return np.stack((none + 1, none, none, RIM * np.sin(azimuth), -RIM * np.cos(azimuth)), axis=1)


def at_axle_end(azimuth: np.ndarray) -> np.ndarray:
    """Return a push of 1 N across the axle at its right end towards `azimuth` (n,), about mid-span (n, 5)."""
    c, s = np.cos(azimuth), np.sin(azimuth)
    return np.stack((0 * c, c, s, -AXLE.end * s, AXLE.end * c), axis=1)


def move(rows: Rows, *, end_play: np.ndarray, way: np.ndarray, push: float) -> np.ndarray:
    """Return how far the point pushed moves (n,) [m] between `push` [N] along `way` (n, 5) and as much against it."""
    count = len(rows)
    both = rows.take(np.tile(np.arange(count), 2))
    load = push * np.concatenate((way, -way))
    found = bring_to_rest(both, end_play=np.tile(end_play, 2), load=load).motion
    return np.asarray(((found[:count] - found[count:]) * way).sum(axis=1))
