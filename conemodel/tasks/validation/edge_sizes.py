"""What seldom counts in the sum of end play, with its size for the hub in hand."""

from collections.abc import Iterator
from dataclasses import dataclass

from conemodel.base.units import DEG
from conemodel.parts.heat import Heat
from conemodel.parts.scenario import Scenario
from conemodel.solve.stages.terms import LABELS, setting_terms

WARMINGS = (
    ("shell and cups 20 °C warmer, the axle not yet", Heat(shell_warming=20.0)),
    ("all of the hub 80 °C warmer", Heat(shell_warming=80.0, axle_warming=80.0)),
    ("all of the hub 30 °C colder", Heat(shell_warming=-30.0, axle_warming=-30.0)),
)
"""Warmth that is shown: sun or a short descent, a long one, a winter's day. Judgement."""

LEANS = (0.5, 1.0, 2.0)
"""Angles by which both dropouts lean outward that are shown [°]."""

CREPT = 10e-6
"""How far a cup that crept is shown to have moved [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeSize:
    """One case of a term: its `key` and words, `when` it comes, and what it adds to end play.

    Attributes:
        key: of the term, as in the sum.
        when: the case that is shown.
        length: what it adds to end play [m]; angle: the same as a turn of the cone [rad].
    """

    key: str
    when: str
    length: float
    angle: float

    @property
    def what(self) -> str:
        """The term in words."""
        return LABELS[self.key]


def edge_sizes(scenario: Scenario) -> tuple[EdgeSize, ...]:
    """Return what heat, skew dropouts and a cup that crept add to a hub's end play, case by case.

    Clamped in its frame, and otherwise as described.

    Raises:
        NotConverged: no balance of forces was found.
    """
    framed = scenario.with_setting(clamp_seat="dropouts")
    return tuple(
        EdgeSize(key=key, when=when, length=length, angle=length / scenario.axle.lead_per_radian)
        for key, when, length in _cases(framed)
    )


def _cases(framed: Scenario) -> Iterator[tuple[str, str, float]]:
    """Yield the key of a term, the case, and what it adds [m]."""
    for when, heat in WARMINGS:
        yield "heat", when, _length(framed.replace(heat=heat), "ridden", "heat")
    for lean in LEANS:
        angle = DEG.to_si(lean)
        frame = framed.frame.replace(left_dropout_angle=angle, right_dropout_angle=angle)
        when = f"both lean outward by {lean:g}°"
        yield "dropouts", when, _length(framed.replace(frame=frame), "clamped", "dropouts")
    crept = framed.condition.replace(cup_moved_left=CREPT, cup_moved_right=0.0)
    yield (
        "cup_moved",
        "one cup 0.01 mm further in",
        _length(framed.replace(condition=crept), "ridden", "cup_moved"),
    )


def _length(scenario: Scenario, stage: str, key: str) -> float:
    """Return one term of a stage [m], 0 where nothing asks for it."""
    return float(setting_terms(scenario).lengths[stage].get(key, 0.0))
