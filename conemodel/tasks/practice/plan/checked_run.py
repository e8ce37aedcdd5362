"""How many hubs in a row were right and checked, assessed."""

from collections.abc import Iterable
from dataclasses import dataclass

from conemodel.tasks.practice.plan.hub_result import HubResult


@dataclass(frozen=True, slots=True)
class CheckedRun:
    """Hubs in a row that were right and checked: now, and at best."""

    now: int
    best: int


def checked_run(hubs: Iterable[HubResult]) -> CheckedRun:
    """Return the run in assessed hubs, oldest first.

    A hub that is wrong ends it. One that is right counts where it was rocked and twirled clamped, which is where a
    check can answer; right without that, as first touch is, it neither counts nor ends the run.
    """
    now = best = 0
    for hub in hubs:
        now = (now + hub.checked) if hub.passed else 0
        best = max(best, now)
    return CheckedRun(now, best)
