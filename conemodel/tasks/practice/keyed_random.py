"""Random numbers without a generator: every number drawn is a keyed hash of what it is for.

So the third locking of a hub draws the same drift whenever it is the third, and nobody without the key can work
a hidden number out from the link that names the hub.
"""

import hmac
from collections.abc import Sequence
from hashlib import sha256
from typing import TypeVar

T = TypeVar("T")

Range = tuple[float, float]


def subkey(key: str, *path: str | int) -> str:
    """Return the key of something that belongs to what `key` stands for."""
    return hmac.new(key.encode(), "\x1f".join(map(str, path)).encode(), sha256).hexdigest()


def uniform(key: str, *path: str | int, low: float, high: float) -> float:
    """Return a number from `low` up to, not including, `high`; always the same for the same key and path.

    >>> uniform("k", "drift", 1, low=2.0, high=5.0) == uniform("k", "drift", 1, low=2.0, high=5.0)
    True
    """
    share = int(subkey(key, *path)[:13], 16) / 16**13
    return low + (high - low) * share


def within(key: str, name: str, span: Range) -> float:
    """Return a number drawn evenly from a range given as (low, high)."""
    return uniform(key, name, low=span[0], high=span[1])


def dealt(key: str, name: str, number: int, *, among: Sequence[T]) -> T:
    """Return one of `among` (not empty) for a running number: every run of as many as there are holds each once.

    >>> sorted(dealt("k", "state", number, among=("loose", "right", "tight")) for number in range(3, 6))
    ['loose', 'right', 'tight']
    """
    run, place = divmod(number, len(among))
    return sorted(enumerate(among), key=lambda one: subkey(key, name, run, one[0]))[place][1]
