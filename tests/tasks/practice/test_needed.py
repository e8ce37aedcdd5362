"""What was needed, over all hubs of an exercise, says what the heading says."""

from typing import Any

from conemodel.tasks.practice.actions import Answer, Finish, HoldAxle, Rock, Take, Twirl
from conemodel.tasks.practice.marking import mark
from conemodel.tasks.practice.needed import NO_TIGHT_AS_RIGHT, list_needed
from conemodel.tasks.practice.session import Bench
from tests.tasks.practice.hands import do
from tests.tasks.practice.hubs import bench_of, open_link, with_hub


def touched(right: set[int]) -> Bench:
    """Four hubs, those of the set left at first touch and the others as they came."""
    bench = open_link("01-first-touch.needed.1")
    for number in range(4):
        bench = do(bench, Take(number), HoldAxle("vice"))
        cone = 0.0 if number in right else bench.hub.cone
        bench = do(with_hub(bench, cone=cone, touched=True), Finish())
    return bench


def test_a_row_is_of_all_hubs_and_agrees_with_the_heading() -> None:
    for right, words, passed in (
        ({0, 1}, "2 of 4; not hub 3, hub 4", False),
        ({1, 2, 3}, "3 of 4; not hub 1", True),
    ):
        marked = mark(touched(right))
        (needed,) = list_needed(marked)
        assert needed.words == words
        assert (marked.right, marked.passed) == (len(right), passed)


def test_a_tight_hub_called_right_is_named_in_the_heading_and_in_its_row() -> None:
    prior = {"states": ("tight", "right")}
    on_spacers: dict[str, Any] = {"start": "locked", "seat": "spacers on locknuts"}
    bench = bench_of(kind="name", questions=("name",), hubs=2, prior=prior, **on_spacers)
    for number in range(2):
        bench = do(bench, Take(number), Rock(), Twirl(), Answer("name", "right"))
    tight = next(number for number, secret in enumerate(bench.hidden) if secret.state == "tight")
    marked = mark(bench)
    assert marked.verdict == "Not yet: a tight hub was called right"
    rows = {needed.label: needed.words for needed in list_needed(marked)}
    assert rows == {
        "the answer is right": f"1 of 2; not hub {tight + 1}",
        NO_TIGHT_AS_RIGHT: f"no: hub {tight + 1}",
    }


def test_what_is_not_asked_is_left_out() -> None:
    marked = mark(do(open_link("04-locknut.needed.1"), Finish()))
    kept = [needed.label for needed in list_needed(marked, left_out="refused")]
    assert kept == [check.label for check in marked.hubs[0].checks if check.name != "refused"]
