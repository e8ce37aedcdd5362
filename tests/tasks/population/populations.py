"""The populations that tests of many hubs draw from: the workshop's own, and one that is a plain sum."""

from functools import cache
from typing import TypeVar

from conemodel.parts import library
from conemodel.parts.crowd import Crowd, crowd_of, load_crowd
from conemodel.parts.distributions import Uncertain
from conemodel.parts.schema import Part

P = TypeVar("P", bound=Part)

MIX = library.SCENARIOS / "populations/workshop-mix.toml"

LINEAR = ("fit", "quick_release", "drift", "back_off_error")
"""Inputs that enter the end play of one kind of hub as a plain sum while all others are known."""


@cache
def workshop() -> Crowd:
    return load_crowd(MIX)


def one_kind(crowd: Crowd) -> Crowd:
    """Return a crowd of its first kind of hub only."""
    return crowd.only(crowd.population.hubs.files[0])


@cache
def plain_sum() -> Crowd:
    """Return one kind of hub, whose end play is a sum of four independent things and a constant."""
    alone = one_kind(workshop())
    return crowd_of(known(alone.population, LINEAR), alone.kinds)


def known(part: P, spread: tuple[str, ...]) -> P:
    """Return a part with every spread but the named ones taken as known in its middle."""
    changes: dict[str, Part] = {}
    for name in type(part).model_fields:
        value = getattr(part, name)
        if isinstance(value, Uncertain) and name not in spread:
            changes[name] = value.replace(shape="even", low=value.top, high=value.top, likely=None)
        elif isinstance(value, Part) and not isinstance(value, Uncertain):
            changes[name] = known(value, spread)
    return part.replace(**changes)
