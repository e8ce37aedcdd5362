"""One thing that is only assumed of a hub: both its ends, and how values lie between them."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from conemodel.base.units import Unit
from conemodel.parts.distributions import Uncertain
from conemodel.parts.scenario import Scenario
from conemodel.parts.unknowns.unknown import Unknown

Ends = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumption:
    """One thing nobody measured.

    Attributes:
        name: stable name; label: in words; span: its range in words.
        ends: the scenario with it at its low and at its high end.
        drawn: how its quantities lie in their ranges [SI], by name: a field of `Inputs`, ``core_share``, ``groove``
            or, where only `ends` tell what it does, the name of the assumption.
        own: the scenario's own value of the only quantity [SI]; not used where there are several.
    """

    name: str
    label: str
    span: str
    ends: tuple[Scenario, Scenario]
    drawn: Mapping[str, Uncertain]
    own: float = 0.0


def assume(
    unknown: Unknown,
    ends: Ends,
    own: float,
    change: Callable[[float], Scenario],
    *,
    span: str,
    name: str = "",
    drawn: str = "",
) -> Assumption:
    """Return the assumption of one quantity between `ends` [SI], where the scenario has its `own`.

    Args:
        unknown: what it is.
        ends: its range.
        own: what the scenario has.
        change: puts a value of it into the scenario.
        span: the range in words.
        name: where it is not the unknown's.
        drawn: what is drawn, where that is not called like the assumption.
    """
    low, high = ends
    called = name or unknown.name
    return Assumption(
        name=called,
        label=unknown.words,
        span=span,
        ends=(change(low), change(high)),
        drawn={drawn or called: between(unknown, ends, own)},
        own=own,
    )


def between(unknown: Unknown, ends: Ends, own: float) -> Uncertain:
    """Return how an unknown lies in a range [SI]; a peaked one is likeliest where the scenario has it."""
    low, high = ends
    likely = min(max(own, low), high) if unknown.shape == "peaked" else None
    return Uncertain(shape=unknown.shape, low=low, likely=likely, high=high, because=unknown.because)


def widen_to(given: float, low: float, high: float) -> Ends:
    """Return an assumed range, widened to what the scenario itself says: a turn advised lies within its range."""
    return min(low, given), max(high, given)


def range_words(ends: Ends, unit: Unit) -> str:
    """Return a range as words, whole numbers where they are large."""
    low, high = (unit.from_si(end) for end in ends)
    return f"{low:.0f} to {high:.0f}" if high >= 10 else f"{low:.2g} to {high:.2g}"
