"""A card that is not in the record is said in a sentence, in its fragment too, where no page catches anything."""

from streamlit.testing.v1 import AppTest

from tests.patience import PATIENCE

SAID = "This card is not in the record: it was deleted, or the address is cut short."


def _page() -> None:
    from functools import partial

    import streamlit as st

    from conemodel.ui.job_card.in_hand import _take, show_card

    st.button("Tap", on_click=partial(_take, "nope", "sent"))
    show_card("nope")


def test_a_card_that_is_not_there_is_said_and_so_is_a_tap_that_came_too_late() -> None:
    app = AppTest.from_function(_page, default_timeout=PATIENCE).run()
    assert not app.exception
    assert [error.value for error in app.error] == [SAID]
    app.session_state.sent = {"taps": [{"id": "one", "answers": [["tag", "", "7"]]}]}
    app.button[0].click().run()
    assert not app.exception
    assert [error.value for error in app.error] == [f"{SAID} The last tap was not kept."]
    assert [error.value for error in app.run().error] == [SAID]
