"""Driving the page Check a hub without a browser: open it, enter things, and see what it made of them."""

from html import escape
from typing import Any

from streamlit.testing.v1 import AppTest

from conemodel.parts.readings import Readings
from conemodel.parts.toml_files import read_part
from conemodel.tasks.diagnosis.diagnose import Diagnosis
from tests.patience import PATIENCE

QUICK = {"play_open": "clear", "play_closed": "slight", "turns": "free", "held_by": "quick release"}


def _script() -> None:
    import streamlit as st

    from conemodel.base.errors import InputProblems
    from conemodel.parts.toml_files import write_part
    from conemodel.ui.diagnosis import page as check
    from conemodel.ui.diagnosis.entries import NOT_LOOKED, QUICK, readings_of

    check.page()
    answers = {field: st.session_state.get(name, NOT_LOOKED) for field, name in QUICK.items()}
    try:
        seen = readings_of({field: answer for field, answer in answers.items() if answer != NOT_LOOKED})
    except InputProblems:
        return
    st.session_state.seen = write_part(seen)


def opened(**state: Any) -> AppTest:
    """Open the page with this in its address, or in its session where it is not text."""
    app = AppTest.from_function(_script, default_timeout=PATIENCE)
    for name, value in state.items():
        if isinstance(value, str):
            app.query_params[name] = value
        else:
            app.session_state[name] = value
    return app.run()


def bring(app: AppTest, name: str, data: bytes) -> AppTest:
    return app.file_uploader(key="check_file").set_value((name, data, "application/toml")).run()


def words(app: AppTest) -> str:
    html = [element.proto.body for element in app.get("html")]
    said = [element.value for kind in (app.markdown, app.error, app.caption, app.code) for element in kind]
    return "\n".join([*html, *said])


def pills(app: AppTest, key: str) -> Any:
    return next(one for one in app.get("button_group") if one.key == key)


def pick(app: AppTest, key: str, answer: str) -> AppTest:
    found: AppTest = pills(app, key).set_value(answer).run()
    return found


def enter(app: AppTest, field: str, value: float) -> AppTest:
    return app.number_input(key=f"check:{field}").set_value(value).run()


def seen(app: AppTest) -> Readings:
    """Return the readings that were made of what is entered."""
    return read_part(Readings, app.session_state["seen"], name="seen")


def add_round(app: AppTest) -> AppTest:
    return app.button(key="add_round").click().run()


def says(app: AppTest, diagnosis: Diagnosis) -> bool:
    """Return whether the page says every answer of a diagnosis: what it is, how sure, why, and what to do."""
    said = words(app)
    answers = diagnosis.headline.answers
    parts = [part for one in answers for part in (*one.words.split(": "), one.certainty, one.why, one.act)]
    return all(escape(part) in said for part in parts)
