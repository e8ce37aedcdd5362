"""First hub: what is drawn is what can be done there, and its summary says how the hubs were held.

That an axle in a frame cannot be twirled, and what is done instead, is common practice, no source.
"""

from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from conemodel.tasks.practice.actions import CloseClamp, FitClamp, HoldAxle
from conemodel.ui.practice import bench as bench_on_screen
from conemodel.ui.practice.first_hub import LESSONS
from conemodel.ui.practice.session import BENCH, Stand
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
    """What the axle is drawn in, each time a bench is drawn from its side."""
    held: list[str] = []

    def whole_bench(*, pictures: dict[str, Any], **_: Any) -> None:
        held.append(_held(pictures["side"]["drawing"]))

    monkeypatch.setattr(bench_on_screen, "whole_bench", whole_bench)
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
    bench_on_screen.work_with(stand, bench_on_screen.FEELING)
    assert drawn == [held]


def _work(app: AppTest, gesture: str, **told: Any) -> AppTest:
    """Make a gesture on the hub of the lesson."""
    stand = next(reversed(app.session_state["first_hubs"].values()))
    number = stand.handled.get(BENCH, 0) + 1
    done = {"sequence": number, "set_id": stand.set_of(gesture), "gesture": gesture, **told}
    app.session_state[stand.key(BENCH)] = {"hand": {"sequence": number, "set_id": 1, "acts": [done]}}
    return app.run()


def _said(app: AppTest) -> str:
    return "\n".join([*(h.value for h in app.header), *(m.value for m in app.markdown)])


def test_a_slow_hand_is_called_slow_and_the_lesson_stays() -> None:
    app = AppTest.from_function(_script, default_timeout=PATIENCE).run()
    _work(app, "rim", cycles=2, knocks=0, brisk=False)
    assert "That was slow" in _said(app)
    assert "1 of 3" in _said(app)
    _work(app, "rim", cycles=2, knocks=4, brisk=True)
    assert "2 of 3" in _said(app)


@pytest.mark.parametrize(
    ("answer", "heard"), [("Loose", "So you said."), ("Too tight", "You said: too tight.")]
)
def test_it_is_said_what_a_hub_is_before_it_is_told(answer: str, heard: str) -> None:
    app = AppTest.from_function(_script, default_timeout=PATIENCE).run()
    assert all(button.disabled for button in app.button)
    _work(app, "rim", cycles=2, knocks=4, brisk=True)
    _work(app, "twirl", full_turn=True)
    assert LESSONS[0].title not in _said(app)
    assert next(b for b in app.button if b.label == "Next hub").disabled
    next(b for b in app.button if b.label == answer).click()
    app.run()
    assert LESSONS[0].title in _said(app)
    assert heard in _said(app)
    next(b for b in app.button if b.label == "Next hub").click()
    app.run()
    assert app.query_params["at"] == "2"


def test_a_page_loaded_again_goes_on_at_the_same_hub() -> None:
    app = AppTest.from_function(_script, default_timeout=PATIENCE)
    app.query_params["at"] = "3"
    app.run()
    assert "tight" not in app.session_state["first_hubs"]
    assert list(app.session_state["first_hubs"]) == ["right"]


def test_the_summary_says_clamped_and_what_is_done_in_a_frame() -> None:
    app = AppTest.from_function(_script, default_timeout=PATIENCE)
    app.session_state.first_hub_at = len(LESSONS)
    app.run()
    words = "\n".join([*(html.proto.body for html in app.get("html")), *(m.value for m in app.markdown)])
    assert "hubs, clamped" in words
    assert "Rocked, clamped" in words
    assert "In the frame the axle cannot be twirled: spin the wheel" in words
    assert all("lamped" in lesson.taught for lesson in LESSONS)
