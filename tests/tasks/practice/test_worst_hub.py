"""The hint on an exercise is on the hub that went worst, whichever came first."""

from typing import Any

import pytest

from conemodel.tasks.practice.actions import Answer, Finish, Rock, Take, Twirl
from conemodel.tasks.practice.marking import ExerciseMark, mark
from tests.tasks.practice.hands import do
from tests.tasks.practice.hubs import bench_of, framed

ON_SPACERS: dict[str, Any] = {"start": "locked", "seat": "spacers on locknuts"}


def marked(*shares: float) -> ExerciseMark:
    """Return the mark of hubs left at `shares` of their good range: 0 its tight edge, 1 its loose one."""
    bench = bench_of(**ON_SPACERS, hubs=len(shares), needed=len(shares))
    for number, share in enumerate(shares):
        bench = do(framed(do(bench, Take(number)) if number else bench, share), Rock(), Twirl(), Finish())
    return mark(bench)


@pytest.mark.parametrize(
    ("shares", "worst"),
    [
        ((0.5, -0.3, -2.0), 3),  # by 0.3 and by 2 good ranges too tight
        ((0.5, -2.0, -0.3), 2),
        ((0.5, -0.3, 0.5), 2),
    ],
)
def test_the_hint_is_on_the_hub_that_is_farthest_off(shares: tuple[float, ...], worst: int) -> None:
    result = marked(*shares)
    far = result.hubs[worst - 1]
    assert abs(far.off_turn) == max(abs(hub.off_turn) for hub in result.hubs)
    assert result.hint == f"Hub {worst}: {far.hint}"
    assert result.stage == far.stage


@pytest.mark.parametrize("seed", [1, 2])
def test_a_tight_hub_that_was_called_right_comes_before_a_loose_one(seed: int) -> None:
    prior = {"states": ("tight", "loose")}
    bench = bench_of(kind="name", questions=("name",), hubs=2, prior=prior, seed=seed, **ON_SPACERS)
    for number in range(2):
        bench = do(bench, Take(number), Rock(), Twirl(), Answer("name", "right"))
    result = mark(bench)
    (tight,) = result.tight_as_right
    assert result.hint.startswith(f"Hub {tight + 1}: ")
