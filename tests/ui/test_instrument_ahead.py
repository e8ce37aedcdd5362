"""A hand is answered at an address of its own: what is asked wrongly is refused, what is old is forgotten."""

import json
from typing import Any

import pytest
from starlette.requests import Request

import conemodel as cm
from conemodel.base.units import DEG
from conemodel.parts import library
from conemodel.show.instrument.numbers import glance_json
from conemodel.tasks.setting.glance import glance_at
from conemodel.ui.setting.under_the_finger import ask_at
from conemodel.ui.widgets import instrument_ahead
from conemodel.ui.widgets.instrument_ahead import ROUTE, answer_ahead


def ask(address: str) -> tuple[int, Any]:
    """Return status and content of an answer."""
    path, _, query = address.partition("?")
    scope = {
        "type": "http",
        "path_params": {"hub": path.rpartition("/")[2]},
        "query_string": query.encode(),
    }
    answer = ROUTE.endpoint(Request(scope))
    assert answer.headers["cache-control"] == "no-store"
    return answer.status_code, json.loads(bytes(answer.body))


def test_it_says_what_a_glance_at_the_setting_says():
    hub = cm.load_scenario(library.SCENARIOS / "touring-rear.toml")
    status, said = ask(ask_at(hub) + "84")
    assert status == 200
    assert said == glance_json(glance_at(hub.with_setting(back_off=DEG.to_si(84))))


def test_a_hub_has_one_address_wherever_its_cone_stands():
    one, other = (
        cm.load_scenario(library.SCENARIOS / f"{name}.toml") for name in ("touring-rear", "city-nutted")
    )
    assert ask_at(one) == ask_at(one.with_setting(back_off=2.0)) != ask_at(other)


@pytest.mark.parametrize("angle", ["", "nan", "inf", "1e999", "out", "12°"])
def test_what_is_no_angle_is_refused(angle):
    status, said = ask(answer_ahead("hub", lambda at: {"at": at}) + angle)
    assert (status, said) == (400, {"error": "angle: must be a number of degrees"})


def test_the_angle_may_be_left_out_only_by_mistake():
    assert ask(answer_ahead("hub", lambda at: {"at": at}).partition("?")[0])[0] == 400


def test_a_hub_that_was_never_shown_is_not_answered():
    assert ask("/conemodel/exact/unknown?angle=3")[0] == 404


def test_the_hubs_shown_longest_ago_are_forgotten(monkeypatch):
    monkeypatch.setattr(instrument_ahead, "MOST_HUBS", 3)
    for hub in "abcadbe":
        answer_ahead(hub, lambda at: {"at": at})
    assert [ask(f"/conemodel/exact/{hub}?angle=-3") for hub in "dbe"] == [(200, {"at": -3.0})] * 3
    assert ask("/conemodel/exact/a?angle=3")[0] == ask("/conemodel/exact/c?angle=3")[0] == 404


def test_where_nothing_can_be_said_nothing_is():
    assert ask(answer_ahead("hub", lambda at: None) + "3") == (200, None)
