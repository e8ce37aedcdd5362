"""A link's numbers and names are believed only where they make sense."""

import pytest
from streamlit.testing.v1 import AppTest


def _page() -> None:
    import streamlit as st

    from conemodel.ui.url_state import choice, kept_numbers, number

    st.text(str(number(st.slider, "Turn", -1.0, 3.0, key="turn", default=0.25)))
    st.text(str(kept_numbers(-1.0, 3.0, key="done", most=3)))
    st.text(choice(st.selectbox, "Kind", {"a": "A", "b": "B"}, key="kind", default="a"))


@pytest.mark.parametrize(
    "asked", ["1e9", "-10", "3.0001", "1e308", "1e999", "nan", "-inf", "1" + "0" * 400, "1" * 5000, "x", ""]
)
def test_a_number_beyond_its_limits_is_not_believed(asked: str) -> None:
    page = AppTest.from_function(_page)
    page.query_params["turn"] = asked
    page.run()
    assert not page.exception
    assert page.text[0].value == "0.25"


@pytest.mark.parametrize(("asked", "value"), [("0.5", "0.5"), ("-1", "-1.0"), ("3", "3.0")])
def test_a_number_within_its_limits_is(asked: str, value: str) -> None:
    page = AppTest.from_function(_page)
    page.query_params["turn"] = asked
    assert page.run().text[0].value == value


def test_a_choice_that_is_none_is_not_believed() -> None:
    page = AppTest.from_function(_page)
    page.query_params["kind"] = "![x](http://example.org/x.png)"
    assert page.run().text[2].value == "a"


@pytest.mark.parametrize(
    ("asked", "kept"),
    [
        ("1_-1_2.5", "[1.0, -1.0, 2.5]"),
        ("3_2_1_0", "[2.0, 1.0, 0.0]"),
        ("1_9", "[]"),
        ("1__2", "[]"),
        ("nan", "[]"),
        ("", "[]"),
        ("1_" * 9000, "[]"),
    ],
)
def test_a_row_of_numbers_is_believed_whole_or_not_at_all(asked: str, kept: str) -> None:
    page = AppTest.from_function(_page)
    page.query_params["done"] = asked
    assert page.run().text[1].value == kept
