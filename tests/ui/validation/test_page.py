"""The page Method shows the sizes of the hub that was chosen, as the library has them."""

import pytest
from streamlit.testing.v1 import AppTest

import conemodel as cm
from conemodel.parts import library
from conemodel.show.formatting import millimetres
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
