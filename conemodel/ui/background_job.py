"""Long work in a background thread, independent of Streamlit: its progress, a way to stop it, its result."""

import threading
import time
from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import Generic, TypeVar

from conemodel.tasks.population.study import Cancelled

T = TypeVar("T")

Progress = Callable[[float], None]
Stop = Callable[[], bool]

DESERTED = 120.0
"""Work nobody has looked after for so long is stopped [s]: its page was closed."""

_one_at_a_time = threading.Lock()


class Kept(Generic[T]):
    """The latest results by request, shared by all threads; the least recently used is dropped first."""

    def __init__(self, most: int) -> None:
        self._most, self._found, self._lock = most, OrderedDict[Hashable, T](), threading.Lock()

    def get(self, asked: Hashable) -> T | None:
        """Return the result for a request, None where it is no longer kept."""
        with self._lock:
            if asked in self._found:
                self._found.move_to_end(asked)
            return self._found.get(asked)

    def put(self, asked: Hashable, result: T) -> None:
        """Keep a result."""
        with self._lock:
            self._found[asked] = result
            self._found.move_to_end(asked)
            while len(self._found) > self._most:
                self._found.popitem(last=False)


@dataclass(slots=True)
class Work(Generic[T]):
    """One piece of work. Only one runs at a time; the others wait, so that the pages stay quick.

    Attributes:
        asked: the request; kept: where its result goes.
        done: share done, 0 to 1; begun: it is no longer queued.
        finished: it ended, with or without a result; error: the message, if it failed.
        seen: when a page last asked for its progress [s].
    """

    asked: Hashable
    kept: Kept[T]
    done: float = 0.0
    begun: bool = False
    finished: bool = False
    error: str = ""
    seen: float = field(default_factory=time.monotonic)
    _cancelled: threading.Event = field(default_factory=threading.Event)

    def start(self, call: Callable[[Progress, Stop], T]) -> None:
        """Start `call` with two functions: one reports its progress, one returns whether to stop."""
        threading.Thread(target=self._run, args=(call,), daemon=True).start()

    def cancel(self) -> None:
        """Ask it to stop as soon as it can."""
        self._cancelled.set()

    @property
    def cancelled(self) -> bool:
        """Whether it was asked to stop."""
        return self._cancelled.is_set()

    def _stop(self) -> bool:
        if time.monotonic() - self.seen > DESERTED:
            self._cancelled.set()
        return self._cancelled.is_set()

    def _tell(self, done: float) -> None:
        self.done = done

    def _run(self, call: Callable[[Progress, Stop], T]) -> None:
        try:
            with _one_at_a_time:
                if self._stop() or self.kept.get(self.asked) is not None:
                    return
                self.begun = True
                self.kept.put(self.asked, call(self._tell, self._stop))
        except Cancelled:
            self._cancelled.set()
        except Exception as error:  # no caller of a thread could catch it
            self.error = f"{type(error).__name__}: {error}"
        finally:
            self.finished = True
