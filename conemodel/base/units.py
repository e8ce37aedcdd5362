"""Everyday units at the edge, SI inside.

A `Unit` knows its symbol, the suffix a file key carries and its size in SI. Nothing below the edge of the
program ever sees anything but SI.
"""

from dataclasses import dataclass
from math import pi
from typing import TypeVar

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
Floats = float | Array

Number = TypeVar("Number", float, Array)
"""What holds numbers for one hub, or arrays of shape (n,) for many: one of the two throughout."""


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of measurement.

    Attributes:
        symbol: as printed beside a number, ``N·m``.
        suffix: as written at the end of a file key or column name, ``nm``.
        per_si: how many of it make one SI unit, ``1000`` for the millimetre.
    """

    symbol: str
    suffix: str
    per_si: float

    def to_si(self, value: float) -> float:
        """Return `value`, given in this unit, in SI.

        >>> MM.to_si(6.35)
        0.00635
        """
        return value / self.per_si

    def from_si(self, value: float) -> float:
        """Return the SI `value` in this unit.

        >>> MM.from_si(0.00635)
        6.35
        """
        return value * self.per_si


ONE = Unit("", "", 1.0)
PERCENT = Unit("%", "percent", 1e2)
MM = Unit("mm", "mm", 1e3)
UM = Unit("µm", "um", 1e6)
CM2 = Unit("cm²", "cm2", 1e4)
MM2_PER_S = Unit("mm²/s", "mm2_per_s", 1e6)
GRAM = Unit("g", "g", 1e3)
KILOMETRE = Unit("km", "km", 1e-3)
KG_M2 = Unit("kg·m²", "kg_m2", 1.0)
NEWTON = Unit("N", "n", 1.0)
KILONEWTON = Unit("kN", "kn", 1e-3)
NEWTON_METRE = Unit("N·m", "nm", 1.0)
NEWTON_MM = Unit("N·mm", "nmm", 1e3)
UM_PER_N = Unit("µm/N", "um_per_n", 1e6)
N_PER_MM = Unit("N/mm", "n_per_mm", 1e-3)
MPA = Unit("MPa", "mpa", 1e-6)
GPA = Unit("GPa", "gpa", 1e-9)
KELVIN = Unit("°C", "k", 1.0)  # of differences: a mechanic reads degrees
DEG = Unit("°", "deg", 180 / pi)
MRAD = Unit("mrad", "mrad", 1e3)
TURN = Unit("turn", "turns", 1 / (2 * pi))
MINUTE = Unit("min", "minutes", 30 / pi)  # of a clock face: a sixtieth of a turn
