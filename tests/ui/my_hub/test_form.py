"""My hub: chips and steps enter what is known, all else stays assumed, and what cannot be is named and kept."""

import pytest
from streamlit.testing.v1 import AppTest

from conemodel.parts.known_hub import KnownHub
from conemodel.parts.known_scenario import KnownScenario
from conemodel.ui.own_hub import OWN
from tests.patience import PATIENCE


def _page() -> None:
    import streamlit as st

    from conemodel.ui.choose_hub import ready_hubs
    from conemodel.ui.my_hub.entries import go_on_or_begin
    from conemodel.ui.my_hub.form import draw_form

    hub = st.session_state.get("from") or ready_hubs()["touring-rear"]
    go_on_or_begin(hub)
    draw_form(other=hub)


def opened(hub: KnownScenario | None = None) -> AppTest:
    app = AppTest.from_function(_page, default_timeout=PATIENCE)
    app.session_state["from"] = hub
    return app.run()


def chip(app: AppTest, name: str, words: str) -> None:
    app.button_group(key=f"mine_{name}").select(words).run()


def tap(app: AppTest, name: str) -> None:
    app.button(key=f"mine_{name}").click().run()
    assert not app.exception


def taken(app: AppTest) -> KnownScenario:
    tap(app, "use")
    assert app.session_state.hub == OWN
    hub: KnownScenario = app.session_state.own_hub
    return hub


def test_a_hub_of_which_nothing_is_entered_is_the_usual_one_of_its_kind() -> None:
    assert taken(opened()) == KnownScenario.of(KnownHub(family="usual rear"))


def test_what_is_tapped_is_known_and_nothing_else() -> None:
    app = opened()
    chip(app, "end", "front")
    chip(app, "clamp", "axle nuts")
    chip(app, "thread", "3/8 × 26")
    chip(app, "over_locknut_width", "96 mm")
    chip(app, "keyed_washer", "not keyed")
    tap(app, "more_ball_count_left")
    tap(app, "less_protrusion_left")
    tap(app, "value_dropout_thickness")
    assert taken(app).known == KnownHub(
        family="nutted front",
        thread="3/8 x 26",
        over_locknut_width=96e-3,
        keyed_washer=False,
        ball_count_left=11,
        protrusion_left=19.5e-3,
        dropout_thickness=5e-3,
    )


def test_a_second_tap_takes_back_what_was_entered() -> None:
    app = opened()
    for _ in range(2):
        tap(app, "value_over_locknut_width")
    chip(app, "material", "titanium")
    app.button_group(key="mine_material").unselect("titanium").run()
    assert taken(app).known == KnownHub(family="usual rear")


def test_the_right_side_is_forgotten_once_it_is_the_same_again() -> None:
    app = opened()
    chip(app, "differs", "differs")
    tap(app, "more_ball_count_right")
    assert app.session_state.my_hub_entered["ball_count_right"] == 10
    chip(app, "differs", "same as left")
    assert taken(app).known == KnownHub(family="usual rear")


def test_what_cannot_be_is_said_in_words_and_stays_entered() -> None:
    app = opened(KnownScenario.of(KnownHub(family="nutted front", protrusion_left=9e-3)))
    tap(app, "less_protrusion_left")
    assert "do not go together" in app.error[0].value
    assert (
        "Axle out of the locknut, left = 8.5 mm: leaves an axle nut nothing to hold on" in app.code[0].value
    )
    assert app.button(key="mine_use").disabled
    tap(app, "more_protrusion_left")
    assert not app.error
    assert taken(app).known.protrusion_left == pytest.approx(9e-3)


def test_a_hub_entered_before_is_gone_on_with_and_keeps_what_was_set_of_it() -> None:
    hub = KnownScenario.of(KnownHub(family="usual rear", thread_slack=8e-5, thread_slack_error=1e-5))
    app = opened(hub)
    app.session_state.own_hub = hub.with_setting(back_off=0.5).replace(name="Ada's")
    tap(app, "more_over_locknut_width")
    found = taken(app)
    assert (found.name, found.setting.back_off) == ("Ada's", 0.5)
    assert found.known == hub.known.replace(over_locknut_width=130.5e-3)


def test_what_was_entered_and_not_used_is_gone_on_with_until_it_is_started_afresh() -> None:
    """A page drawn again is a form opened again: a tap beside it closed it, and nothing was used."""
    app = opened()
    tap(app, "more_ball_count_left")
    app.run()
    assert app.session_state.my_hub_entered["ball_count_left"] == 10
    tap(app, "afresh")
    assert "ball_count_left" not in app.session_state.my_hub_entered
    assert taken(app) == KnownScenario.of(KnownHub(family="usual rear"))
