"""Every way a hub may be, apart from its end play and clamp force: what is the matter, and how badly."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from scipy.special import ndtr

from conemodel.base.units import Array
from conemodel.parts.clamp_kinds import CLAMP_KINDS, ClampName
from conemodel.parts.priors import Beliefs
from conemodel.parts.readings import Readings, Size
from conemodel.parts.scenario import Scenario
from conemodel.tasks.diagnosis.causes import CAUSES
from conemodel.tasks.diagnosis.fit_of_ends import ends_ask_for_nuts
from conemodel.tasks.diagnosis.looks import chance_of_checks

LEAST = 1e-9
"""Least chance a cause keeps, whatever was measured: nothing is ever ruled out by arithmetic alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One way a hub may be.

    Attributes:
        cause: one of `parts.priors.CAUSES`; weight: its chance before play and turning are looked at.
        nutted: axle nuts hold the wheel.
        tilt: of both cones, as a bent axle leans them [rad]; skew: of cone and cup of one row, both out of true [rad].
        odd: how much larger one ball of a row is [m]; dent: depth of dents [m].
        rocking: play at the rim from a cone on a worn-out thread, or a broken axle [m].
        rub: drag of what rubs, whatever the cone does [N·m].
        elsewhere: play at the rim, in the frame, that is not the hub's [m].
        closing: share of the usual clamp force that closes it.
        lean: how far both dropouts lean outward [rad].
    """

    cause: str
    weight: float
    nutted: bool
    tilt: float = 0.0
    skew: float = 0.0
    odd: float = 0.0
    rub: float = 0.0
    dent: float = 0.0
    rocking: float = 0.0
    elsewhere: float = 0.0
    closing: float = 1.0
    lean: float = 0.0


def cases_of(readings: Readings, scenario: Scenario, beliefs: Beliefs, described: bool) -> tuple[Case, ...]:
    """Return every case with its chance after all looks that need no physics, such as counts and protrusions."""
    known = readings.clamp or (scenario.clamp.kind if described else None)
    kinds: dict[ClampName, float] = {"quick release": 1 - beliefs.solid_axle, "nuts": beliefs.solid_axle}
    if known is not None:
        kinds = {known: 1.0}
    elif ends_ask_for_nuts(readings):
        kinds = {
            kind: share * (1 - beliefs.slip if kind == "nuts" else beliefs.slip)
            for kind, share in kinds.items()
        }
    found = [
        case
        for kind, share in kinds.items()
        for case in _weigh_cases(readings, scenario, beliefs, kind, share)
    ]
    total = sum(case.weight for case in found)
    scaled = [scale_case(case, 1 / total) for case in found]
    return tuple(scaled)


def scale_case(case: Case, by: float) -> Case:
    """Return a case with its weight multiplied."""
    return Case(**{name: getattr(case, name) for name in Case.__slots__} | {"weight": case.weight * by})


def _weigh_cases(
    readings: Readings, scenario: Scenario, beliefs: Beliefs, kind: ClampName, share: float
) -> Iterator[Case]:
    """Yield the cases of one kind of clamp, whose chance is `share`."""
    chances = {cause: beliefs.chance(cause) for cause in ("sound", *likely_causes(kind))}
    if "proud" in chances:
        chances = _with_proud(chances, chance_of_proud(readings, scenario, beliefs))
    for cause, chance in chances.items():
        seen = (
            chance_of_checks(readings.checks, cause, beliefs)
            * chance_of_balls(readings, scenario, beliefs, cause)
            * chance_of_slack(readings, scenario, beliefs, cause)
        )
        variants = list(_variants(cause, not CLAMP_KINDS[kind].through_axle, beliefs))
        for variant in variants:
            yield scale_case(variant, share * max(chance * seen, LEAST) / len(variants))


def likely_causes(kind: ClampName) -> tuple[str, ...]:
    """Return the causes other than a sound hub there can be.

    Only a quick release is fooled by a proud axle: axle nuts need it to stand out, and a thru-axle's hub sits
    between the dropouts.
    """
    by_ends = CLAMP_KINDS[kind].held_by_ends
    return tuple(name for name, cause in CAUSES.items() if by_ends or not cause.needs_ends)


def _variants(cause: str, nutted: bool, beliefs: Beliefs) -> Iterator[Case]:
    """Yield a cause in each of its degrees, weights not set yet."""
    degrees = CAUSES[cause].degrees(beliefs) if cause in CAUSES else ({},)
    yield from (Case(cause=cause, weight=1.0, nutted=nutted, **degree) for degree in degrees)


def _with_proud(chances: dict[str, float], proud: float) -> dict[str, float]:
    """Return the chances with that of a proud axle as measured; the others share the rest as before."""
    rest = sum(chance for cause, chance in chances.items() if cause != "proud")
    others = {cause: chance * (1 - proud) / rest for cause, chance in chances.items() if cause != "proud"}
    return {**others, "proud": proud}


def chance_of_proud(readings: Readings, scenario: Scenario, beliefs: Beliefs) -> float:
    """Return the chance that an axle end stands proud of its dropout, from protrusions and thickness alone.

    A side is proud where protrusion less thickness is not below 0; both measured lengths are normal about what was
    read. A side nobody measured, or a thickness nobody measured, keeps the chance it had before.
    """
    thick = readings.dropout_thickness
    each = []
    for size in (readings.protrusion_left, readings.protrusion_right):
        if size.size is None or thick.size is None:
            each.append(beliefs.proud / 2)
        else:
            each.append(_at_least(size, thick))
    return min(max(1 - (1 - each[0]) * (1 - each[1]), LEAST), 1 - LEAST)


def _at_least(size: Size, other: Size) -> float:
    """Return the chance that one measured length is not below another."""
    apart = (size.size or 0.0) - (other.size or 0.0)
    return float(ndtr(apart / np.hypot(size.uncertainty, other.uncertainty)))


def chance_of_balls(readings: Readings, scenario: Scenario, beliefs: Beliefs, cause: str) -> float:
    """Return the chance of the balls that were found if a `cause` is the matter."""
    chance = 1.0
    odd = 0.5 if cause == "wrong_balls" else beliefs.slip / 4
    for name in ("left", "right"):
        balls, row = getattr(readings, f"balls_{name}"), getattr(scenario.hub, name)
        if balls.count is not None:
            chance *= odd if balls.count != row.ball_count else 1 - odd
        if balls.diameter.size is not None:
            off = (balls.diameter.size - row.ball_diameter) / np.hypot(balls.diameter.uncertainty, 0.02e-3)
            chance *= odd if abs(off) > 3 else 1 - odd
    return chance


def chance_of_slack(readings: Readings, scenario: Scenario, beliefs: Beliefs, cause: str) -> float:
    """Return the chance of finding the thread's slack beyond its class, or within, if a `cause` is the matter."""
    measured = readings.thread_slack
    if measured.size is None:
        return 1.0
    beyond = float(ndtr((measured.size - scenario.axle.most_backlash) / measured.uncertainty))
    yes = 1 - beliefs.slip if cause == "worn_thread" else beliefs.slip
    return beyond * yes + (1 - beyond) * (1 - yes)


def column(cases: tuple[Case, ...], name: str) -> Array:
    """Return a number of every case as an array (c, 1, 1) that goes with end play and clamp force."""
    return np.array([float(getattr(case, name)) for case in cases])[:, None, None]
