"""Which hub is on the bench, and the way back to how it was before."""

from dataclasses import dataclass, replace
from typing import ClassVar

from conemodel.tasks.practice.actions.action import Action
from conemodel.tasks.practice.session import Bench


@dataclass(frozen=True, slots=True)
class Take(Action):
    """Put the hub of this number on the bench."""

    hub: int
    counts: ClassVar[bool] = False
    is_taken_back: ClassVar[bool] = False
    after_last_word: ClassVar[bool] = True
    done: ClassVar[str] = "another hub"

    def cannot(self, bench: Bench) -> str | None:
        """Return that there is no such hub, or None."""
        return None if 0 <= self.hub < len(bench.hubs) else "There is no such hub here."

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with that hub on it; no hub changes."""
        return replace(bench, current=self.hub), f"Hub {self.hub + 1} is on the bench."


@dataclass(frozen=True, slots=True)
class TakeBack(Action):
    """Take the last move back; free practice only."""

    is_taken_back: ClassVar[bool] = False
    done: ClassVar[str] = "last move taken back"

    def cannot(self, bench: Bench) -> str | None:
        """Return that nothing may be taken back here, or that there is nothing, or None."""
        if bench.exercise.assessed:
            return "Nothing can be taken back in an assessed exercise."
        return None if bench.past else "There is nothing to take back."

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench as it was before the last action that was not taken back; the log keeps both."""
        hubs, current = bench.past[-1]
        log = list(bench.log)
        stays = (Take.__name__, TakeBack.__name__)
        for i in reversed(range(len(log))):
            if not log[i].undone and not log[i].refused and log[i].kind not in stays:
                log[i] = replace(log[i], undone=True)
                break
        back = replace(bench, hubs=hubs, current=current, past=bench.past[:-1], log=tuple(log))
        return back, "As it was before."
