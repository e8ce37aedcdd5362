"""Caches of solved results, for work that is cheaper on many keys together than one by one."""

from collections.abc import Callable, Hashable, Iterable, Sequence
from functools import wraps
from threading import Lock
from typing import Any, Generic, ParamSpec, TypeVar
from weakref import WeakSet

Key = TypeVar("Key", bound=Hashable)
Value = TypeVar("Value")
Arguments = ParamSpec("Arguments")

_ALL: "WeakSet[BatchCache[Any, Any]]" = WeakSet()


def forget_all() -> None:
    """Empty every cache; what was in it would be computed again, the same to the last digit."""
    for known in tuple(_ALL):
        known.forget()


def count_kept() -> dict[str, int]:
    """Return how many answers each cache keeps now, by the full name of the function that works them out."""
    return {known.name: len(known) for known in tuple(_ALL)}


class BatchCache(Generic[Key, Value]):
    """The last `size` answers of `work`, which takes keys and returns an answer for each.

    Every solved result that is kept between calls is kept in one of these, so that `forget_all` forgets them all.
    Asked for several keys, it works out together all that it does not know. Safe to use from several threads.

    >>> squares = BatchCache(lambda keys: [key**2 for key in keys], size=100)
    >>> squares((2, 3)), squares.get(3)
    ((4, 9), 9)
    """

    def __init__(self, work: Callable[[Sequence[Key]], Iterable[Value]], *, size: int) -> None:
        """Start empty."""
        self._work, self._size = work, size
        self.name = f"{work.__module__}.{work.__qualname__}"
        _ALL.add(self)
        self._known: dict[Key, tuple[Value]] = {}  # what was used last stands last
        self._lock = Lock()

    def __call__(self, keys: Iterable[Key]) -> tuple[Value, ...]:
        """Return the answer to each of `keys`."""
        asked = tuple(keys)
        with self._lock:
            held = [self._recall(key) for key in asked]
        missing = list(dict.fromkeys(key for key, known in zip(asked, held, strict=True) if known is None))
        found = dict(zip(missing, self._work(missing), strict=True)) if missing else {}
        with self._lock:
            self._keep(found)
        return tuple(known[0] if known else found[key] for key, known in zip(asked, held, strict=True))

    def get(self, key: Key) -> Value:
        """Return the answer to one key."""
        return self((key,))[0]

    def __len__(self) -> int:
        """Return how many answers are kept."""
        return len(self._known)

    def forget(self) -> None:
        """Forget everything."""
        with self._lock:
            self._known.clear()

    def _recall(self, key: Key) -> tuple[Value] | None:
        """Return the answer to a key where it is known, and put it last."""
        known = self._known.pop(key, None)
        if known is not None:
            self._known[key] = known
        return known

    def _keep(self, found: dict[Key, Value]) -> None:
        """Remember what was found, and forget what has not been used for longest."""
        for key, value in found.items():
            self._known[key] = (value,)
        for key in list(self._known)[: max(len(self._known) - self._size, 0)]:
            del self._known[key]


def keep_answers(*, size: int) -> Callable[[Callable[Arguments, Value]], Callable[Arguments, Value]]:
    """Return a decorator for a function of hashable arguments: its last `size` answers are kept as `BatchCache` does.

    >>> half = keep_answers(size=10)(lambda number: number / 2)
    >>> half(3), half(3)
    (1.5, 1.5)
    """

    def around(work: Callable[Arguments, Value]) -> Callable[Arguments, Value]:
        @wraps(work)
        def answers(calls: Sequence[Any]) -> Iterable[Value]:
            return [work(*given, **dict(named)) for given, named in calls]

        known = BatchCache(answers, size=size)

        @wraps(work)
        def recalled(*given: Arguments.args, **named: Arguments.kwargs) -> Value:
            return known.get((given, tuple(named.items())))

        return recalled

    return around
