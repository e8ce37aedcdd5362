"""The live chart: what is drawn is what was solved, and no meaning hangs on colour alone.

Expected values are geometry: a band is the good range, 360° are one lead.
"""

import json
from itertools import pairwise
from math import radians

import pytest

import conemodel as cm
from conemodel.show.charts.vega_lite import tone
from conemodel.show.palette import DARK, LIGHT
from conemodel.show.setting.cone_marks import NOW
from conemodel.show.setting.end_play_chart import (
    against_cone_position,
    alt_text_against_cone_position,
    good_angles_of,
    now_rows,
)
from tests.show.vega_lite import check_vega_lite


def rows(chart):
    return chart["data"]["values"]


def layers(chart):
    for layer in chart["layer"]:
        yield from layer.get("layer", [layer])


def own_data(chart, *fields):
    """Yield the first row of each layer that has its own data with these fields."""
    for layer in layers(chart):
        row = layer.get("data", {}).get("values", [{}])[0]
        if set(fields) <= set(row):
            yield row


def test_the_chart_is_valid_vega_lite(tight, touring, touring_sweep):
    check_vega_lite(against_cone_position(touring_sweep, tight))
    check_vega_lite(against_cone_position(touring_sweep, touring))


def test_a_chart_that_is_not_vega_lite_is_noticed(touring, touring_sweep):
    chart = against_cone_position(touring_sweep, touring)
    chart["layer"][0]["mark"] = {"type": "rectangle"}
    with pytest.raises(Exception, match="rectangle"):
        check_vega_lite(chart)


def test_the_good_cone_positions_are_where_the_clamped_hub_is_good(touring, touring_sweep):
    low, high = good_angles_of(touring_sweep, touring) or (0.0, 0.0)
    # M10 × 1: the window in mm is the same part of 360°.
    width = (touring.window.loose_edge - touring.window.tight_edge) * 1000
    assert (high - low) * 57.29577951308232 == pytest.approx(360 * width)
    (band,) = own_data(against_cone_position(touring_sweep, touring), "low", "high")
    assert band["high"] - band["low"] == pytest.approx(360 * width)
    inside = [
        play
        for angle, play in zip(touring_sweep.cone_angle, touring_sweep.end_play_clamped, strict=True)
        if low < angle < high
    ]
    assert inside
    assert all(touring.window.state(play) == "right" for play in inside)


def test_the_present_setting_is_marked_in_words_too(touring, touring_sweep):
    chart = against_cone_position(touring_sweep, touring)
    assert now_rows(touring_sweep, touring) == [{"deg": 90.0, "words": "now 90°", "align": "center"}]
    drawn = [m["mark"]["type"] for m in layers(chart) if m.get("data") == {"name": NOW}]
    assert sorted(drawn) == ["rule", "text"]
    texts = [m["mark"].get("text") for m in layers(chart)]
    assert {"play ↑", "squeeze ↓"} <= set(texts)
    assert any("clamped" in str(text) for text in texts)


def test_a_setting_beyond_the_chart_says_so_at_its_edge(touring, touring_sweep):
    far = cm.predict(touring.scenario.with_setting(back_off=radians(200)))
    (row,) = now_rows(touring_sweep, far)
    assert row == {"deg": pytest.approx(120.0), "words": "now 200°, off this chart", "align": "right"}


def test_only_the_present_setting_moves_with_the_cone(touring, touring_sweep):
    """A browser keeps a chart whose text is the same; a tight hub must not stretch its scale either."""
    one, *others = (
        cm.predict(touring.scenario.with_setting(back_off=radians(turn))) for turn in (90, 89, 20, -30, 200)
    )
    for other in others:
        for said in (against_cone_position, alt_text_against_cone_position):
            assert json.dumps(said(touring_sweep, one)) == json.dumps(said(touring_sweep, other))
        assert now_rows(touring_sweep, one) != now_rows(touring_sweep, other)


def test_the_two_curves_differ_in_more_than_colour(touring, touring_sweep):
    lines = [
        m["mark"]
        for m in layers(against_cone_position(touring_sweep, touring))
        if m["mark"]["type"] == "line"
    ]
    assert sorted("strokeDash" in line for line in lines) == [False, False, True, True]
    assert len({line["strokeWidth"] for line in lines}) == 2


def test_no_preload_is_drawn_above_its_panel(touring, touring_sweep):
    for layer in layers(against_cone_position(touring_sweep, touring)):
        y = layer["encoding"].get("y", {})
        if layer["mark"]["type"] == "line" and y.get("title") == "preload, N":
            top = y["scale"]["domain"][1]
            assert layer["transform"] == [{"filter": f"datum.{y['field']} <= {top}"}]
            assert any(row[y["field"]] > top for row in rows(against_cone_position(touring_sweep, touring)))


def test_the_read_out_tells_degrees_and_clock_minutes(touring, touring_sweep):
    row = rows(against_cone_position(touring_sweep, touring))[-1]
    assert row["cone"] == "120° out from finger contact"
    # one minute on a clock face is 6°
    assert row["clock"] == "20 minutes"
    assert row["clamped"].endswith(" mm play")


def test_alt_text_says_where_the_good_range_lies(touring, touring_sweep):
    low, high = good_angles_of(touring_sweep, touring) or (0.0, 0.0)
    said = alt_text_against_cone_position(touring_sweep, touring)
    assert f"{low * 57.2958:.0f}° out from finger contact to {high * 57.2958:.0f}° out" in said


def test_the_same_results_give_the_same_chart(touring, touring_sweep):
    once = json.dumps(against_cone_position(touring_sweep, touring), allow_nan=False)
    assert once == json.dumps(against_cone_position(touring_sweep, touring))


def test_a_chart_carries_both_sets_of_colours():
    said = tone("petrol")["expr"]
    assert LIGHT.petrol in said
    assert DARK.petrol in said


def test_every_place_across_the_chart_belongs_to_the_position_nearest_to_it(touring, touring_sweep):
    data = rows(against_cone_position(touring_sweep, touring))
    assert data[0]["from_deg"] == data[0]["out_deg"]
    assert data[-1]["to_deg"] == data[-1]["out_deg"]
    for one, other in pairwise(data):
        middle = (one["out_deg"] + other["out_deg"]) / 2
        assert one["to_deg"] == other["from_deg"] == pytest.approx(middle)
