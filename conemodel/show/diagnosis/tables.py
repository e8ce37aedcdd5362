"""The tables of a checked hub, each declared once: for CSV, JSON and a page."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

import numpy as np

from conemodel.base.table import Column, Table, Words, table_of_words
from conemodel.base.units import MM, Unit
from conemodel.parts.priors import BELIEVED, Beliefs
from conemodel.parts.schema import unit_of
from conemodel.show.diagnosis.chart import chance_below
from conemodel.show.formatting import capital, millimetres, newtons
from conemodel.tasks.diagnosis.answers import word_to_strip_for
from conemodel.tasks.diagnosis.causes import CAUSES
from conemodel.tasks.diagnosis.credible_intervals import Likely
from conemodel.tasks.diagnosis.diagnose import Diagnosis
from conemodel.tasks.diagnosis.evidence import NOTCHY
from conemodel.tasks.diagnosis.fault_list import FoundFault
from conemodel.tasks.diagnosis.fit import Fit
from conemodel.tasks.diagnosis.procedure import percent, say_chance
from conemodel.tasks.diagnosis.value_of_measuring import NextStep
from conemodel.tasks.setting.chances import SURE

SPELT_OUT = 0.1
"""Chance, as it is said, from which a fault is spelt out on screen and on paper; the others stand in the table."""

NONE_FITS = "None of the causes known here fits: strip it and look."
"""What is said of a hub in which something is felt that nothing explains."""

LIKELY_WORN = "likely"
"""How sure dented or pitted races are where notches are felt, whatever play goes with them."""

FIT_SIGNS = {
    "good": "✓\N{NO-BREAK SPACE}good",
    "look again": "? look again",
    "wrong": "⊗\N{NO-BREAK SPACE}wrong",
    "not measured": "– not measured",
}
"""A sign beside each word, so that colour carries nothing alone."""

_FAULTS: tuple[Column[FoundFault], ...] = (
    Column(lambda fault: fault.key, key="key"),
    Column(lambda fault: fault.label, key="label"),
    Column(lambda fault: fault.found, key="found"),
    Column(lambda fault: fault.chance, key="chance"),
    Column(lambda fault: fault.before, key="before"),
    Column(lambda fault: [list(fault.evidence)], key="evidence"),
    Column(lambda fault: fault.advice, key="advice"),
    Column(lambda fault: fault.unsafe, key="unsafe"),
    Column(lambda fault: fault.blocks, key="blocks"),
)


def list_faults(diagnosis: Diagnosis) -> Table[FoundFault]:
    """Return the table of possible faults, what stops the work first, then the likeliest."""
    shown: tuple[Column[FoundFault], ...] = (
        Column(lambda fault: capital(fault.label), page="Fault"),
        Column(lambda fault: say_fault(fault, diagnosis), page="Chance now"),
        Column(lambda fault: say_before(fault, diagnosis) or "–", page="Before"),
        Column(lambda fault: "; ".join(fault.evidence) or "nothing read", page="Speaks for it"),
    )
    return Table((*_FAULTS, *shown), diagnosis.faults, caption="All faults", words=True)


def say_fault(fault: FoundFault, diagnosis: Diagnosis) -> str:
    """Return how sure a fault is: seen or measured, or its chance as it may be told."""
    if fault.found != "likely":
        return fault.found
    if is_worn_as_felt(fault, diagnosis):
        return LIKELY_WORN
    if diagnosis.readings.play_measured:
        return percent(fault.chance)
    return say_chance(fault.chance / _of_all(diagnosis), measured=False)


def spelt_out(diagnosis: Diagnosis) -> list[FoundFault]:
    """Return the faults that are told one by one: what is said as 10 % counts as that, whatever it is rounded from."""
    return [
        fault
        for fault in diagnosis.faults
        if round(fault.chance, 2) >= SPELT_OUT or fault.blocks or is_worn_as_felt(fault, diagnosis)
    ]


def say_none_fits(diagnosis: Diagnosis) -> str:
    """Return that no cause known here explains what the fingers found, where none is as much as a toss-up."""
    if word_to_strip_for(diagnosis.readings) in (None, NOTCHY):  # dents and pits fit notches
        return ""
    likeliest = max((fault.chance for fault in diagnosis.faults if fault.key in CAUSES), default=0.0)
    return NONE_FITS if likeliest / _of_all(diagnosis) < 1 - SURE else ""


def is_worn_as_felt(fault: FoundFault, diagnosis: Diagnosis) -> bool:
    """Return whether it is dented or pitted races where notches are felt and no cause stands out.

    The model knows too little of worn races to tell their chance then.
    """
    notchy = fault.key == "dented" and word_to_strip_for(diagnosis.readings) == NOTCHY
    return notchy and not any(one.blocks for one in diagnosis.faults if one.key in CAUSES)


def _of_all(diagnosis: Diagnosis) -> float:
    """Return the chance that a fault's is told as a share of in words: 1 but where fingers found that there is one.

    Then it is that of all causes together, unless one of them stands out and is told in the largest words.
    """
    if word_to_strip_for(diagnosis.readings) is None or any(fault.blocks for fault in diagnosis.faults):
        return 1.0
    return sum(fault.chance for fault in diagnosis.faults if fault.key in CAUSES) or 1.0


def say_before(fault: FoundFault, diagnosis: Diagnosis) -> str:
    """Return the chance of a fault before anything was read, where it may be told; else nothing."""
    known = fault.found != "likely" or fault.before == 1.0 or is_worn_as_felt(fault, diagnosis)
    return percent(fault.before) if diagnosis.readings.play_measured and not known else ""


_NEXT_STEPS: tuple[Column[NextStep], ...] = (
    Column(lambda step: step.key, key="key"),
    Column(lambda step: step.label, key="label"),
    Column(lambda step: step.bits, key="bits"),
    Column(lambda step: step.safety_bits, key="safety_bits"),
    Column(lambda step: step.why, key="why"),
)


def list_next_steps(diagnosis: Diagnosis) -> Table[NextStep]:
    """Return the table of measurements not yet made, most informative first."""
    return Table(_NEXT_STEPS, diagnosis.next_steps)


_FITS: tuple[Column[Fit], ...] = (
    Column(lambda fit: fit.key, key="key"),
    Column(lambda fit: fit.label, key="label", page="Part", say=capital),
    Column(lambda fit: fit.state, key="state", page="Fit", say=FIT_SIGNS.__getitem__),
    Column(lambda fit: fit.chance, key="chance"),
    Column(lambda fit: fit.sentence, key="sentence", page="Found"),
)


def list_fits(fits: Sequence[Fit], *, caption: str = "") -> Table[Fit]:
    """Return the table of whether parts go together."""
    return Table(_FITS, fits, caption=caption, words=True)


def merge_sides(fits: Sequence[Fit]) -> list[Fit]:
    """Return fits in which what is the same on both sides is said once."""
    merged: dict[tuple[str, str], Fit] = {}
    for fit in fits:
        key = (fit.label.replace(_LEFT, _RIGHT), fit.sentence.replace(_LEFT, _RIGHT))
        seen = merged.get(key)
        merged[key] = fit if seen is None else _on_either_side(seen)
    return list(merged.values())


_LEFT, _RIGHT, _EITHER = "on the left", "on the right", "on either side"


def _on_either_side(fit: Fit) -> Fit:
    return replace(
        fit, label=fit.label.replace(_LEFT, _EITHER), sentence=fit.sentence.replace(_LEFT, _EITHER)
    )


def list_numbers(diagnosis: Diagnosis) -> Table[Words]:
    """Return the table of each number's middle and where it lies four times in five, for a page."""
    named: tuple[tuple[str, Likely | None, Callable[[float], str]], ...] = (
        ("End play, clamp open", diagnosis.opened, millimetres),
        ("End play, clamp closed", diagnosis.closed, millimetres),
        ("Taken by the clamp", diagnosis.shift, millimetres),
        ("Clamp force", diagnosis.clamp_force, newtons),
        (capital(say_slack(diagnosis)), diagnosis.slack, millimetres),
    )
    known = (
        (name, write(number.median), " to ".join(map(write, number.intervals[0.8])))
        for name, number, write in named
        if number is not None
    )
    heads = ("Number", "Most likely", "Four times in five")
    return table_of_words("Every number with its spread", heads, known, words=False)


def say_slack(diagnosis: Diagnosis) -> str:
    """Return what the thread's slack is called: a measurement of it is part of what is believed."""
    return "thread slack" + (
        ", with its measurement" if diagnosis.readings.thread_slack.size is not None else ""
    )


def list_beliefs() -> Table[Words]:
    """Return the table of prior assumptions, before any reading, for a page."""
    return table_of_words("What is believed beforehand", ("Believed", "Value", "Why"), _beliefs())


def _beliefs() -> Iterator[Words]:
    """Yield each prior: quantity, value, and the reason given with the unknown it rests on."""
    beliefs = Beliefs()
    for name, field in Beliefs.model_fields.items():
        unit, value = unit_of(field), getattr(beliefs, name)
        if value is None:  # known of some hands only
            continue
        many = value if isinstance(value, tuple) else (value,)
        shown = ", ".join(f"{unit.from_si(one):.4g}" for one in many)
        why = BELIEVED[name].because if name in BELIEVED else "judgement"
        yield field.description or name, f"{shown} {unit.symbol}".strip(), why


PER_MM = Unit("1/mm", "per_mm", 1 / MM.per_si)
"""Of a density over end play."""

Curve = tuple[str, Likely]
"""Where the end play most likely is, and which way the clamp stands."""

_SPREAD: tuple[Column[Curve], ...] = (
    Column(lambda curve: curve[0], key="clamp"),
    Column(lambda curve: curve[1].at, MM, "end_play_mm", digits=".9g"),
    Column(lambda curve: curve[1].density, PER_MM, "density_per_mm", digits=".9g"),
    Column(
        lambda curve: np.interp(MM.per_si * curve[1].at, *chance_below(curve[1])).tolist(),
        key="chance_below",
        digits=".9g",
    ),
)


def list_spread(diagnosis: Diagnosis) -> Table[Curve]:
    """Return the table of both curves: which clamp, end play, its density and the chance of less."""
    named = (("closed", diagnosis.closed), ("open", diagnosis.opened))
    return Table(_SPREAD, [(name, number) for name, number in named if number is not None])
