"""What closing a quick release takes off end play: the axle as a rod and a beam, the cones on their threads.

Nothing here is imported from the package. SI throughout. A threaded rod by its stress section, the clamp's share in a
jammed joint, the give of a thread in mesh: VDI 2230, from memory, pages not seen. Dropouts out of parallel: a beam.
"""

from dataclasses import dataclass
from math import pi

import numpy as np

from tests.solve.stages.spring_and_beam.axle import Beam, moment_opening_face, ring_inertia
from tests.solve.stages.spring_and_beam.joint import thread_compliance
from tests.tasks.diagnosis.adversarial.rows import Rows, bring_to_rest

STEEL = 206e9
SHELL = 1 / 220e6
"""How far a shell shortens between its cups [m/N]."""

LEVEL = 100.0
"""Preload at which straight and tilted cones are compared [N]: about what fingers pinch."""


def ring(outer: float, inner: float) -> float:
    """Return the area of a ring [m²]."""
    return pi / 4 * (outer**2 - inner**2)


@dataclass(frozen=True, kw_only=True)
class Axle:
    """A hollow axle with a thread all along, and what is screwed on it, alike on both sides. Lengths [m].

    `outside` is how far each row of balls stands inboard of its locknut's outer face, `on_cone` inboard of the cone's
    outer end; `nut` the locknut's length.
    """

    thread: float = 10e-3
    pitch: float = 1e-3
    bore: float = 5.1e-3
    end: float = 70.5e-3
    outside: float = 23.5e-3
    on_cone: float = 12.75e-3
    cone_thread: float = 15.5e-3
    nut: float = 5e-3
    washer: float = 17e-3
    face: float = 15e-3

    @property
    def root(self) -> float:
        """Diameter at the root of the thread, ISO 68-1 [m]."""
        return self.thread - 1.226869 * self.pitch

    @property
    def section(self) -> float:
        """Stress section of the thread less the bore [m²]."""
        middle = self.thread - 0.649519 * self.pitch
        return ring((middle + self.root) / 2, self.bore)

    def cones_apart(self, spacing: np.ndarray) -> np.ndarray:
        """Return the distance between the middles of the cones' threads [m]."""
        return np.asarray(spacing + 2 * self.on_cone - self.cone_thread)

    def shortening(self, spacing: np.ndarray) -> np.ndarray:
        """Return how far it shortens between the cones [m/N]: Hooke."""
        return np.asarray(self.cones_apart(spacing) / (STEEL * self.section))

    def thread_give(self, core_share: np.ndarray) -> np.ndarray:
        """Return how far a cone moves on its thread [m/N]."""
        size = {"diameter": self.thread, "root_area": ring(self.root, self.bore), "young": STEEL}
        return np.array([thread_compliance(**size, core_share=float(share)) for share in core_share])

    def push_of_cone(self, core_share: np.ndarray) -> np.ndarray:
        """Return how far a clamp pushes one cone along its thread [m/N]: its share through the stack times the give."""
        thread = self.thread_give(core_share)
        between = self.outside - self.on_cone + self.cone_thread / 2 - self.nut / 2
        segment = between / (STEEL * self.section)
        stack = between / (STEEL * ring(self.washer, self.thread))
        return np.asarray((thread + segment) / (2 * thread + segment + stack) * thread)

    def yielding(self, spacing: np.ndarray, core_share: np.ndarray) -> np.ndarray:
        """Return the give of axle, shell and both cones' threads to the pull between the cones [m/N]."""
        return np.asarray(self.shortening(spacing) + SHELL + 2 * self.thread_give(core_share))

    def slopes(self, *, spacing: float, lean: np.ndarray, force: float) -> np.ndarray:
        """Return how far both cones tilt (2,) [rad] between dropouts of a stiff frame that `lean` outward (2,)."""
        width = spacing + 2 * self.outside
        bending = STEEL * ring_inertia(outer=self.root, inner=self.bore)
        most = moment_opening_face(force=force, outer=self.face, inner=self.thread)
        bow = Beam(lengths=[width], bending=[bending], elements=12).bow(angles=(lean[0], -lean[1]), most=most)
        reach = float(self.cones_apart(np.array(spacing))) / 2
        return np.array([bow.slope(width / 2 - reach), bow.slope(width / 2 + reach)])


def taken_by_tilt(rows: Rows, tilt: np.ndarray) -> np.ndarray:
    """Return how far end play must open (n,) [m] for cones tilted by more (n, 2, 2) to carry no more than before."""
    return np.asarray(_at_level(rows.leaning(tilt)) - _at_level(rows))


def _at_level(rows: Rows) -> np.ndarray:
    """Return the end play (n,) [m] at which each hub carries `LEVEL`, by halving."""
    tight, loose = np.full(len(rows), -0.2e-3), np.full(len(rows), 0.8e-3)
    for _ in range(20):
        middle = (tight + loose) / 2
        pressed = bring_to_rest(rows, end_play=middle, load=np.zeros((len(rows), 5))).preload > LEVEL
        tight, loose = np.where(pressed, middle, tight), np.where(pressed, loose, middle)
    return np.asarray((tight + loose) / 2)
