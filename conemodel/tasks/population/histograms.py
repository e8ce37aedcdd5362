"""Counts in place of values: quantiles and curves of any number of hubs in the same small memory.

Only whole numbers are added up, so a count does not depend on how the hubs were divided into chunks.
"""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from conemodel.base.units import DEG, Array

Counts = npt.NDArray[np.int64]
Chosen = npt.NDArray[np.bool_]

BACK_OFFS: Array = DEG.to_si(1.0) * np.arange(-90, 361, dtype=np.float64)
"""Back-offs of a curve [rad]: every degree from a quarter turn in to a whole turn out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Histogram:
    """How many hubs lie in each bin: `edges` (n + 1,) [SI], `counts` (n,); empty ends are cut off."""

    edges: Array
    counts: Counts


@dataclass(frozen=True, slots=True, kw_only=True)
class BackOffCurve:
    """Shares of hubs against a fixed back-off: `angle` (n,) [rad]; `loose`, `right`, `tight` (n,) [-]."""

    angle: Array
    loose: Array
    right: Array
    tight: Array

    @property
    def best(self) -> tuple[float, float]:
        """The back-off that puts most hubs right [rad], and their share [-]; the middle one of equals."""
        top = np.flatnonzero(self.right == self.right.max())
        return float(self.angle[top[(len(top) - 1) // 2]]), float(self.right.max())


class Tally:
    """Counts of one number in fine even bins, by kind of hub; what lies outside is counted in the end bins."""

    def __init__(self, kinds: int, *, low: float, high: float, bins: int) -> None:
        """Start with nothing counted."""
        self.low, self.width, self.bins = low, (high - low) / bins, bins
        self.counts: Counts = np.zeros((kinds, bins), dtype=np.int64)

    def add(self, kind: Counts, values: Array) -> None:
        """Count `values` (n,) of hubs of each `kind` (n,)."""
        place = np.clip((values - self.low) / self.width, 0, self.bins - 1).astype(np.int64)
        flat = np.bincount(kind * self.bins + place, minlength=self.counts.size)
        self.counts += flat.reshape(self.counts.shape)

    def quantiles(self, chosen: Chosen, shares: Iterable[float]) -> dict[float, float]:
        """Return the value below which each share of the hubs of `chosen` kinds lies, even within a bin."""
        summed = np.concatenate(([0], np.cumsum(self.counts[chosen].sum(axis=0))))
        if summed[-1] == 0:
            return dict.fromkeys(shares, 0.0)
        found: dict[float, float] = {}
        for share in shares:
            wanted = share * summed[-1]
            place = max(int(np.searchsorted(summed, wanted, side="left")) - 1, 0)
            inside = (wanted - summed[place]) / max(summed[place + 1] - summed[place], 1)
            # zeros stand in the first bin and are not spread over its width
            found[share] = float(self.low + self.width * (place + inside if place else 0.0))
        return found

    def histogram(self, chosen: Chosen, *, every: int) -> Histogram:
        """Return the counts of `chosen` kinds, so many bins taken together."""
        counts = self.counts[chosen].sum(axis=0).reshape(-1, every).sum(axis=1)
        full = np.flatnonzero(counts)
        first, last = (int(full[0]), int(full[-1]) + 1) if full.size else (0, 1)
        edges: Array = self.low + self.width * every * np.arange(first, last + 1, dtype=np.float64)
        return Histogram(edges=edges, counts=counts[first:last])


class BackOffTally:
    """Counts of the hubs that are loose, right or tight at each of `BACK_OFFS`, by kind."""

    def __init__(self, kinds: int) -> None:
        """Start with nothing counted."""
        shape = (kinds, len(BACK_OFFS) + 1)
        self.enter: Counts = np.zeros(shape, dtype=np.int64)
        self.leave: Counts = np.zeros(shape, dtype=np.int64)

    def add(self, kind: Counts, low: Array, high: Array) -> None:
        """Count hubs that are right from `low` to `high` (n,) [rad] of back-off; none where they are reversed."""
        step, last = BACK_OFFS[1] - BACK_OFFS[0], len(BACK_OFFS)
        enter = np.clip(np.ceil((np.minimum(low, high) - BACK_OFFS[0]) / step), 0, last).astype(np.int64)
        leave = np.clip(np.floor((high - BACK_OFFS[0]) / step) + 1, 0, last).astype(np.int64)
        for counts, place in ((self.enter, np.minimum(enter, leave)), (self.leave, leave)):
            counts += np.bincount(kind * (last + 1) + place, minlength=counts.size).reshape(counts.shape)

    def curve(self, chosen: Chosen) -> BackOffCurve:
        """Return the shares of the hubs of `chosen` kinds at each back-off."""
        total = max(int(self.enter[chosen].sum()), 1)
        entered = np.cumsum(self.enter[chosen].sum(axis=0))[:-1]
        left = np.cumsum(self.leave[chosen].sum(axis=0))[:-1]
        return BackOffCurve(
            angle=BACK_OFFS,
            loose=left / total,
            right=(entered - left) / total,
            tight=(total - entered) / total,
        )
