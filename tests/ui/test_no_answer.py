"""Where the model finds no answer a page says so, says why, and stands."""

import pytest
from streamlit.testing.v1 import AppTest

from conemodel.base.errors import NotConverged
from conemodel.ui.real_hub import measure
from tests.patience import PATIENCE


def _script() -> None:
    from conemodel.ui.real_hub import measure

    measure.page()


def test_what_was_not_found_is_said_letter_for_letter_and_the_page_stands(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def fail(*_args: object) -> None:
        raise NotConverged("no balance at *0.1* mm")

    monkeypatch.setattr(measure, "cached_measuring", fail)
    app = AppTest.from_function(_script, default_timeout=PATIENCE).run()
    assert not app.exception
    (said,) = (error.value for error in app.error)
    assert said == (
        r"The model found no answer for these readings: no balance at \*0.1\* mm. Your entries are as they were."
    )
    assert any(button.label == "Clear all" for button in app.button)
