"""First hub: what is drawn is what can be done there, and its summary says how the hubs were held.

That an axle in a frame cannot be twirled, and what is done instead, is common practice, no source.
"""

from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from conemodel.tasks.practice.actions import CloseClamp, FitClamp, HoldAxle
from conemodel.ui.practice import gestures
from conemodel.ui.practice.first_hub import LESSONS
from conemodel.ui.practice.session import Stand
from tests.patience import PATIENCE
from tests.tasks.practice.hands import do
from tests.tasks.practice.hubs import bench_of


def _script() -> None:
    from conemodel.ui.practice import first_hub

    first_hub.page()


SEATS = {"dropout": "frame", "clamp-spacer": "clamp", "vice": "vice"}
"""What an axle is in, by the part that is drawn."""


def _held(drawing: dict[str, Any]) -> str:
    """What is drawn round the axle on the adjustable side, and how the lever stands."""
    shown = [g for g in drawing["sheet"]["groups"] if drawing["stage"] in g.get("when", [drawing["stage"]])]
    parts = {part["name"] for group in shown if "right" not in group["name"] for part in group["parts"]}
    held = next((words for part, words in SEATS.items() if part in parts), "nothing")
    return f"{held}, shut" if drawing["vars"]["lever"] else held


@pytest.fixture
def drawn(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What the axle is drawn in, each time a rim is drawn."""
    held: list[str] = []

    def rock_wheel(**data: Any) -> None:
        held.append(_held(data["drawing"]))

    monkeypatch.setattr(gestures, "rock_wheel", rock_wheel)
    return held


def test_no_fork_is_drawn_where_an_axle_is_to_be_twirled(drawn: list[str]) -> None:
    app = AppTest.from_function(_script, default_timeout=PATIENCE).run()
    assert not app.exception
    assert drawn == ["clamp, shut"]
    said = "".join(caption.value for caption in app.caption)
    assert "Clamped on spacers" in said
    assert "In the frame the axle cannot be twirled: spin the wheel" in said


def test_the_hand_finds_before_it_is_told(drawn: list[str]) -> None:
    app = AppTest.from_function(_script, default_timeout=PATIENCE).run()
    words = "\n".join([*(h.value for h in app.header), *(m.value for m in app.markdown)]).lower()
    told = [lesson.taught.lower() for lesson in LESSONS] + [lesson.title.lower() for lesson in LESSONS]
    assert "loose, right or too tight?" in words
    assert not any(each in words for each in told)


@pytest.mark.parametrize(
    ("seat", "closed", "held"),
    [
        ("dropouts", True, "frame, shut"),
        ("dropouts", False, "frame"),
        ("one side in frame", True, "clamp, shut"),
        ("spacers on locknuts", True, "clamp, shut"),
        ("spacer on axle end", True, "clamp, shut"),
        (None, False, "nothing"),
    ],
)
def test_the_rim_is_drawn_in_what_holds_the_axle(
    drawn: list[str], seat: Any, closed: bool, held: str
) -> None:
    bench = do(bench_of(start="locked"), HoldAxle("nothing"), FitClamp(seat))
    stand = Stand(name="x", bench=do(bench, CloseClamp()) if closed else bench)
    gestures.feel_with(stand, "rim")
    assert drawn == [held]


def test_the_summary_says_clamped_and_what_is_done_in_a_frame() -> None:
    app = AppTest.from_function(_script, default_timeout=PATIENCE)
    app.session_state.first_hub_at = len(LESSONS)
    app.run()
    words = "\n".join([*(html.proto.body for html in app.get("html")), *(m.value for m in app.markdown)])
    assert "hubs, clamped" in words
    assert "Rocked, clamped" in words
    assert "In the frame the axle cannot be twirled: spin the wheel" in words
    assert all("lamped" in lesson.taught for lesson in LESSONS)
