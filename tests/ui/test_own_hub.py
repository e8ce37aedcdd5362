"""A hub brought as a file comes back with the address, whole or with a sentence that it did not."""

from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from conemodel.parts.library import SCENARIOS
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import load_scenario, write_part
from conemodel.ui.choose_hub import MOST_LETTERS, ready_hubs
from conemodel.ui.own_file import LONGEST
from conemodel.ui.packed_text import pack
from tests.patience import PATIENCE

LIGHT = load_scenario(SCENARIOS / "light-axle.toml").replace(name="Brought from home")
PACKED = pack(write_part(LIGHT))


def _page() -> None:
    import streamlit as st

    from conemodel.ui.choose_hub import choose_hub
    from conemodel.ui.own_hub import say_lost_hub

    say_lost_hub()
    st.text(f"Shown: {choose_hub().name}")


def opened(address: dict[str, str] | None = None, *, brought: Scenario | None = None) -> AppTest:
    app = AppTest.from_function(_page, default_timeout=PATIENCE)
    if brought:
        app.session_state.own_hub, app.session_state.hub = brought, "own"
    for name, text in (address or {}).items():
        app.query_params[name] = text
    return app.run()


def shown(app: AppTest) -> str:
    assert not app.exception
    return next(text.value for text in app.text if text.value.startswith("Shown: ")).removeprefix("Shown: ")


@pytest.mark.parametrize("path", sorted(SCENARIOS.glob("*.toml")), ids=lambda path: path.stem)
def test_there_is_room_for_every_hub(path: Path) -> None:
    hub = load_scenario(path)
    assert len(pack(write_part(hub))) < LONGEST


def test_the_address_brings_the_hub_back_until_another_is_chosen() -> None:
    app = opened({"hub": "own", "own": PACKED})
    assert shown(app) == LIGHT.name
    assert app.query_params["own"] in (PACKED, [PACKED])
    assert not app.error
    app.selectbox(key="hub").select("road-front").run()
    assert "own" not in app.query_params
    app.selectbox(key="hub").select("own").run()
    assert shown(app) == LIGHT.name
    assert "own" in app.query_params


def test_a_hub_too_long_for_the_address_is_kept_and_said() -> None:
    story = "".join(chr(0x4E00 + 7919 * n % 20000) for n in range(4000))
    app = opened(brought=LIGHT.replace(story=story))
    assert shown(app) == LIGHT.name
    assert "too long for the address" in app.warning[0].value
    assert "own" not in app.query_params


@pytest.mark.parametrize(
    "packed",
    [PACKED[:-40], "", "x" * 7000, None, pack("[found]"), pack("a" + ".a" * 5000 + " = 1")],
    ids=["cut", "empty", "long", "none", "no hub", "deep"],
)
def test_a_hub_that_is_not_whole_is_said_and_another_shown(packed: str | None) -> None:
    app = opened({"hub": "own"} | ({} if packed is None else {"own": packed}))
    assert "could not be read" in app.error[0].value
    assert shown(app) != LIGHT.name
    assert app.query_params["hub"] == "own"
    assert app.query_params.get("own") == packed
    app.selectbox(key="hub").select("road-front").run()
    assert not app.error
    assert "own" not in app.query_params


def test_a_name_too_long_for_a_phone_loses_whole_words_in_the_chooser() -> None:
    words = "Rear hub of the green town cycle with the carrier that stands under the lean-to at the back"
    app = opened(brought=LIGHT.replace(name=words))
    said = app.selectbox(key="hub").options[-1]
    assert len(said) <= MOST_LETTERS
    assert said.endswith(" …")
    assert f"Your own: {words} ".startswith(said.removesuffix("…"))
    assert shown(app) == words
    assert max(len(hub.name) for hub in ready_hubs().values()) <= MOST_LETTERS
