"""What a marked hub is said to be follows the three questions: unsafe, then unsound, then the adjustment."""

from math import radians
from typing import Any

import pytest

from conemodel.tasks.practice.actions import CloseClamp, Finish, FitClamp, Rock, Twirl
from conemodel.tasks.practice.marking import mark
from tests.tasks.practice.hands import do
from tests.tasks.practice.hubs import bench_of, framed

ON_SPACERS: dict[str, Any] = {"start": "locked", "seat": "spacers on locknuts"}


@pytest.mark.parametrize("fault", ["bent axle", "dents", "dry grease", "odd ball", "ball missing"])
def test_a_hub_that_is_not_sound_is_never_only_in_the_good_range(fault: str) -> None:
    bench = do(framed(bench_of(prior={"faults": (fault,)}, **ON_SPACERS), 0.5), Rock(), Twirl(), Finish())
    headline = mark(bench).hubs[0].headline
    assert headline.question == "sound"
    assert headline.answer.words.startswith("Not sound: ")
    assert len(headline.below) == 1


def test_an_unsafe_wheel_is_said_to_be_that_and_no_adjustment_beside_it() -> None:
    bench = bench_of(start="locked", rides=True, prior={"faults": ("proud axle",)})
    bench = do(framed(bench, 0.5), FitClamp("dropouts"), CloseClamp(), Rock(), Finish())
    headline = mark(bench).hubs[0].headline
    assert headline.question == "safe"
    assert "proud" in headline.answer.words
    assert not any("range" in answer.words for answer in headline.answers)


@pytest.mark.parametrize(
    ("share", "words"), [(0.5, "In the good range"), (1.16, "Too loose"), (-1.0, "Too tight")]
)
def test_a_sound_hub_is_said_to_be_where_its_adjustment_stands(share: float, words: str) -> None:
    """Half a minute of the clock, 3°, is the least that is said: a careful hand tells no less."""
    bench = do(framed(bench_of(**ON_SPACERS), share), Rock(), Twirl(), Finish())
    (hub,) = mark(bench).hubs
    assert hub.headline.question == "adjustment"
    assert words in hub.headline.answer.words
    assert share == 0.5 or hub.headline.answer.words.endswith("past the edge of the good range")
    if share == 1.16:
        assert hub.off_turn < radians(3)
        assert "about half a minute past" in hub.headline.answer.words
