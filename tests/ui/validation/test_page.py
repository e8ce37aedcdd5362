"""The page Method shows the sizes of the hub that was chosen, as the library has them."""

import pytest
from streamlit.testing.v1 import AppTest

import conemodel as cm
from conemodel.base.plain_text import for_page
from conemodel.parts import library
from conemodel.show.formatting import millimetres
from conemodel.show.validation.calibration import share
from conemodel.tasks.validation.calibration import (
    DRAWN,
    WEAK,
    goals,
    kept_calibration,
    misses,
    say_words_kept,
)
from conemodel.tasks.validation.edge_sizes import edge_sizes
from tests.patience import PATIENCE


def _script() -> None:
    from conemodel.ui.validation import page as method

    method.page()


@pytest.mark.parametrize("name", ["touring-rear", "road-front"])
def test_method_shows_what_the_edges_come_to_for_the_hub_in_hand(name: str) -> None:
    app = AppTest.from_function(_script, default_timeout=PATIENCE)
    app.query_params["hub"] = name
    app.session_state["hub"] = name
    app.run()
    assert not app.exception
    tables = [element.proto.body for element in app.get("html")]
    (shown,) = (body for body in tables if "What heat, frame and loose cups add" in body)
    for each in edge_sizes(cm.load_scenario(library.SCENARIOS / f"{name}.toml")):
        assert millimetres(each.length, sign=True) in shown
        assert each.what in shown


def test_method_shows_what_simulated_checks_came_to_and_what_they_miss() -> None:
    app = AppTest.from_function(_script, default_timeout=PATIENCE)
    app.run()
    assert not app.exception
    tables = [element.proto.body for element in app.get("html")]
    (shown,) = (body for body in tables if "How Check a hub did on simulated hubs" in body)
    said = " ".join(each.value for each in app.markdown)
    kept = kept_calibration()
    for each in kept.trials:
        assert share(each.covered) in shown
        assert share(each.tight) in shown
    for line in (*DRAWN, *WEAK, *goals(kept), *misses(kept), say_words_kept(kept)):
        assert for_page(line) in said
    assert ("All of them are met" in said) == (list(misses(kept)) == [])
