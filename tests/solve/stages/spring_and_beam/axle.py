"""The axle as a bar its threads load along their length, and as a beam bowed by dropouts out of parallel.

Nothing here is imported from the package. SI throughout. Bars: Hooke. Beam: Euler and Bernoulli with cubic elements
(Timoshenko, Strength of Materials; Zienkiewicz, The Finite Element Method; both from memory, pages not seen).
"""

from dataclasses import dataclass
from math import inf, pi

import numpy as np
from scipy.sparse import coo_array
from scipy.sparse.linalg import spsolve


@dataclass(frozen=True, kw_only=True)
class ClampedHalf:
    """Half an axle with cone and nut as bars on threads that carry along their whole length. Lengths [m], areas [m²].

    `cone` and `nut` are the inboard and outboard ends from mid-axle, `race` where the balls stand on the cone;
    `teeth` [m/N] is the compliance of all the teeth in mesh, of either part.
    """

    cone: tuple[float, float]
    nut: tuple[float, float]
    race: float
    young: float
    axle_area: float
    cone_area: float
    stack_area: float
    teeth: float
    pitch_of_mesh: float = 0.1e-3

    def race_travel(self, *, force: float) -> float:
        """Return how far the race moves inboard [m] as `force` [N] closes on the nut's outer face."""
        step = self.pitch_of_mesh
        places = [round(x / step) for x in (*self.cone, *self.nut)]
        start, cone_out, nut_in, end = places
        axle, body = 0, end + 1  # the outer bar is cone, washers and nut in one, its nodes start at `start`
        links = [(axle + i, axle + i + 1, self.young * self.axle_area / step) for i in range(end)]
        for i in range(start, end):
            inside = cone_out <= i < nut_in
            area = self.stack_area if inside else self.cone_area
            links.append((body + i - start, body + i + 1 - start, self.young * area / step))
        for low, high in ((start, cone_out), (nut_in, end)):
            share = 1.0 / (self.teeth * (high - low))
            for i in range(low, high + 1):
                links.append((i, body + i - start, share * (0.5 if i in (low, high) else 1.0)))
        loads = np.zeros(body + end - start + 1)
        loads[-1] = force
        travel = _travels(links, loads)
        return float(travel[body + round(self.race / step) - start])


def _travels(links: list[tuple[int, int, float]], loads: np.ndarray) -> np.ndarray:
    """Return the travel of each node [m]; node 0 is held."""
    first, second, stiff = (np.array(column) for column in zip(*links, strict=True))
    rows = np.concatenate((first, second, first, second))
    columns = np.concatenate((first, second, second, first))
    values = np.concatenate((stiff, stiff, -stiff, -stiff))
    size = len(loads)
    matrix = coo_array((values, (rows, columns)), shape=(size, size)).tocsc()
    return np.concatenate(([0.0], spsolve(matrix[1:, 1:], loads[1:])))


def bar_shortening(*, force: float, lengths: list[float], areas: list[float], young: float) -> float:
    """Return how far a stepped bar shortens [m], by a chain of a hundred springs to each length."""
    links: list[tuple[int, int, float]] = []
    for length, area in zip(lengths, areas, strict=True):
        for _ in range(100 if length else 0):
            links.append((len(links), len(links) + 1, young * area / (length / 100)))
    loads = np.zeros(len(links) + 1)
    loads[-1] = force
    return float(_travels(links, loads)[-1])


@dataclass(frozen=True, kw_only=True)
class Beam:
    """An axle between two dropout faces: `lengths` [m] with bending stiffness E·I of each, `bending` [N·m²]."""

    lengths: list[float]
    bending: list[float]
    elements: int = 20

    def bow(self, *, angles: tuple[float, float], yielding: float = 0.0, most: float = inf) -> "Bow":
        """Return the axle bowed by dropouts that stand at `angles` [rad] to its straight line.

        `yielding` [rad/(N·m)] is how far each dropout turns with the moment; no end carries more than `most`
        [N·m]: what the clamp can hold before its face opens.
        """
        stiffness, places = self._assembled()
        turns = np.array([1, 2 * len(places) - 1])
        unit = self._turned_by_unit_moments(stiffness, turns)
        moments = np.linalg.solve(unit[turns] + yielding * np.eye(2), np.array(angles))
        moments = np.clip(moments, -most, most)
        return Bow(places=places, shape=unit @ moments, moments=moments)

    @staticmethod
    def _turned_by_unit_moments(stiffness: np.ndarray, turns: np.ndarray) -> np.ndarray:
        """Return deflections and slopes (2 n, 2) under a moment of 1 N·m at either end; both ends held sideways."""
        size = len(stiffness)
        free = np.setdiff1d(np.arange(size), [0, size - 2])
        loads = np.zeros((size, 2))
        loads[turns, [0, 1]] = 1.0
        unit = np.zeros((size, 2))
        unit[free] = np.linalg.solve(stiffness[np.ix_(free, free)], loads[free])
        return unit

    def _assembled(self) -> tuple[np.ndarray, np.ndarray]:
        """Return the stiffness of deflections and slopes in turn (2 n, 2 n) and the nodes' places (n,)."""
        cuts = [np.full(self.elements, length / self.elements) for length in self.lengths]
        steps, bending = np.concatenate(cuts), np.repeat(self.bending, self.elements)
        places = np.concatenate(([0.0], np.cumsum(steps)))
        stiffness = np.zeros((2 * len(places), 2 * len(places)))
        for i, (a, EI) in enumerate(zip(steps, bending, strict=True)):
            element = [[12, 6 * a, -12, 6 * a], [6 * a, 4 * a * a, -6 * a, 2 * a * a]]
            element += [[-12, -6 * a, 12, -6 * a], [6 * a, 2 * a * a, -6 * a, 4 * a * a]]
            stiffness[2 * i : 2 * i + 4, 2 * i : 2 * i + 4] += EI / a**3 * np.array(element)
        return stiffness, places


@dataclass(frozen=True, kw_only=True)
class Bow:
    """A bowed axle: nodes at `places` (n,) [m], `shape` (2 n,) deflections [m] and slopes [rad] in turn."""

    places: np.ndarray
    shape: np.ndarray
    moments: np.ndarray

    def slope(self, place: float) -> float:
        """Return the slope [rad] at a place along the axle [m]."""
        return float(np.interp(place, self.places, self.shape[1::2]))


def ring_inertia(*, outer: float, inner: float) -> float:
    """Return the second moment of area of a ring [m⁴]."""
    return pi / 64 * (outer**4 - inner**4)


def moment_opening_face(*, force: float, outer: float, inner: float) -> float:
    """Return the moment [N·m] at which a ring face pressed by `force` [N] begins to open at its edge.

    Plane sections: the bending stress at the rim equals the pressure there.
    """
    area = pi / 4 * (outer**2 - inner**2)
    return force / area * ring_inertia(outer=outer, inner=inner) / (outer / 2)
