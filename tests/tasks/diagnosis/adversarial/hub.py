"""The hubs: a usual rear hub by its sizes, and how far each that comes in differs from it.

Nothing here is imported from the package. What is drawn was fixed before anything was tried. A range is even; a factor
either way holds two thirds of a logarithm's normal. SI throughout.
"""

from dataclasses import dataclass, field
from math import log, radians

import numpy as np

from tests.tasks.diagnosis.adversarial.clamp import Axle
from tests.tasks.diagnosis.adversarial.rows import Rows

AXLE = Axle()
BALL, COUNT, PITCH = 6.35e-3, 9, 20e-3
RIM = 0.311
"""Radius at which the rim is rocked [m]."""

SPACING = 83e-3
LEAD = AXLE.pitch / (2 * np.pi)

FAULTS = ("skew cup", "odd ball", "bent axle", "dents", "play elsewhere")
"""What one hub of ten has two of at once. One hub of ten has a skew cup alone, one an odd ball alone."""

ANGLE = (radians(36), radians(44))
GROOVE = (0.53, 0.62)
SPACING_OFF = 2.5e-3
OUT_OF_PARALLEL = radians(1)
CLAMP, CLAMP_FACTOR = 5e3, 1.4
WHEEL, WHEEL_FACTOR = 60e3, 1.3
TILT = (1e-3, 5e-3)
ODD = (5e-6, 20e-6)
DENT = (1e-6, 4e-6)
ELSEWHERE = (0.15e-3, 0.9e-3)
OPEN = (0.02e-3, 0.22e-3)
"""End play with the clamp open [m], of which a usual clamp takes some 0.055 mm: most hubs come in loose."""

EARLIER = (radians(10), radians(60))
"""How far the cone of every second hub was turned in before it is looked at again [rad]."""

HAND = radians(1.5)
"""Standard error of a turn of the cone from a mark [rad]: ±3° holds it nineteen times in twenty."""


def factor(dice: np.random.Generator, either_way: float) -> float:
    """Return a factor about 1 that lies within `either_way` two times in three."""
    return float(np.exp(log(either_way) * dice.standard_normal()))


@dataclass(kw_only=True)
class Hub:
    """One hub as it came in. Lengths [m], angles [rad].

    Attributes:
        lean: of both dropouts, outward; clamp: force [N]; wheel: stiffness at the rim [N/m].
        opened: end play with the clamp open, as the last look finds it.
        earlier: turn of the cone in before that look as the mechanic states it, None where there is one look only.
        missed: how far the hand missed that turn.
        cone_tilt, cup_tilt: (2, 2); oversize: (2, COUNT); dent: depth; elsewhere: play at the rim not the hub's.
    """

    angle: float
    cone_groove: float
    cup_groove: float
    spacing: float
    core_share: float
    clamp: float
    wheel: float
    lean: np.ndarray
    opened: float
    earlier: float | None
    missed: float
    faults: tuple[str, ...]
    cone_tilt: np.ndarray = field(default_factory=lambda: np.zeros((2, 2)))
    cup_tilt: np.ndarray = field(default_factory=lambda: np.zeros((2, 2)))
    oversize: np.ndarray = field(default_factory=lambda: np.zeros((2, COUNT)))
    dent: float = 0.0
    elsewhere: float = 0.0

    @property
    def opens(self) -> tuple[float, ...]:
        """End play with the clamp open at each look."""
        if self.earlier is None:
            return (self.opened,)
        return self.opened + LEAD * (self.earlier + self.missed), self.opened


def draw_hub(dice: np.random.Generator, *, again: bool) -> Hub:
    """Return a hub; `again` says that it is looked at a second time, its cone turned in between."""
    total, share = dice.uniform(0, OUT_OF_PARALLEL), dice.uniform()
    hub = Hub(
        angle=dice.uniform(*ANGLE),
        cone_groove=dice.uniform(*GROOVE),
        cup_groove=dice.uniform(*GROOVE),
        spacing=SPACING + dice.uniform(-SPACING_OFF, SPACING_OFF),
        core_share=dice.uniform(),
        clamp=CLAMP * factor(dice, CLAMP_FACTOR),
        wheel=WHEEL * factor(dice, WHEEL_FACTOR),
        lean=total * np.array((share, 1 - share)) * dice.choice((-1.0, 1.0)),
        opened=dice.uniform(*OPEN),
        earlier=dice.uniform(*EARLIER) if again else None,
        missed=HAND * dice.standard_normal(),
        faults=_faults(dice),
    )
    for fault in hub.faults:
        _break(hub, fault, dice)
    return hub


def _faults(dice: np.random.Generator) -> tuple[str, ...]:
    """Return what is the matter with a hub beside its setting: seven of ten are sound."""
    kind = dice.uniform()
    if kind < 0.1:
        return tuple(str(one) for one in dice.choice(FAULTS, size=2, replace=False))
    return ("skew cup",) if kind < 0.2 else ("odd ball",) if kind < 0.3 else ()


def _break(hub: Hub, fault: str, dice: np.random.Generator) -> None:
    """Give a hub a fault."""
    row, around = int(dice.integers(2)), dice.uniform(0, 2 * np.pi)
    tilt = dice.uniform(*TILT) * np.array((np.cos(around), np.sin(around)))
    match fault:
        case "skew cup":
            hub.cup_tilt[row] = tilt
        case "bent axle":
            hub.cone_tilt[:] = tilt, -tilt
        case "odd ball":
            hub.oversize[row, 0] = dice.uniform(*ODD) * dice.choice((-1.0, 1.0))
        case "dents":
            hub.dent = dice.uniform(*DENT)
        case "play elsewhere":
            hub.elsewhere = dice.uniform(*ELSEWHERE)


def rows_of(hubs: list[Hub]) -> Rows:
    """Return the rows of hubs, the clamp open."""

    def each(name: str) -> np.ndarray:
        return np.array([getattr(hub, name) for hub in hubs])

    return Rows(
        ball=BALL,
        count=COUNT,
        pitch=PITCH,
        angle=each("angle"),
        cone_groove=each("cone_groove"),
        cup_groove=each("cup_groove"),
        spacing=each("spacing"),
        yielding=AXLE.yielding(each("spacing"), each("core_share")),
        cone_tilt=each("cone_tilt"),
        cup_tilt=each("cup_tilt"),
        oversize=each("oversize"),
        phase=np.zeros((len(hubs), 2)),
    )
