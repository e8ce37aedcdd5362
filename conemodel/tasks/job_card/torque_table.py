"""Torques of a hub's parts: common practice, no source; the maker's figure comes first."""

from dataclasses import dataclass

MARK = "Common practice, no source; the maker's figure first."
"""Stands with every one of these numbers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UsualTorque:
    """What a part is usually tightened with, `low` to `high` [N·m]; `step` asks for it on a card, empty for none."""

    part: str
    low: float
    high: float
    step: str = ""

    @property
    def words(self) -> str:
        """The range with its unit."""
        return f"{self.low:g} to {self.high:g} N·m"


USUAL_TORQUES = (
    UsualTorque(part="Locknut on cone", low=10, high=25, step="locknut_torque"),
    UsualTorque(part="Freehub body's fixing bolt", low=35, high=50, step="freehub_torque"),
    UsualTorque(part="Sprockets' lockring", low=30, high=50),
    UsualTorque(part="Rotor's lockring", low=30, high=50),
    UsualTorque(part="Rotor's bolts, each", low=4, high=6),
    UsualTorque(part="Axle nuts, front", low=15, high=30),
    UsualTorque(part="Axle nuts, rear", low=25, high=40),
    UsualTorque(part="Thru-axle", low=8, high=16),
)
"""In the order in which they are tightened."""


def axle_torque(wheel: str, held_by: str) -> UsualTorque | None:
    """Return what nuts or axle of a wheel are usually tightened with, None where a lever holds it or nobody said.

    >>> axle_torque("rear", "nuts").words
    '25 to 40 N·m'
    """
    part = {"nuts": f"Axle nuts, {wheel}", "thru-axle": "Thru-axle"}.get(held_by)
    return next((one for one in USUAL_TORQUES if one.part == part), None)
