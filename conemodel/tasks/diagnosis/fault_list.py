"""Faults no adjustment cures, each with how likely it is, what speaks for it and what to do."""

from collections.abc import Iterator
from dataclasses import dataclass

from conemodel.parts.clamp_kinds import CLAMP_KINDS
from conemodel.parts.readings import Readings
from conemodel.tasks.diagnosis.cases import ELSEWHERE, MARKS, place_chance
from conemodel.tasks.diagnosis.evidence import Weighed, evidence_for
from conemodel.tasks.diagnosis.fit_check import Fit
from conemodel.tasks.diagnosis.posterior import Posterior
from conemodel.tasks.setting.verdict import DO_NOT_RIDE

BLOCKS = 0.5
"""Chance of a fault from which no turn of the cone is advised."""

LABELS = {
    "bent": "bent axle or skew cone",
    "dented": "dented (brinelled) or pitted race",
    "gritty": "grit, or dry and dirty grease",
    "wrong_balls": "wrong number or size of balls",
    "worn_thread": "thread worn out",
    "not_clamping": "clamp not clamping",
    "proud": "axle proud of the dropout",
    "elsewhere": "play that is not the hub's",
    "solid_axle": "solid axle with nuts",
}
"""Faults in words."""

ADVICE = {
    "bent": "Tight in one place and loose elsewhere: skew. Roll the axle on a flat plate and see whether the track "
    "on the cones runs off centre; renew what is bent or skew. No setting of the cone is right all the way round.",
    "dented": "Look at cones and cups with a ball-point tip. Dented or pitted cones are renewed together with all the "
    "balls; a dented cup is renewed, or the hub. Setting the cone does not cure it.",
    "gritty": "Strip, clean, look at the races, and put it together with new balls and grease. Adjust after that.",
    "wrong_balls": "Strip and count twice. Renew all balls of both rows together, of the size and in the number the "
    "maker states; room for about 0.7 of a ball is as it should be, and a smaller ball is no cure.",
    "worn_thread": "Unlock and rock the cone on its thread. A cone that rocks, or a locknut that will not tighten, "
    "wants a new axle and cone; a setting on a worn-out thread does not hold.",
    "not_clamping": f"{DO_NOT_RIDE}: play hardly changes on closing, as if the clamp did not clamp. Look at the "
    "lever, its springs, the adjusting nut and the dropouts, and close it again so that it takes a firm hand.",
    "proud": f"{DO_NOT_RIDE} before both protrusions and the dropouts' thickness are measured: where the axle stands "
    "proud of a dropout, the clamp squeezes the axle and not the frame, and the wheel can come out. Feel never "
    "clears it. An axle of the right length does.",
    "elsewhere": "Turning the cone does not take it out.",
    "solid_axle": "Axle nuts do not shorten the axle between the cones: play that is there on the bench is still "
    "there in the frame. Adjust with no play, and check again after the nuts.",
}
"""What to do about each."""

MISFITS = {
    "axle_length": "axle length that does not add up",
    "thread": "thread unlike the hub's",
    "engagement_left": "too little thread for the axle nut on the left",
    "engagement_right": "too little thread for the axle nut on the right",
    "protrusions": "protrusions unlike",
    "frame": "hub and frame of unlike width",
}
"""What is named as a fault where parts do not go together; `Fit.label` names what was looked at."""

UNSAFE = ("proud", "not_clamping")
"""Faults with which the wheel can come out."""


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
    advice = {**ADVICE, "elsewhere": _where(readings, posterior)}
    if measured:
        advice["proud"] = " ".join(measured)
    beliefs = posterior.model.beliefs
    for cause in {case.cause: None for case in posterior.model.cases}:
        if cause == "sound":
            continue
        chance = posterior.of(cause)
        yield FoundFault(
            key=cause,
            label=LABELS[cause],
            chance=chance,
            before=beliefs.chance(cause),
            evidence=(*_seen(readings, cause), *evidence_for(cause, weighed)),
            advice=advice[cause],
            unsafe=cause in UNSAFE,
            blocks=chance > BLOCKS,
            measured=cause == "proud" and bool(measured),
        )


def _seen(readings: Readings, cause: str) -> Iterator[str]:
    """Yield what was seen without measuring that speaks for a cause."""
    for name, shows in MARKS.items():
        if shows == cause and getattr(readings.checks, name) == "yes":
            yield name.replace("_", " ")
    if cause == "elsewhere":
        for name in ELSEWHERE:
            if getattr(readings.checks, name) == "yes":
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
        return f"There is play in {named}: put that right first. {ADVICE['elsewhere']}"
    still = [ELSEWHERE[name] for name in places if getattr(readings.checks, name) is None]
    if not still:
        return (
            f"Freehub, headset, spokes and dropouts were cleared; look at them again. {ADVICE['elsewhere']}"
        )
    return f"Look at {', '.join(still)}. {ADVICE['elsewhere']}"


def _solid_axle(posterior: Posterior, readings: Readings) -> Iterator[FoundFault]:
    """Yield that axle nuts hold the wheel, where they do or may."""
    chance = posterior.of_nuts
    if chance <= 0.0:
        return
    known = readings.clamp is not None and not CLAMP_KINDS[readings.clamp].through_axle
    yield FoundFault(
        key="solid_axle",
        label=LABELS["solid_axle"],
        chance=chance,
        before=1.0 if known else posterior.model.beliefs.solid_axle,
        evidence=("axle nuts, as seen",) if known else (),
        advice=ADVICE["solid_axle"],
        unsafe=False,
        blocks=False,
    )
