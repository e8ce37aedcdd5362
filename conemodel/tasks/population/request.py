"""A study of many hubs as a person types it, on the command line or in a link."""

from dataclasses import dataclass

from conemodel.base.errors import InputProblems, Problem
from conemodel.base.typed_numbers import parse_turn, parse_whole
from conemodel.parts.population import Hands
from conemodel.parts.schema import reach_of
from conemodel.tasks.population.study import HUBS, MOST_HUBS

MOST_SEED = 2**32
"""Seeds lie below this."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What was asked: `hubs` to draw, `seed`, and `back_off` [rad], or None for the population's own."""

    hubs: int
    seed: int
    back_off: float | None


def many_asked(*, hubs: str | None = None, seed: str = "1", back_off: str | None = None) -> Asked:
    """Return a study as typed.

    Raises:
        InputProblems: what was given cannot be used, with every mistake.

    >>> many_asked(hubs="5000", back_off="1/8").hubs
    5000
    """
    problems: list[Problem] = []
    number = _whole("--hubs", str(HUBS) if hubs is None else hubs, 1, MOST_HUBS, problems)
    start = _whole("--seed", seed, 0, MOST_SEED - 1, problems)
    angle = None
    if back_off is not None:
        try:
            angle = parse_turn(back_off)
        except ValueError as error:
            problems.append(Problem(where="--back-off", value=back_off[:60], limit=str(error)))
        else:
            problems += _out_of_reach(angle, back_off)
    if problems:
        raise InputProblems(problems)
    return Asked(hubs=number, seed=start, back_off=angle)


def _whole(where: str, text: str, least: int, most: int, problems: list[Problem]) -> int:
    """Return a whole number as typed; what cannot be read is added to `problems`."""
    try:
        return parse_whole(text, least=least, most=most)
    except ValueError as error:
        problems.append(Problem(where=where, value=text[:60], limit=str(error)))
        return least


def _out_of_reach(angle: float, text: str) -> list[Problem]:
    """Return the problem of a back-off that no population could have."""
    field = Hands.model_fields["back_off"]
    unit = Hands.locate("back_off")[1]
    low, high = reach_of(field)
    if low <= unit.from_si(angle) <= high:
        return []
    limit = f"must be from {low:g} to {high:g} turns"
    return [Problem(where="--back-off", value=text[:60], limit=limit)]
