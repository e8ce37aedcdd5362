"""The order of a day's rounds: mixed, so that no exercise follows itself while another one is left."""

from collections import Counter
from collections.abc import Callable, Iterable
from typing import TypeVar

T = TypeVar("T")


def mix(rounds: Iterable[T], of: Callable[[T], str]) -> tuple[T, ...]:
    """Return rounds in a mixed order, those of one exercise among themselves as they came; `of` tells which it is.

    The exercise with most rounds left is next, unless it was the last; among equals the one that came first. So none
    follows itself wherever that can be had at all (a law of arranging: no exercise may have more than half of the
    rounds, and one besides).

    Source: [Sattelmayer2016] for mixed order above blocks of the same

    >>> mix(["a1", "a2", "b1"], of=lambda name: name[0])
    ('a1', 'b1', 'a2')
    """
    left, order, last = list(rounds), list[T](), None
    while left:
        count = Counter(map(of, left))
        others = [one for one in left if of(one) != last] or left
        chosen = max(others, key=lambda one: count[of(one)])  # of several alike the first
        left.remove(chosen)
        order.append(chosen)
        last = of(chosen)
    return tuple(order)
