"""Faults no adjustment cures, each with how likely it is, what speaks for it and what to do."""

from collections.abc import Iterator
from dataclasses import dataclass

from conemodel.parts.clamp_kinds import CLAMP_KINDS
from conemodel.parts.readings import Readings
from conemodel.tasks.diagnosis.causes import CAUSES
from conemodel.tasks.diagnosis.evidence import Weighed, evidence_for
from conemodel.tasks.diagnosis.fit_check import Fit
from conemodel.tasks.diagnosis.looks import ELSEWHERE, LOOKS, place_chance
from conemodel.tasks.diagnosis.posterior import Posterior

BLOCKS = 0.5
"""Chance of a fault from which no turn of the cone is advised."""

SOLID_AXLE = "solid axle with nuts"
SOLID_AXLE_ADVICE = (
    "Axle nuts do not shorten the axle between the cones: play that is there on the bench is still "
    "there in the frame. Adjust with no play, and check again after the nuts."
)
"""Axle nuts in words, and what they mean for the work."""

MISFITS = {
    "axle_length": "axle length that does not add up",
    "thread": "thread unlike the hub's",
    "engagement_left": "too little thread for the axle nut on the left",
    "engagement_right": "too little thread for the axle nut on the right",
    "protrusions": "protrusions unlike",
    "frame": "hub and frame of unlike width",
}
"""What is named as a fault where parts do not go together; `Fit.label` names what was looked at."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundFault:
    """A fault that may be there.

    Attributes:
        key: stable name; label: in words.
        chance: how likely it is; before: before anything was read.
        evidence: readings that speak for it, strongest first.
        advice: what to do.
        unsafe: the wheel can come out.
        blocks: so likely that no turn of the cone is advised.
        measured: it follows from sizes alone, not from play and turning.
    """

    key: str
    label: str
    chance: float
    before: float
    evidence: tuple[str, ...]
    advice: str
    unsafe: bool
    blocks: bool
    measured: bool = False


def faults_of(
    posterior: Posterior, readings: Readings, weighed: tuple[Weighed, ...], fits: tuple[Fit, ...]
) -> tuple[FoundFault, ...]:
    """Return every fault there may be, what endangers first, then the likeliest."""
    found = [*_causes(posterior, readings, weighed, fits), *_solid_axle(posterior, readings)]
    found += [
        FoundFault(
            key=fit.key,
            label=MISFITS.get(fit.key, fit.label),
            chance=1.0 if fit.chance is None else fit.chance,
            before=0.0,
            evidence=("as measured",),
            advice=fit.sentence,
            unsafe=fit.unsafe,
            blocks=fit.unsafe,
            measured=True,
        )
        for fit in fits
        if fit.state == "wrong" and not fit.key.startswith(("packing", "margin"))
    ]
    return tuple(sorted(found, key=lambda fault: (not (fault.unsafe and fault.blocks), -fault.chance)))


def _causes(
    posterior: Posterior, readings: Readings, weighed: tuple[Weighed, ...], fits: tuple[Fit, ...]
) -> Iterator[FoundFault]:
    """Yield every cause that is not a sound hub."""
    measured = [fit.sentence for fit in fits if fit.unsafe and fit.key.startswith("margin")]
    advice = {name: cause.advice for name, cause in CAUSES.items()} | {
        "elsewhere": _where(readings, posterior)
    }
    if measured:
        advice["proud"] = " ".join(measured)
    beliefs = posterior.model.beliefs
    for cause in {case.cause: None for case in posterior.model.cases}:
        if cause == "sound":
            continue
        chance = posterior.of(cause)
        yield FoundFault(
            key=cause,
            label=CAUSES[cause].label,
            chance=chance,
            before=beliefs.chance(cause),
            evidence=(*_seen(readings, cause), *evidence_for(cause, weighed)),
            advice=advice[cause],
            unsafe=CAUSES[cause].unsafe,
            blocks=chance > BLOCKS,
            measured=cause == "proud" and bool(measured),
        )


def _seen(readings: Readings, cause: str) -> Iterator[str]:
    """Yield what was seen without measuring that speaks for a cause."""
    for name, look in LOOKS.items():
        if look.shows == cause and getattr(readings.checks, name) == "yes":
            yield name.replace("_", " ")
    if cause == "wrong_balls":
        for side in ("left", "right"):
            count = getattr(readings, f"balls_{side}").count
            if count is not None:
                yield f"{count} balls counted on the {side}"


def _where(readings: Readings, posterior: Posterior) -> str:
    """Return where play that is not the hub's may come from, likeliest first."""
    beliefs = posterior.model.beliefs
    places = sorted(ELSEWHERE, key=lambda name: -place_chance(readings.checks, name, beliefs))
    answered = [name for name in places if getattr(readings.checks, name) == "yes"]
    if answered:
        named = " and ".join(ELSEWHERE[name] for name in answered)
        return f"There is play in {named}: put that right first. {CAUSES['elsewhere'].advice}"
    still = [ELSEWHERE[name] for name in places if getattr(readings.checks, name) is None]
    if not still:
        return f"Freehub, headset, spokes and dropouts were cleared; look at them again. {CAUSES['elsewhere'].advice}"
    return f"Look at {', '.join(still)}. {CAUSES['elsewhere'].advice}"


def _solid_axle(posterior: Posterior, readings: Readings) -> Iterator[FoundFault]:
    """Yield that axle nuts hold the wheel, where they do or may."""
    chance = posterior.of_nuts
    if chance <= 0.0:
        return
    known = readings.clamp is not None and not CLAMP_KINDS[readings.clamp].through_axle
    yield FoundFault(
        key="solid_axle",
        label=SOLID_AXLE,
        chance=chance,
        before=1.0 if known else posterior.model.beliefs.solid_axle,
        evidence=("axle nuts, as seen",) if known else (),
        advice=SOLID_AXLE_ADVICE,
        unsafe=False,
        blocks=False,
    )
