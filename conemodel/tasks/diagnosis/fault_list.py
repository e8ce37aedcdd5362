"""Faults no adjustment cures, each with how it was found, how likely it is, what speaks for it and what to do."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from conemodel.parts.clamp_kinds import CLAMP_KINDS, SEE_TO_ANY
from conemodel.parts.readings import Readings
from conemodel.tasks.diagnosis.causes import CAUSES
from conemodel.tasks.diagnosis.evidence import Weighed, evidence_for
from conemodel.tasks.diagnosis.fit import Fit
from conemodel.tasks.diagnosis.fit_of_ends import HELD_BY
from conemodel.tasks.diagnosis.looks import ELSEWHERE, LOOKS, Inspection, found_by_eye, place_chance
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

MEASURED = {
    "packing_left": "wrong_balls",
    "packing_right": "wrong_balls",
    "ball_count": "wrong_balls",
    "ball_size_sides": "wrong_balls",
    "ball_size_left": "wrong_balls",
    "ball_size_right": "wrong_balls",
    "thread_slack": "worn_thread",
    "margin_left": "proud",
    "margin_right": "proud",
}
"""The cause that a wrong fit shows, by its key; others are faults of their own."""

Found = Literal["seen", "measured", "likely"]
"""How a fault was found: by eye, from sizes, or as what explains best how it plays and turns."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundFault:
    """A fault that may be there.

    Attributes:
        key: stable name; label: in words; words: a few, for the largest type.
        found: how; what was seen or measured holds whatever was felt.
        chance: how likely it is; before: before anything was read.
        evidence: readings that speak for it, strongest first.
        advice: what to do.
        unsafe: the wheel can come out.
        blocks: so likely that no turn of the cone is advised.
    """

    key: str
    label: str
    words: str
    found: Found
    chance: float
    before: float
    evidence: tuple[str, ...]
    advice: str
    unsafe: bool
    blocks: bool


def faults_of(
    posterior: Posterior, readings: Readings, weighed: tuple[Weighed, ...], fits: tuple[Fit, ...]
) -> tuple[FoundFault, ...]:
    """Return every fault there may be: what endangers first, then what was seen or measured, then the likeliest."""
    found = [
        *_causes(posterior, readings, weighed, fits),
        *_seen_alone(posterior, readings),
        *_solid_axle(posterior, readings),
        *_misfits(fits),
    ]
    return tuple(sorted(found, key=_rank))


def _rank(fault: FoundFault) -> tuple[bool, bool, bool, float]:
    stops = fault.blocks
    return not (stops and fault.unsafe), not stops, not (stops and fault.found != "likely"), -fault.chance


def _causes(
    posterior: Posterior, readings: Readings, weighed: tuple[Weighed, ...], fits: tuple[Fit, ...]
) -> Iterator[FoundFault]:
    """Yield every cause that is not a sound hub, as seen, as measured, or as it is likely."""
    asked = any(fit.key == HELD_BY for fit in fits)
    for name in dict.fromkeys(case.cause for case in posterior.model.cases if case.cause != "sound"):
        cause, chance = CAUSES[name], posterior.of(name)
        fault = FoundFault(
            key=name,
            label=cause.label,
            words=cause.label,
            found="likely",
            chance=chance,
            before=posterior.model.beliefs.chance(name),
            evidence=(*_seen(readings, name), *evidence_for(name, weighed)),
            advice=_advice(name, readings, posterior),
            unsafe=cause.unsafe,
            blocks=chance > BLOCKS and not asked,  # what holds the wheel decides what play means
        )
        yield _as_found(fault, readings, fits, 1 - posterior.model.beliefs.slip)


def _as_found(fault: FoundFault, readings: Readings, fits: tuple[Fit, ...], sure: float) -> FoundFault:
    """Return a cause as it was seen or measured, `sure` to be there then; as it is where it was neither."""
    wrong = [fit for fit in fits if fit.state == "wrong" and MEASURED.get(fit.key) == fault.key]
    if wrong:
        advice = " ".join(fit.sentence for fit in wrong)
        fault = replace(fault, found="measured", advice=advice, words=wrong[0].words or fault.words)
    seen = [look for look in found_by_eye(readings.checks).values() if _shows_itself(look, fault.key)]
    if seen:
        fault = replace(fault, found="seen", words=seen[0].stop)
    return fault if fault.found == "likely" else replace(fault, chance=max(fault.chance, sure), blocks=True)


def _shows_itself(look: Inspection, cause: str) -> bool:
    """Return whether a look shows the cause itself, and not one of several things that lead to it."""
    return look.shows == cause and not look.advice


def _seen_alone(posterior: Posterior, readings: Readings) -> Iterator[FoundFault]:
    """Yield what was seen that has its own cure."""
    for name, look in found_by_eye(readings.checks).items():
        if look.advice:
            yield FoundFault(
                key=name,
                label=look.stop[:1].lower() + look.stop[1:],
                words=look.stop,
                found="seen",
                chance=1 - posterior.model.beliefs.slip,
                before=posterior.model.beliefs.slip,
                evidence=(name.replace("_", " "),),
                advice=look.advice,
                unsafe=False,
                blocks=True,
            )


def _misfits(fits: tuple[Fit, ...]) -> Iterator[FoundFault]:
    """Yield parts that do not go together and are no sign of a cause."""
    for fit in fits:
        if fit.state == "wrong" and fit.key not in MEASURED:
            label = MISFITS.get(fit.key, fit.label)
            yield FoundFault(
                key=fit.key,
                label=label,
                words=label,
                found="measured",
                chance=1.0 if fit.chance is None else fit.chance,
                before=0.0,
                evidence=("as measured",),
                advice=fit.sentence,
                unsafe=fit.unsafe,
                blocks=fit.unsafe,
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


def _advice(name: str, readings: Readings, posterior: Posterior) -> str:
    """Return what to do about a cause, where it is on this hub."""
    advice = CAUSES[name].advice
    if name == "elsewhere":
        return _where(readings, posterior)
    if name != "not_clamping":
        return advice
    holder = posterior.model.holder
    return f"{advice} {holder.see_to if holder else SEE_TO_ANY}"


def _where(readings: Readings, posterior: Posterior) -> str:
    """Return where play that is not the hub's may come from, likeliest first."""
    beliefs, advice = posterior.model.beliefs, CAUSES["elsewhere"].advice
    places = sorted(ELSEWHERE, key=lambda name: -place_chance(readings.checks, name, beliefs))
    rocking = [name for name in places if getattr(readings.checks, name) == "yes"]
    answered = [name for name in rocking if LOOKS[name].usual is None]
    if answered:
        named = " and ".join(ELSEWHERE[name] for name in answered)
        return f"There is play in {named}: put that right first. {advice}"
    still = [ELSEWHERE[name] for name in places if getattr(readings.checks, name) != "no"]
    if not still:
        return f"Freehub, headset, spokes and dropouts were cleared; look at them again. {advice}"
    little = (
        " A freehub that rocks a little is usual: see that the rim itself stands still." if rocking else ""
    )
    return f"Look at {', '.join(still)}.{little} {advice}"


def _solid_axle(posterior: Posterior, readings: Readings) -> Iterator[FoundFault]:
    """Yield that axle nuts hold the wheel, where they do or may."""
    chance = posterior.of_nuts
    if chance <= 0.0:
        return
    known = readings.clamp is not None and not CLAMP_KINDS[readings.clamp].through_axle
    yield FoundFault(
        key="solid_axle",
        label=SOLID_AXLE,
        words=SOLID_AXLE,
        found="likely",
        chance=chance,
        before=1.0 if known else posterior.model.beliefs.solid_axle,
        evidence=("axle nuts, as seen",) if known else (),
        advice=SOLID_AXLE_ADVICE if known else f"Say first what holds the wheel. {SOLID_AXLE_ADVICE}",
        unsafe=False,
        blocks=False,
    )
