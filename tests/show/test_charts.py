"""The live charts: what is drawn is what was solved, and no meaning hangs on colour alone.

Expected values are sums and geometry: bars add up to end play, a band is the good range, 360° are one lead.
"""

import json

import altair as alt
import pytest

from conemodel.show.charts import alt_text_where_the_play_went, where_the_play_went
from conemodel.show.curves import against_cone_position, alt_text_against_cone_position, good_cone_angles
from conemodel.show.spec import tone
from conemodel.show.tones import DARK, LIGHT


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


def luminance(colour):
    channels = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, other):
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_both_charts_are_valid_vega_lite(tight, touring_sweep):
    alt.Chart.from_dict(where_the_play_went(tight))
    alt.Chart.from_dict(against_cone_position(touring_sweep, tight))


def test_a_chart_that_is_not_vega_lite_is_noticed(touring):
    chart = where_the_play_went(touring)
    chart["layer"][0]["mark"] = {"type": "rectangle"}
    with pytest.raises(Exception, match="rectangle"):
        alt.Chart.from_dict(chart)


def test_the_bars_add_up_to_the_end_play(prediction):
    level = 0.0
    for row in rows(where_the_play_went(prediction)):
        if row["kind"] == "level":
            name = {
                "Backed off": "backed_off",
                "Locked": "locked",
                "Clamped": "clamped",
                "Under the rider": "ridden",
            }
            stage = prediction.stages[name[row["step"]]]
            assert row["from_mm"] == 0.0
            assert row["to_mm"] == pytest.approx(stage.end_play * 1000, abs=1e-9)
        else:
            assert row["from_mm"] == pytest.approx(level, abs=1e-5)
            level = row["to_mm"]
        # a term under a nanometre is not drawn; at most one is left out before the next level
        assert row["to_mm"] == pytest.approx(level, abs=1e-5)


def test_a_bar_points_the_way_it_moved_the_cone(prediction):
    for row in rows(where_the_play_went(prediction)):
        if row["kind"] != "level":
            opens = row["to_mm"] > row["from_mm"]
            assert row["kind"] == ("opens" if opens else "closes")
            assert row["mm"][0] == ("+" if opens else "−")
    tips = {m["mark"]["shape"] for m in layers(where_the_play_went(prediction)) if "shape" in m["mark"]}
    assert tips == {"triangle-right", "triangle-left"}


def test_what_is_assumed_is_marked_beside_its_colour(prediction):
    chart = where_the_play_went(prediction)
    assumed = {term.label for stage in prediction.stages.values() for term in stage.terms if term.assumed}
    for row in rows(chart):
        if row["kind"] != "level":
            assert row["label"].startswith("≈") == (row["words"] in assumed)
    dashed = [
        m for m in layers(chart) if "datum.assumed" in str(m.get("transform")) and "strokeDash" in m["mark"]
    ]
    assert len(dashed) == 2
    assert all("!datum.assumed" not in str(m["transform"]) for m in dashed)


def test_the_band_is_the_good_range_at_the_clamped_end(prediction):
    chart = where_the_play_went(prediction)
    band, bar = own_data(chart, "low", "high", "top")
    assert band["low"] == bar["low"] == pytest.approx(prediction.window.tight_edge * 1000)
    assert band["high"] == bar["high"] == pytest.approx(prediction.window.loose_edge * 1000)
    first = next(row for row in rows(chart) if row["step"] == "Clamped")
    assert band["top"] == first["top"]


def test_everything_drawn_lies_on_the_scale(tight, prediction):
    for each in (tight, prediction):
        chart = where_the_play_went(each)
        bars = next(m for m in layers(chart) if m["mark"]["type"] == "rect" and "transform" in m)
        low, high = bars["encoding"]["x"]["scale"]["domain"]
        for row in rows(chart):
            assert low <= min(row["from_mm"], row["to_mm"])
            assert max(row["from_mm"], row["to_mm"]) <= high


def test_a_tight_hub_is_told_with_its_preload(tight):
    clamped = [row for row in rows(where_the_play_went(tight)) if row["step"] == "Clamped"][-1]
    assert clamped["to_mm"] < 0
    assert f"preload {tight.stages['clamped'].preload:.0f} N" in clamped["words"]
    assert "preload" in alt_text_where_the_play_went(tight)


def test_the_words_for_those_who_do_not_see_it_hold_every_term(prediction):
    said = alt_text_where_the_play_went(prediction)
    for row in rows(where_the_play_went(prediction)):
        assert row["words"].lower() in said.lower()
        assert row["mm"].replace("+", "") in said.replace("+", "")


def test_the_good_cone_positions_are_where_the_clamped_hub_is_good(touring, touring_sweep):
    low, high = good_cone_angles(touring_sweep, touring) or (0.0, 0.0)
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
    texts = [m["mark"].get("text") for m in layers(chart)]
    assert "now 90°" in texts
    assert {"free play ↑", "preload ↓"} <= set(texts)
    assert any("clamped" in str(text) for text in texts)


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
    assert row["clock"] == "20.0 minutes"
    assert "free play" in row["clamped"]


def test_alt_text_says_where_the_good_range_lies(touring, touring_sweep):
    low, high = good_cone_angles(touring_sweep, touring) or (0.0, 0.0)
    said = alt_text_against_cone_position(touring_sweep, touring)
    assert f"{low * 57.2958:.0f}° out from finger contact to {high * 57.2958:.0f}° out" in said


def test_the_same_results_give_the_same_chart(touring, touring_sweep):
    assert json.dumps(where_the_play_went(touring)) == json.dumps(where_the_play_went(touring))
    once = json.dumps(against_cone_position(touring_sweep, touring), allow_nan=False)
    assert once == json.dumps(against_cone_position(touring_sweep, touring))


@pytest.mark.parametrize("tones", [LIGHT, DARK], ids=["light", "dark"])
def test_text_and_marks_stand_out_from_the_ground(tones):
    # WCAG 2.2, 1.4.3 and 1.4.11, from memory, page not seen: 4.5 : 1 for text, 3 : 1 for what must be seen.
    for name in ("ink", "faint", "warning"):
        assert contrast(getattr(tones, name), tones.ground) >= 4.5
    for name in ("opens", "closes", "level", "good"):
        assert contrast(getattr(tones, name), tones.ground) >= 3


def test_a_chart_carries_both_sets_of_colours():
    said = tone("opens")["expr"]
    assert LIGHT.opens in said
    assert DARK.opens in said
