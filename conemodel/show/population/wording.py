"""Words and numbers of a study of many hubs, as they stand in every table and sentence."""

from conemodel.base.units import DEG, Unit
from conemodel.parts import unknowns
from conemodel.parts.clamp_kinds import CLAMP_KINDS, key_of
from conemodel.parts.distributions import Uncertain
from conemodel.show.formatting import MINUS
from conemodel.tasks.wording import direction, fraction_of_turn

ASSUMED = {
    "hands.finger_torque": unknowns.hands.FINGER_TORQUE.words,
    "hands.back_off_error": unknowns.hands.BACK_OFF_ERROR.words,
    "hands.drift": unknowns.hands.DRIFT.words,
    "hands.lock_torque": unknowns.hands.LOCK_TORQUE.words,
    "threads.fit": f"{unknowns.joint.THREAD_FIT.words}: 0 the tightest allowed, 1 the loosest",
    "threads.give": f"{unknowns.joint.CORE_SHARE.words}, part of their core's stretch",
    "threads.bridging": f"{unknowns.joint.THREAD_BRIDGING.words}, of the way from root to stress area, bridged",
    "threads.friction": "friction in the threads",
    "face_friction": "friction under the locknut",
    "groove": f"{unknowns.hub.GROOVE.words}, in ball diameters",
    **{f"clamp_force.{key_of(name)}": kind.force.words for name, kind in CLAMP_KINDS.items()},
    "tools.keyed_washer": unknowns.joint.KEY_CLEARANCE.words,
    "tools.feeler": unknowns.hands.FEELER_ERROR.words,
    "tools.dial_gauge": unknowns.hands.DIAL_ERROR.words,
}
"""What each spread is of, by its place in the file."""


def turn_words(angle: float) -> str:
    """Return a back-off [rad] in degrees and as a fraction of a turn, with its way where it is inwards."""
    way = "" if angle >= 0 else f" {direction(angle)}"
    return f"{DEG.from_si(abs(angle)):.0f}° ({fraction_of_turn(angle)}){way}"


def spread_words(spread: Uncertain) -> str:
    """Return the ends of a spread with their unit.

    >>> from math import radians
    >>> from conemodel.parts.distributions import UncertainTurn, UncertainForce
    >>> spread_words(UncertainTurn(low=radians(-10), high=radians(10), because="a guess"))
    '−10° to 10°'
    >>> spread_words(UncertainForce(low=3000, high=8000, because="a guess"))
    '3000 to 8000 N'
    """
    unit = type(spread).locate("low")[1]
    low, high = unit.from_si(spread.low), unit.from_si(spread.high)
    return f"{low:g}{unit.symbol if unit is DEG else ''} to {_with_unit(high, unit)}".replace("-", MINUS)


def shape_words(spread: Uncertain) -> str:
    """Return how likely the values of a spread are.

    >>> from conemodel.parts.distributions import UncertainForce
    >>> shape_words(UncertainForce(shape="peaked", low=3000, likely=5000, high=8000, because="a guess"))
    'likeliest 5000 N'
    """
    unit = type(spread).locate("low")[1]
    if spread.low >= spread.high:
        return "known"
    if spread.shape == "peaked":
        return f"likeliest {_with_unit(unit.from_si(spread.top), unit)}"
    return {"even": "all equally likely", "bell": "likeliest in the middle"}[spread.shape]


def _with_unit(value: float, unit: Unit) -> str:
    gap = "" if unit.symbol in ("", "°") else " "
    return f"{value:g}{gap}{unit.symbol}".replace("-", MINUS)


def percent(share: float, error: float = 0.0) -> str:
    """Return a share in percent, with what chance leaves open where that is given.

    >>> percent(0.0788, 0.0009), percent(0.74)
    ('7.9 ± 0.2 %', '74.0 %')
    """
    return f"{share * 100:.1f} ± {2 * error * 100:.1g} %" if error > 0 else f"{share * 100:.1f} %"


def unbroken_percent(share: float) -> str:
    """Return a share in percent, its sign never parted from its number at the end of a line."""
    return percent(share).replace(" %", "\N{NO-BREAK SPACE}%")
