"""A hub that somebody entered is the one that is checked: chosen by itself, and taken at its word."""

from typing import Any

from streamlit.testing.v1 import AppTest

from conemodel.parts.known_hub import KnownHub
from conemodel.parts.known_scenario import KnownScenario
from conemodel.parts.toml_files import write_part
from conemodel.ui.own_hub import OWN
from conemodel.ui.packed_text import pack
from tests.ui.diagnosis.driving import opened, pick, seen, words

NUTTED = KnownScenario.of(KnownHub(family="nutted front"))
REAR = KnownScenario.of(KnownHub(family="usual rear"))
ROCKS: dict[str, Any] = {"play_open": "clear", "play_closed": "slight", "turns": "free"}


def linked(hub: KnownScenario = NUTTED, **more: Any) -> AppTest:
    """Open the page by a link that holds an own hub."""
    return opened(hub=OWN, own=pack(write_part(hub)), **more)


def choose(app: AppTest, which: str) -> AppTest:
    return app.radio(key="checked_as").set_value(which).run()


def test_an_own_hub_is_chosen_and_says_what_holds_the_wheel() -> None:
    app = linked(**ROCKS)
    assert not app.exception
    assert app.session_state.checked_as == "same"
    assert seen(app).clamp == "nuts"
    assert app.query_params["held_by"] in ("nuts", ["nuts"])
    pick(app, "held_by", "quick release")
    assert seen(app).clamp == "quick release"
    choose(app, "usual")
    assert app.run().session_state.checked_as == "usual"


def test_another_own_hub_is_taken_instead_and_an_answer_of_ones_own_stays() -> None:
    app = linked(**ROCKS)
    choose(app, "usual")
    app.session_state.own_hub = REAR
    app.session_state.hub = OWN
    app.run()
    assert app.session_state.checked_as == "same"
    assert seen(app).clamp == "quick release"
    assert seen(linked(**ROCKS, held_by="quick release")).clamp == "quick release"


def test_a_link_that_says_which_hub_opens_as_it_was() -> None:
    assert seen(linked(**ROCKS, checked_as="same")).clamp is None
    assert opened(**ROCKS).session_state.checked_as == "usual"


def test_no_front_hub_is_asked_for_its_freehub() -> None:
    front, rear, unknown = words(linked(**ROCKS)), words(linked(REAR, **ROCKS)), words(opened(**ROCKS))
    assert "Not looked at yet: headset" in front
    assert "Not looked at yet: the freehub" in rear
    assert "Not looked at yet: the freehub" in unknown
