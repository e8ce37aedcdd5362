"""Words and numbers as they stand on every picture and in every table."""

from conemodel.base.units import DEG, MM, NEWTON, NEWTON_MM
from conemodel.parts.felt_play import felt_word
from conemodel.parts.setting import Limits
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.setting.stage_result import StageResult
from conemodel.tasks.wording import STAGE_WORDS as SPOKEN_STAGES
from conemodel.tasks.wording import force_words

STAGE_WORDS = {name: words.capitalize() for name, words in SPOKEN_STAGES.items()}
"""What each stage is called on screen."""

TIGHTER, LOOSER = "← squeeze", "play →"
"""What lies on either side of nought on a scale of end play."""

MINUS = "\N{MINUS SIGN}"


def number(value: float, digits: int, *, sign: bool = False) -> str:
    """Return a number with a proper minus sign and never a negative zero; `sign` also writes the plus.

    >>> number(-0.0634, 3), number(0.25, 2, sign=True), number(-0.0001, 2)
    ('−0.063', '+0.25', '0.00')
    """
    return typeset(f"{value:+.{digits}f}" if sign else f"{value:.{digits}f}")


def typeset(text: str) -> str:
    """Return a written number with a proper minus sign; zero has no sign.

    >>> typeset("-7"), typeset("+0.0")
    ('−7', '0.0')
    """
    return text.lstrip("+-") if float(text) == 0.0 else text.replace("-", MINUS)


def millimetres(length: float, *, sign: bool = False) -> str:
    """Return a length [m] in mm to the micrometre.

    >>> millimetres(7.27e-5)
    '0.073 mm'
    """
    return f"{number(MM.from_si(length), 3, sign=sign)} mm"


def play_words(end_play: float, *, unit: str = "") -> str:
    """Return an end play [m] in mm as hands find it, no sign: play, or squeeze where balls are pinched.

    `unit` " mm" writes it where no heading does.

    >>> play_words(7.27e-5), play_words(-8.4e-6, unit=" mm"), play_words(-1e-8)
    ('0.073 play', '0.008 mm squeeze', 'just touching')
    """
    size = number(abs(MM.from_si(end_play)), 3)
    if float(size) == 0.0:
        return "just touching"
    return f"{size}{unit} {'play' if end_play > 0 else 'squeeze'}"


def play_range_words(tight: float, loose: float, *, unit: str = "") -> str:
    """Return a range of end play [m] in mm as hands find it; `unit` as in `play_words`.

    >>> play_range_words(-2e-5, 3e-5), play_range_words(1e-5, 3e-5, unit=" mm")
    ('0.020 squeeze to 0.030 play', '0.010 to 0.030 mm play')
    """
    low, high = play_words(tight, unit=unit), play_words(loose, unit=unit)
    return f"{low.removesuffix(f'{unit} {high.split()[-1]}')} to {high}"


def change_words(before: float, after: float) -> str:
    """Return by how much an end play [m] changed, in mm, so that what is printed of both and this adds up.

    >>> play_words(2.464e-4), change_words(2.464e-4, 1.426e-4), play_words(1.426e-4)
    ('0.246 play', '−0.103', '0.143 play')
    """
    change = round(MM.from_si(after), 3) - round(MM.from_si(before), 3)
    return number(change, 3, sign=True)


def degrees(angle: float, *, sign: bool = False) -> str:
    """Return an angle [rad] in whole degrees, in tenths below two.

    >>> degrees(1.5708), degrees(0.01)
    ('90°', '0.6°')
    """
    value = DEG.from_si(angle)
    return f"{number(value, 1 if abs(value) < 2 else 0, sign=sign)}°"


def cone_place(angle: float) -> str:
    """Return a place of the cone [rad], counted from where the balls just touch, without a sign.

    >>> cone_place(1.5708), cone_place(-0.06), cone_place(0.0)
    ('90° out', '3° in', '0.0°')
    """
    size = degrees(abs(angle))
    return size if float(size.rstrip("°")) == 0.0 else f"{size} {'out' if angle > 0 else 'in'}"


def newtons(force: float) -> str:
    """Return a force [N], in kN from ten thousand on.

    >>> newtons(304.2)
    '304 N'
    """
    if abs(force) >= 1e4:
        return f"{force / 1e3:.1f} kN"
    return f"{NEWTON.from_si(force):.0f} N"


def torque_band(low: float, high: float) -> str:
    """Return both edges of what turning takes [N·m] in N·mm, one number where they print alike.

    >>> torque_band(4.96e-3, 11.83e-3), torque_band(0.0, 0.0)
    ('5.0 to 11.8', '0.0')
    """
    edges = [f"{NEWTON_MM.from_si(edge):.1f}" for edge in (low, high)]
    return " to ".join(dict.fromkeys(edges))


def preload_words(stage: StageResult) -> str:
    """Return with what force a stage pinches the balls; empty where it pinches none."""
    return f"preload {force_words(stage.preload)}" if stage.end_play <= 0 < stage.preload else ""


def felt_at_both(limits: Limits, stage: StageResult) -> str:
    """Return what a hand says to the play at the rim and at the axle end."""
    rim = felt_word(limits, "rim", stage.rim_play)
    return f"{rim} / {felt_word(limits, 'axle end', stage.axle_end_play)}"


def cone_angle(prediction: Prediction, length: float) -> float:
    """Return a length along the axle [m] as a turn of the cone [rad]."""
    return length / prediction.scenario.axle.lead_per_radian


def capital(words: str) -> str:
    """Return words with a capital first; what follows stays, since units and names have capitals of their own.

    >>> capital("play along the axle, 10 N")
    'Play along the axle, 10 N'
    """
    return words[:1].upper() + words[1:]
