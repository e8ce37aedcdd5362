"""Remembering what was worked out, where many answers are cheaper together than one by one."""

from collections import OrderedDict
from collections.abc import Callable, Hashable, Iterable, Sequence
from threading import Lock
from typing import Generic, TypeVar

Key = TypeVar("Key", bound=Hashable)
Value = TypeVar("Value")


class Remembered(Generic[Key, Value]):
    """The last `size` answers of `work`, which takes keys and returns an answer for each.

    Asked for several keys, it works out together all that it does not know. Safe to use from several threads.

    >>> squares = Remembered(lambda keys: [key**2 for key in keys], size=100)
    >>> squares((2, 3)), squares.one(3)
    ((4, 9), 9)
    """

    def __init__(self, work: Callable[[Sequence[Key]], Iterable[Value]], *, size: int) -> None:
        """Remember nothing yet."""
        self._work, self._size = work, size
        self._known: OrderedDict[Key, Value] = OrderedDict()
        self._lock = Lock()

    def __call__(self, keys: Iterable[Key]) -> tuple[Value, ...]:
        """Return the answer to each of `keys`."""
        asked = tuple(keys)
        with self._lock:
            found = {key: self._known[key] for key in asked if key in self._known}
        missing = [key for key in dict.fromkeys(asked) if key not in found]
        if missing:
            found.update(zip(missing, self._work(missing), strict=True))
        self._keep(found)
        return tuple(found[key] for key in asked)

    def one(self, key: Key) -> Value:
        """Return the answer to one key."""
        return self((key,))[0]

    def cache_clear(self) -> None:
        """Forget everything."""
        with self._lock:
            self._known.clear()

    def _keep(self, found: dict[Key, Value]) -> None:
        """Put what was just used last, and forget what has not been used for longest."""
        with self._lock:
            for key, value in found.items():
                self._known[key] = value
                self._known.move_to_end(key)
            while len(self._known) > self._size:
                self._known.popitem(last=False)
