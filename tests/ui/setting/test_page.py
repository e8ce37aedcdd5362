"""The page Set the cone as a flow: what is entered, what it answers, and that nothing entered is lost."""

import json
from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

import conemodel as cm
from conemodel.parts import library
from conemodel.parts.unknowns.hands import DRIFT
from conemodel.parts.unknowns.joint import NUT_FORCE
from conemodel.tasks.setting.overrides import apply_overrides
from tests.patience import PATIENCE

SCENARIOS = sorted((library.SCENARIOS).glob("*.toml"))


def _script() -> None:
    from conemodel.ui.setting import page as set_cone

    set_cone.page()


def opened(**address: str | float) -> AppTest:
    """Open the page with this in its address; the browser test does the same with a real one."""
    app = AppTest.from_function(_script, default_timeout=PATIENCE)
    for name, value in address.items():
        app.query_params[name] = str(value)
        app.session_state[name] = value
    return app.run()


def words(app: AppTest) -> str:
    """All that is said, the headline first."""
    html = [element.proto.body for element in app.get("html")]
    headline = [answer(app)[name] for name in ("words", "certainty", "act")] if _instruments(app) else []
    return "\n".join([*headline, *html, *(element.value for element in app.markdown)])


def answer(app: AppTest) -> dict[str, Any]:
    """What the headline over the hub says of the setting as it was worked out."""
    (sent,) = _instruments(app)
    said: dict[str, Any] = json.loads(sent)["exact"]["answer"]
    return said


def _instruments(app: AppTest) -> list[str]:
    widgets = (each.proto for each in app.get("bidi_component"))
    return [each.json for each in widgets if each.component_name == "conemodel_instrument"]


@pytest.mark.parametrize("path", SCENARIOS, ids=lambda path: path.stem)
def test_every_ready_hub_opens_with_its_verdict(path: Path) -> None:
    """The sentence on screen is the library's, from the same file."""
    app = opened(hub=path.stem)
    assert not app.exception
    scenario = cm.load_scenario(path)
    turn = f"{round(scenario.setting.back_off * 57.29577951308232)}deg"
    expected = cm.predict(apply_overrides(scenario, {"back-off": turn})).verdict.sentence
    assert expected.split(". ")[-1][:40] in words(app)


def test_a_turn_by_minutes_is_kept_and_undo_puts_it_back() -> None:
    app = opened(slack="0.09", clamp="5")
    assert answer(app)["state"] == "loose"
    before, aim = turned_out(app), answer(app)["aim"]
    app.slider(key="turn").set_value(round(aim)).run()
    assert answer(app)["state"] == "right"
    app.button_group(key="minutes").select("out 5").run()
    assert turned_out(app) == round(aim) + 30
    press(app, "Undo the last turn")
    assert turned_out(app) == round(aim) < before
    assert answer(app)["state"] == "right"


def turned_out(app: AppTest) -> float:
    value: Any = app.slider(key="turn").value
    return float(value)


def press(app: AppTest, label: str) -> None:
    next(button for button in app.button if button.label == label).click().run()


def test_the_address_holds_the_setting() -> None:
    app = opened(hub="road-front", turn=61.0, clamp="8", technique="cone turned out", why=True)
    assert app.selectbox(key="hub").value == "road-front"
    assert app.slider(key="turn").value == 61.0
    assert app.select_slider(key="clamp").value == "8"
    assert app.radio(key="technique").value == "cone turned out"
    assert "8.0 kN" in words(app)


def test_a_proud_axle_says_first_that_it_must_not_be_ridden() -> None:
    app = opened(hub="proud-axle")
    assert answer(app)["words"].startswith("Do not ride")
    assert answer(app)["aim"] is None
    assert "Turn the cone" not in words(app)


def test_three_and_eight_kilonewton_change_the_verdict() -> None:
    states = []
    for force in ("3", "8"):
        app = opened(turn=62.0, slack="0.09", clamp=force)
        states.append(answer(app)["state"])
    assert states == ["loose", "tight"]


def test_a_file_that_cannot_be_used_is_explained_and_the_hub_stays(tmp_path: Path) -> None:
    app = opened(hub="road-front")
    app.file_uploader(key="hub_file").upload("hub.toml", b'name = "x"\nbad = 1').run()
    assert any("hub: is missing" in code.value and "bad" in code.value for code in app.code)
    assert app.selectbox(key="hub").value == "road-front"


def test_an_own_hub_is_taken_and_shown() -> None:
    text = next(path for path in SCENARIOS if path.stem == "light-axle").read_text()
    app = opened()
    app.file_uploader(key="hub_file").upload("../../x<b>.toml", text.encode()).run()
    assert app.selectbox(key="hub").value == "own"
    assert not app.exception
    assert "loose on 4, right on 4, too tight on 2 of 10 such hubs" in words(app)


def test_a_range_that_is_only_assumed_can_be_changed_and_the_address_keeps_it() -> None:
    """Wider drift makes the advice wider; the fold shows the registry's reason, the explanation that it was given."""
    usual = words(opened(why=True))
    assert DRIFT.because in usual
    app = opened(ranges=True, why=True)
    assert any(DRIFT.because in each.value for each in app.caption)
    app.number_input(key="drift_high").set_value(40.0).run()
    assert app.query_params["drift_high"] in ("40", ["40"])
    assert "2 to 40°" in words(app)
    assert "as given for this hub" in words(app)
    assert "as given for this hub" not in usual
    press(app, "Put all of these back")
    assert "drift_high" not in app.query_params
    assert words(app) == usual


def test_ranges_upside_down_are_said_and_change_nothing() -> None:
    app = opened(drift_low=30.0, lock_torque_high=3.0)
    said = "\n".join(each.value for each in app.code)
    assert "drift_low_deg" in said
    assert "lock_torque_low_nm" in said
    assert words(app) == words(opened())


def test_another_hub_is_assumed_in_its_own_ranges() -> None:
    app = opened(clamp_force_high=9500.0, why=True)
    assert "3000 to 9500 N" in words(app)
    app.selectbox(key="hub").select("city-nutted").run()
    assert NUT_FORCE.range_in_words() in words(app)
    assert "clamp_force_high" not in app.query_params


def test_choosing_another_hub_takes_its_setting() -> None:
    app = opened()
    app.selectbox(key="hub").select("light-axle").run()
    assert app.slider(key="turn").value == pytest.approx(112, abs=1)


def test_the_chart_sent_stays_the_same_text_while_the_cone_turns() -> None:
    """Only then does a browser keep it; the frame must not have changed what is kept between runs either."""
    app = opened(hub="road-front", turn=50.0)
    (before,) = (each.proto for each in app.get("vega_lite_chart"))
    app.slider(key="turn").set_value(51.0).run()
    (after,) = (each.proto for each in app.get("vega_lite_chart"))
    assert before.spec == after.spec
    assert before.alt == after.alt
    (one,), (other,) = before.datasets, after.datasets
    assert (one.name, one.data.data != other.data.data) == ("now", True)


def test_the_left_end_of_a_value_nobody_measured_says_what_is_assumed() -> None:
    force = opened(hub="touring-rear").select_slider(key="clamp")
    # 5 kN is the middle of what hands close a quick release with: common practice, no source
    assert force.options[0] == "5 kN (assumed) · change"
    assert opened(hub="touring-rear").select_slider(key="slack").options[0].endswith("mm (assumed) · change")


def test_a_slack_that_was_measured_is_called_given() -> None:
    # 60° flanks: 0.42 mm across the pitch diameter is 0.42 tan 30° = 0.24 mm along the axle
    assert opened(hub="worn-thread").select_slider(key="slack").options[0] == "0.24 mm (as given) · change"
