"""Charts of pressure, drag, spin, rocking, life and limits: what is drawn is what was solved, with words beside.

Expected values are sums, geometry and laws of the trade: parts add up, a band holds its line, the best life
lies in a light preload. What can be felt: 13 % of a torque (Jandura & Srinivasan 1994, seen as a quotation).
"""

import json
import re
from functools import cache

import numpy as np
import pytest

from conemodel.parts.toml_files import load_scenario
from conemodel.show.bearing.race_charts import (
    alt_text_life,
    alt_text_pressure,
    best_angle,
    life_over_cone,
    pressure_over_cone,
    spin_over_cone,
)
from conemodel.show.bearing.rocking_chart import alt_text_rocking, rocking_chart
from conemodel.show.bearing.spin_down_chart import spin_down_chart
from conemodel.show.bearing.torque_charts import (
    alt_text_torque,
    drag_bars,
    drag_words,
    torque_over_turn,
)
from conemodel.show.setting.limits_chart import binds_chart, binds_words
from conemodel.tasks.bearing.feel_when_turned import signature
from conemodel.tasks.bearing.race_sweep import sweep_races
from conemodel.tasks.bearing.rocking import bench_and_frame, rock
from conemodel.tasks.bearing.spin_down import against_quoted, spin_down
from conemodel.tasks.setting.good_range import window_of
from conemodel.tasks.setting.predict import predict
from tests.show.vega_lite import check_vega_lite


@cache
def hub(root, name="touring-rear"):
    return load_scenario(root / "scenarios" / f"{name}.toml")


@cache
def felt(root, name):
    return signature(hub(root, name))


@pytest.fixture(scope="module")
def races(root):
    return sweep_races(hub(root))


@pytest.fixture(scope="module")
def now(root):
    return predict(hub(root))


def layers(chart):
    for layer in chart["layer"]:
        yield from layer.get("layer", [layer])


def texts(chart):
    return {str(layer["mark"].get("text")) for layer in layers(chart)}


def rows(chart):
    return chart["data"]["values"]


def own(chart, *fields):
    """Return the rows of layers with data of their own that have these fields."""
    found = (layer.get("data", {}).get("values", [{}])[0] for layer in layers(chart))
    return [row for row in found if set(fields) <= set(row)]


def all_charts(root, races, now):
    scenario = hub(root)
    found, quoted = felt(root, "dented-cone"), against_quoted(scenario)
    yield from (pressure_over_cone(races, races.worst[case], case, now) for case in races.worst)
    yield life_over_cone(races, now)
    yield spin_over_cone(races, now)
    yield torque_over_turn(found)
    yield drag_bars(found.drag, heading="drag")
    yield drag_bars(quoted.computed, heading="drag", quoted=quoted.quoted)
    yield spin_down_chart(spin_down(scenario))
    yield rocking_chart(*bench_and_frame(scenario))
    yield binds_chart(now.window, now)


def test_every_chart_is_valid_vega_lite_and_plain_json(root, races, now):
    for chart in all_charts(root, races, now):
        check_vega_lite(chart)
        json.dumps(chart, allow_nan=False)
        assert all(layer["mark"]["aria"] is False for layer in layers(chart))


# over the cone


def test_the_pressure_lies_within_its_band_and_the_dent_line_at_4200(races, now):
    chart = pressure_over_cone(races, races.worst["impact"], "impact", now)
    for row in rows(chart):
        assert row["low"] <= row["mpa"] <= row["high"]
    assert all(row["mpa"] == pytest.approx(4200) for row in own(chart, "mpa"))
    assert "now 90°" in texts(chart)
    assert any("4200 MPa" in text for text in texts(chart))
    assert "4200 MPa" in alt_text_pressure(races, races.worst["impact"], "impact", now)


def test_the_best_life_lies_in_a_light_preload_and_falls_to_both_sides(races, now):
    chart = life_over_cone(races, now)
    shares = np.array([row["mixed"] for row in rows(chart)])
    best = int(np.argmax(shares))
    assert -30e-6 < races.end_play[best] < 0
    assert shares[0] < 0.1 < shares[-1] < shares[best]
    assert rows(chart)[best]["out_deg"] == pytest.approx(np.degrees(best_angle(races)), abs=2)
    assert re.search(r"at 0\.0\d\d mm squeeze", alt_text_life(races, now))
    dashes = [layer["mark"].get("strokeDash") for layer in layers(chart) if layer["mark"]["type"] == "line"]
    assert len({str(dash) for dash in dashes}) == 3


def test_the_longest_spin_is_on_the_loose_side_of_the_good_range(races, now):
    chart = spin_over_cone(races, now)
    band = next(row for row in own(chart, "low", "high"))
    longest = max(rows(chart), key=lambda row: row["s"])
    assert longest["out_deg"] >= band["high"] - 1.0


# turning


@pytest.mark.parametrize("name", ["touring-rear", "dented-cone", "dragging-seal"])
def test_the_parts_of_drag_add_up(root, name):
    found = felt(root, name)
    chart = drag_bars(found.drag, heading="drag")
    *parts, total = rows(chart)
    at = 0.0
    for part in parts:
        assert part["from"] == pytest.approx(at)
        at = part["to"]
    assert total["to"] == pytest.approx(at)
    # what dents give back has no mean over a period of the balls, but three turns are not quite whole periods
    assert total["to"] == pytest.approx(found.level * 1e3, rel=5e-3)
    for row in rows(chart):
        assert f"{row['to'] - row['from']:.1f} N·mm" == row["size"]
    least, most = (f"{float(edge) * 1e3:.1f}" for edge in (found.drag.total, found.drag.total_upper))
    band = f" {least}" if least == most else f" {least} to {most}"
    assert total["words"] == "all together" + ("" if least == most else f", up to {most}")
    assert drag_words(found.drag).endswith(f"all together{band} N·mm.")


def test_the_quoted_measurement_stands_below_the_sum(root):
    """10 m/s, both wheels: 10 (91 + 8.7 × 10) mW = 1.78 W (Martin 1998, seen as a quotation)."""
    found = against_quoted(hub(root))
    last = rows(drag_bars(found.computed, heading="", quoted=found.quoted))[-1]
    assert last["words"] == "quoted measurement"
    assert last["to"] == pytest.approx(1.78 / 2 / (10 / (0.311 + 0.025)) * 1e3, rel=1e-3)


def test_a_smooth_hub_stays_in_the_band_of_what_is_not_felt_and_a_dented_one_does_not(root):
    for name, inside in (("touring-rear", True), ("dented-cone", False), ("pitted-cup", False)):
        chart = torque_over_turn(felt(root, name))
        (band,) = own(chart, "low", "high")
        level = felt(root, name).level * 1e3
        assert band["high"] - band["low"] == pytest.approx(max(0.13 * level, 1.0))
        values = np.array([row["nmm"] for row in rows(chart)])
        assert bool(np.all((values > band["low"]) & (values < band["high"]))) is inside
        assert ", ".join(felt(root, name).words) in alt_text_torque(felt(root, name))


def test_whole_turns_are_drawn_with_every_peak(root):
    found = felt(root, "dented-cone")
    drawn = rows(torque_over_turn(found))
    assert len(drawn) <= 1500
    assert 0.99 < drawn[-1]["turn"] <= 1.0
    values = [row["nmm"] for row in drawn]
    assert max(values) - min(values) == pytest.approx(found.variation * 1e3, rel=0.05)


def test_the_wheel_stands_where_its_curve_ends(root):
    found = spin_down(hub(root))
    chart = spin_down_chart(found)
    assert rows(chart)[0]["speed"] == pytest.approx(4.0)
    assert rows(chart)[-1]["speed"] == pytest.approx(0.0, abs=1e-6)
    assert f"stands after {found.stop_time:.0f} s" in texts(chart)


# rocking


def test_the_dead_band_is_the_free_play_and_clamping_narrows_it(root):
    bench, frame = bench_and_frame(hub(root))
    wide, narrow = (
        row["high"] - row["low"] for row in own(rocking_chart(bench, frame), "low", "middle")[::3]
    )
    assert wide == pytest.approx(bench.dead_band * 1e3)
    assert narrow == pytest.approx(frame.dead_band * 1e3)
    assert narrow < wide


def test_a_rim_that_flexes_is_not_said_to_have_play(root):
    pinched = rock(hub(root), end_play=-20e-6)
    chart = rocking_chart(pinched, pinched)
    assert own(chart, "low", "middle") == []
    flex = [row["mm"] for row in rows(chart) if row["what"] == "wheel flex"]
    # a spring in series: 20 N over 60 N/mm, both ways
    assert max(flex) - min(flex) == pytest.approx(2 * 20 / 60)
    assert "0.00 mm of free play" in alt_text_rocking(pinched, pinched)


# what binds


def test_the_bars_leave_the_good_range_free(now):
    chart = binds_chart(now.window, now)
    (band,) = own(chart, "low", "high")
    for row, limit in zip(rows(chart), now.window.limits, strict=True):
        free = row["from"] if limit.side == "loose" else row["to"]
        assert free >= band["high"] if limit.side == "loose" else free <= band["low"]
        assert ("met first" in row["words"]) is limit.binding
        assert f"too {limit.side}" in row["words"]


def test_a_limit_switched_off_is_gone_and_the_next_one_is_named(root, now):
    limits = hub(root).limits
    first = next(limit for limit in now.window.limits if limit.binding and limit.side == "tight")
    less = window_of(hub(root).replace(limits=limits.replace(off=(first.name,))))
    assert len(rows(binds_chart(less, now))) == 3
    assert first.label in binds_words(now.window, now)
    assert first.label not in binds_words(less, now)


def test_with_every_limit_off_nothing_ends_the_range(root, now):
    off = ("rim_play", "torque", "cone_pressure", "life_ratio")
    none = window_of(hub(root).replace(limits=hub(root).limits.replace(off=off)))
    check_vega_lite(binds_chart(none, now))
    assert binds_words(none, now).count("nothing ends it") == 2
