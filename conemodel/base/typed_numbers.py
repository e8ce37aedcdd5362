"""Numbers as a person types them, on the command line or in a link: read as far as they mean anything."""

import math
import re

from conemodel.base.units import DEG, TURN

_FRACTION = re.compile(r"([+-]?)\s*(?:(\d{1,9})\s+)?(\d{1,9})\s*/\s*(\d{1,9})", re.ASCII)
_DEGREES = re.compile(r"([+-]?\d{1,9}(?:\.\d{0,20})?)\s*(?:°|deg|degrees)", re.ASCII)

TURN_FORMS = "must be a fraction of a turn (1/4), a decimal (0.25) or degrees (90deg)"

MOST_DIGITS = 18
"""Most digits of a whole number, leading noughts left out."""


def parse_turn(text: str) -> float:
    """Return a turn as typed, in [rad]: ``1/4``, ``1 1/8``, ``0.25``, ``90deg``, ``90°``; positive is out.

    Raises:
        ValueError: with the forms that are understood.

    >>> round(parse_turn("1/4"), 6), round(parse_turn("90deg"), 6), round(parse_turn("0.25"), 6)
    (1.570796, 1.570796, 1.570796)
    """
    text = text.strip()
    if match := _FRACTION.fullmatch(text):
        sign, whole, part, of = match.groups()
        if int(of) == 0:
            raise ValueError(TURN_FORMS)
        turns = int(whole or 0) + int(part) / int(of)
        return TURN.to_si(-turns if sign == "-" else turns)
    if match := _DEGREES.fullmatch(text):
        return DEG.to_si(float(match[1]))
    try:
        turn = TURN.to_si(float(text))
    except ValueError:
        raise ValueError(TURN_FORMS) from None
    if not math.isfinite(turn):
        raise ValueError(TURN_FORMS)
    return turn


def parse_whole(text: str, *, least: int, most: int) -> int:
    """Return a whole number as typed, from `least` to `most`, both 0 or more.

    Raises:
        ValueError: with the limits.

    >>> parse_whole(" 007 ", least=1, most=10)
    7
    """
    digits = text.strip()
    if digits.isascii() and digits.isdecimal():
        short = digits.lstrip("0") or "0"
        if len(short) <= MOST_DIGITS and least <= int(short) <= most:
            return int(short)
    raise ValueError(f"must be a whole number from {least} to {most}")
