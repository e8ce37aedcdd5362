"""All that a browser needs of one hub: small enough to send, and its good arc where the setting is right."""

import json

import pytest

from conemodel.base.units import DEG
from conemodel.parts.toml_files import load_scenario
from conemodel.show.instrument.hub_json import good_arc, hub_json
from conemodel.show.instrument.numbers import exact_json
from conemodel.tasks.setting.predict import predict
from conemodel.tasks.setting.travel import travel_of

MOST_BYTES = 60_000
HUBS = ("touring-rear", "city-nutted", "thru-axle", "road-front", "one-ball-short")


@pytest.mark.parametrize("name", HUBS)
def test_a_hub_is_sent_in_less_than_sixty_thousand_bytes(root, name):
    hub = load_scenario(root / "scenarios" / f"{name}.toml")
    sent = {**hub_json(hub), "exact": exact_json(predict(hub))}
    assert len(json.dumps(sent).encode()) < MOST_BYTES


@pytest.mark.parametrize("name", HUBS[:4])
def test_every_paint_of_the_drawing_and_every_colour_of_a_paint_is_sent(root, name):
    told = hub_json(load_scenario(root / "scenarios" / f"{name}.toml"))
    parts = [
        part for sheet in told["sheets"].values() for group in sheet["groups"] for part in group["parts"]
    ]
    assert {part["paint"] for part in parts} <= set(told["paints"])
    named = {paint[key] for paint in told["paints"].values() for key in ("fill", "stroke")} - {None}
    assert named <= set(told["colours"]["light"]) == set(told["colours"]["dark"])


@pytest.mark.parametrize("name", HUBS[:4])
def test_the_good_arc_ends_where_the_clamped_hub_leaves_its_good_range(root, name):
    hub = load_scenario(root / "scenarios" / f"{name}.toml")
    arc = good_arc(travel_of(hub))
    assert arc is not None
    tight, loose = arc
    step = DEG.to_si(0.5)
    for angle, state in ((tight - step, "tight"), (tight + step, "right"), (loose - step, "right")):
        assert predict(hub.with_setting(back_off=angle)).verdict.state == state
    assert predict(hub.with_setting(back_off=loose + step)).verdict.state == "loose"
