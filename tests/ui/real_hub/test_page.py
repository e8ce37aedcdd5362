"""The page of a real hub: numbers in, what they tell out, kept under a name; nothing that was entered is lost."""

from collections.abc import Mapping
from datetime import UTC, datetime

from streamlit.testing.v1 import AppTest

from conemodel.record.database import Database
from conemodel.record.hand_sittings import begin_sitting, keep_answer
from conemodel.record.real_hubs import real_hubs
from conemodel.show.real_hub.wording import ONLY_REAL
from conemodel.tasks.hand.kinds import KINDS
from conemodel.tasks.hand.procedure import PAIRS, Answer
from tests.patience import PATIENCE

COUNTS: dict[str, float] = {
    "loose_play": 2,
    "loose_drag": 0,
    "locked_play": 8,
    "locked_drag": 6,
    "clamped_play": 12,
    "clamped_drag": 10,
}


def _script() -> None:
    from conemodel.ui.real_hub import page

    page.page()


def opened(address: Mapping[str, float] | None = None, *, name: str = "") -> AppTest:
    app = AppTest.from_function(_script, default_timeout=PATIENCE)
    for key, value in (address or {}).items():
        app.query_params[key] = f"{value:g}"
    app.session_state["practise_name"] = name
    app.run()
    assert not app.exception
    return app


def words(app: AppTest) -> str:
    html = [element.proto.body for element in app.get("html")]
    shown = (app.markdown, app.info, app.caption, app.error, app.warning, app.code)
    return "\n".join([*html, *(each.value for kind in shown for each in kind)])


def press(app: AppTest, label: str) -> None:
    next(button for button in app.button if button.label == label).click().run()
    assert not app.exception


def test_nothing_entered_is_nothing_told():
    app = opened()
    assert "Nothing is entered yet" in words(app)
    assert "You feel play" not in words(app)


def test_the_address_holds_the_counts_and_they_tell_the_hand():
    app = opened(COUNTS)
    assert "You feel play from 0.0" in words(app)
    assert ONLY_REAL in words(app)
    app.number_input(key="locked_play").set_value(8.5).run()
    assert app.query_params["locked_play"] == "8.5"
    app.number_input(key="locked_play").set_value(None).run()
    assert "locked_play" not in app.query_params
    assert app.query_params["clamped_play"] == "12"


def test_every_number_that_cannot_be_is_named_at_once_and_stays():
    app = opened({**COUNTS, "locked_play": 300, "clamped_drag": -40, "loose_axle": 0.1})
    said = words(app)
    assert "Play from, locked, not clamped = 300: must be at most 60 min" in said
    assert "Drag up to, locked and clamped = -40: must be at least -15 min" in said
    assert "Along the axle, mm, locknut loose = 0.1: needs the count it was measured at: Measured at" in said
    assert app.number_input(key="locked_play").value == 300
    app.number_input(key="locked_play").set_value(8.0).run()
    assert "= 300" not in words(app)


def test_a_reading_that_does_not_fit_is_said():
    assert "One reading does not fit the others: play from, locked" in words(
        opened({**COUNTS, "locked_play": 19})
    )


def test_it_is_kept_under_the_name_once_and_stands_beside_practice(database: Database) -> None:
    sitting = begin_sitting(KINDS["play"], database, name="Ada", now=datetime(2026, 1, 2, tzinfo=UTC))
    for number in range(PAIRS):
        sitting = keep_answer(sitting, Answer(difference=0.15e-3, second=number % 5 != 0), database)
    app = opened(COUNTS, name="Ada")
    assert "practice, on a screen" in words(app)
    press(app, "Keep it under my name")
    press(app, "Keep it under my name")
    (kept,) = real_hubs("Ada", database)
    assert kept.readings.hand == "Ada"
    said = words(app)
    assert said.index("2026-01-02 00:00") < said.index("a real hub</td>")
    press(app, "Delete")
    assert real_hubs("Ada", database) == ()


def test_without_a_name_nothing_is_kept():
    app = opened(COUNTS)
    assert "With your name it can be kept" in words(app)
    assert not [button for button in app.button if button.label.startswith("Keep it")]


def test_clearing_takes_every_number_out_of_the_address():
    app = opened({**COUNTS, "locked_axle": 0.1, "locked_at": 15})
    press(app, "Clear every number")
    assert not set(app.query_params) & {*COUNTS, "locked_axle", "locked_at"}
    assert "Nothing is entered yet" in words(app)
