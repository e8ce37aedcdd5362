"""Numbers as a mechanic says them: turns, directions, sides, play."""

from math import copysign, floor, pi

from conemodel.base.units import DEG, MM, NEWTON
from conemodel.parts.unknowns.hands import HAND_FORCE

CLOCK_MINUTE = 2 * pi / 60
"""One minute on a clock face [rad]."""

MANY = 20
"""Half minutes of a clock face above which an angle is said in whole minutes. Judgement."""

_NOISE = 1e-9
"""Of an angle over half a minute, so that what lies between two is rounded up whatever its last digit."""

STAGE_WORDS = {
    "contact": "finger contact",
    "backed_off": "backed off",
    "locked": "locked",
    "clamped": "clamped",
    "ridden": "under the rider",
}
"""What each stage is called."""

SIXTEENTHS = ("", "1/16", "1/8", "3/16", "1/4", "5/16", "3/8", "7/16", "1/2")


def digits_apart(value: float, other: float, *, least: int, most: int) -> int:
    """Return how many digits two numbers need after the point to be seen to differ, from `least` to `most`.

    >>> digits_apart(0.096, 0.129, least=1, most=3), digits_apart(0.31, 0.42, least=1, most=3)
    (2, 1)
    """
    each = range(least, most)
    return next((digits for digits in each if f"{value:.{digits}f}" != f"{other:.{digits}f}"), most)


def direction(length: float) -> str:
    """Return which way the cone goes, seen from outside on its own side; `length` [m] positive is out.

    >>> direction(-1e-5)
    'in (clockwise)'
    """
    return "out (anticlockwise)" if length > 0 else "in (clockwise)"


def fraction_of_turn(angle: float) -> str:
    """Return an angle [rad] as the nearest sixteenth of a turn, or as less than one.

    >>> fraction_of_turn(pi / 2)
    '1/4 turn'
    """
    sixteenths = round(abs(angle) / (2 * pi) * 16)
    whole, rest = divmod(sixteenths, 16)
    if sixteenths == 0:
        return "less than 1/16 turn"
    part = (
        SIXTEENTHS[rest]
        if rest <= 8
        else f"{rest}/16"
        if rest % 2
        else f"{rest // 2}/8"
        if rest % 4
        else "3/4"
    )
    if whole and rest:
        return f"{whole} {part} turns"
    return f"{whole} turn{'s' if whole > 1 else ''}" if whole else f"{part} turn"


def turn_size(angle: float, *, spanner: float) -> str:
    """Return the size of a turn [rad] in degrees, clock minutes and travel at the end of a spanner [m].

    >>> turn_size(0.349, spanner=0.15)
    '20° (3½ minutes on a clock face, 52 mm at the end of a 150 mm spanner)'
    """
    size = abs(angle)
    clock = clock_minutes(max(size, CLOCK_MINUTE / 2))
    travel = MM.from_si(size * spanner)
    return (
        f"{DEG.from_si(size):.0f}° ({clock} on a clock face, {travel:.0f} mm at the end of a "
        f"{MM.from_si(spanner):.0f} mm spanner)"
    )


def firm_hand(spanner: float) -> str:
    """Return what torque a firm hand makes at the end of a spanner [m].

    >>> firm_hand(0.15)
    'A firm hand, 120 N at the end of 150 mm, gives some 18 N·m'
    """
    force = HAND_FORCE.usual
    return f"A firm hand, {force:g} N at the end of {MM.from_si(spanner):.0f} mm, gives some {force * spanner:.0f} N·m"


def clock_face_turn(angle: float) -> str:
    """Return a turn of the cone [rad] as a hand makes it: minutes of a clock face, and these in degrees.

    >>> clock_face_turn(-0.5), clock_face_turn(0.05)
    ('5 minutes in (clockwise), 30° on a clock face', 'half a minute out (anticlockwise), 3° on a clock face')
    >>> clock_face_turn(1.2)  # 69°
    '11 minutes out (anticlockwise), 66° on a clock face'
    """
    turned = abs(round_on_clock(angle))
    return f"{clock_minutes(turned)} {direction(angle)}, {DEG.from_si(turned):.0f}° on a clock face"


def round_on_clock(angle: float, *, to_half: bool = False) -> float:
    """Return an angle [rad] as it is said: to half a minute of a clock face, to a whole one above ten.

    `to_half`: above ten as well, where a hand is to go right there.

    >>> [round(DEG.from_si(round_on_clock(DEG.to_si(angle)))) for angle in (-18.6, 62, 63, 4.5)]
    [-18, 60, 66, 6]
    """
    halves = abs(angle) / CLOCK_MINUTE * 2
    step = 1 if to_half or halves <= MANY else 2
    rounded = step * floor(halves / step + 0.5 + _NOISE)
    return copysign(rounded * CLOCK_MINUTE / 2, angle)


def clock_minutes(angle: float, *, to_half: bool = False) -> str:
    """Return the size of an angle [rad] as minutes of a clock face, rounded as it is said, or always `to_half` a one.

    >>> clock_minutes(pi / 2), clock_minutes(-0.11), clock_minutes(0.16), clock_minutes(0.05)
    ('15 minutes', '1 minute', '1½ minutes', 'half a minute')
    """
    whole, half = divmod(round(abs(round_on_clock(angle, to_half=to_half)) / CLOCK_MINUTE * 2), 2)
    if half:
        return f"{whole}½ minutes" if whole else "half a minute"
    return f"{whole} minute{'' if whole == 1 else 's'}"


def force_words(force: float) -> str:
    """Return a force [N] as far as it is known: to two figures, and to whole newtons.

    >>> force_words(1776.5), force_words(304.0), force_words(8.31)
    ('1800 N', '300 N', '8 N')
    """
    return f"{float(f'{NEWTON.from_si(force):.2g}'):.0f} N"
