"""How many hubs in a row were right and checked, assessed."""

from collections.abc import Iterable
from dataclasses import dataclass

from conemodel.tasks.practice.plan.hub_result import HubResult


@dataclass(frozen=True, slots=True)
class CheckedRun:
    """Hubs in a row that were right and checked: now, and at best; of either, how many were read in words."""

    now: int
    best: int
    now_read: int = 0
    best_read: int = 0


def checked_run(hubs: Iterable[HubResult]) -> CheckedRun:
    """Return the run in assessed hubs, oldest first.

    A hub that is wrong ends it. One that is right counts where it was rocked and twirled clamped, which is where a
    check can answer; right without that, as first touch is, it neither counts nor ends the run.
    """
    run, best = list[HubResult](), list[HubResult]()
    for hub in hubs:
        run = [*run, *[hub] * hub.checked] if hub.passed else []
        best = max(best, run, key=len)
    return CheckedRun(len(run), len(best), _read(run), _read(best))


def _read(hubs: Iterable[HubResult]) -> int:
    return sum(hub.worded for hub in hubs)
