"""Studies of many hubs as tables, text and pictures: the numbers of the study, in everyday units."""

import csv
import io
import json
from functools import cache

import numpy as np
import pytest

from conemodel.base.table import csv_text
from conemodel.parts.crowd import load_crowd
from conemodel.parts.population import DEFAULT
from conemodel.show.charts.vega_lite import tone
from conemodel.show.paper.files import to_pdf, to_png
from conemodel.show.population import charts as many
from conemodel.show.population.sheet import many_figure
from conemodel.show.population.study_json import many_json
from conemodel.show.population.tables import list_hubs
from conemodel.show.population.text import headline, many_text
from conemodel.show.population.wording import ASSUMED, percent
from conemodel.tasks.population.sampling import draws
from conemodel.tasks.population.sobol import Influence, what_matters
from conemodel.tasks.population.study import ManyHubs, many_hubs
from tests.show.vega_lite import check_vega_lite

HUBS = 3000


@cache
def found() -> tuple[ManyHubs, tuple[Influence, ...]]:
    crowd = load_crowd(DEFAULT)
    return many_hubs(crowd, hubs=HUBS), what_matters(crowd, sample=128)


@pytest.fixture
def study() -> ManyHubs:
    return found()[0]


@pytest.fixture
def influences() -> tuple[Influence, ...]:
    return found()[1]


def test_the_csv_has_a_line_for_each_hub_and_its_states_are_the_shares(study):
    parts = draws(study.crowd, hubs=HUBS, seed=study.seed, back_off=study.back_off, chunk=800)
    lines = list(csv.DictReader(io.StringIO(csv_text(list_hubs(study.crowd, parts)))))
    assert len(lines) == HUBS
    for state in ("loose", "right", "tight"):
        share = sum(line["state"] == state for line in lines) / HUBS
        assert share == pytest.approx(getattr(study.all.shares, state), abs=1e-12)
    kinds = study.crowd.population.hubs.files
    assert {line["kind"] for line in lines} == set(kinds)
    forces = [float(line["clamp_force_n"]) for line in lines if line["kind"] == "touring-rear"]
    assert 3000 <= min(forces) < max(forces) <= 8000
    for line in lines[:50]:
        low, high = float(line["tight_edge_mm"]), float(line["loose_edge_mm"])
        assert (line["state"] == "right") == (low <= float(line["end_play_clamped_mm"]) <= high)


def test_the_json_holds_population_shares_tools_and_influences(study, influences):
    whole = json.loads(many_json(study, influences))
    assert whole["population"]["clamp_force"]["quick_release"]["likely_n"] == 5000
    assert whole["hubs"] == HUBS
    assert whole["back_off_deg"] == pytest.approx(90.0)
    assert whole["all"]["loose"] + whole["all"]["right"] + whole["all"]["tight"] == pytest.approx(1.0)
    assert [tool["name"] for tool in whole["tools"]] == [
        "none",
        "keyed_washer",
        "feeler",
        "both",
        "dial_gauge",
    ]
    assert {each["name"] for each in whole["what_matters"]} >= {"kind", "thread_fit", "clamp_force"}
    medians = [row["end_play_mm"] for row in whole["all"]["quantiles"] if row["share"] == 0.5]
    assert medians[0] == pytest.approx(study.all.end_play[0.5] * 1e3)


def test_the_text_answers_first_and_names_every_assumption(study, influences):
    text = many_text(study, influences)
    assert "land in the good range" in " ".join(text.split("\n\n")[1].split())
    for where, _ in study.crowd.population.assumptions:
        assert where in text
    for words in ("By kind of hub", "What a tool would buy", "What matters", "first try"):
        assert words in text
    assert max(map(len, text.splitlines())) <= 125
    assert percent(study.all.shares.loose) in headline(study)


def test_every_assumption_has_plain_words(study):
    places = [where for where, _ in study.crowd.population.assumptions]
    assert set(ASSUMED) == set(places)
    assert not any(word in words for words in ASSUMED.values() for word in ("_", "."))


def charts(study, influences):
    return {
        "spread": many.spread_chart(study),
        "back-off": many.back_off_chart(study),
        "influences": many.influence_chart(influences),
    }


@pytest.mark.parametrize("name", ["spread", "back-off", "influences"])
def test_a_chart_is_valid_vega_lite(study, influences, name):
    # Checked against the schema of Vega-Lite itself.
    check_vega_lite(charts(study, influences)[name])


def test_the_bars_of_the_spread_hold_every_hub_and_the_band_is_the_good_range(study):
    chart = many.spread_chart(study)
    assert sum(row["share"] for row in chart["data"]["values"]) == pytest.approx(1.0)
    band = chart["layer"][0]["data"]["values"][0]
    assert (band["low"], band["high"]) == pytest.approx(tuple(edge * 1e3 for edge in study.all.good))


def test_the_back_off_chart_has_a_line_for_each_kind_each_with_its_own_dash(study):
    lines = [
        layer
        for layer in many.back_off_chart(study)["layer"]
        if isinstance(layer["mark"], dict) and layer["mark"]["type"] == "line"
    ]
    assert len(lines) == 1 + len(study.kinds)
    assert len({str(line["mark"].get("strokeDash")) for line in lines}) == len(lines)
    right = [row["right"] for row in lines[0]["data"]["values"]]
    assert max(right) == pytest.approx(study.all.curve.right.max())


def test_the_names_below_the_heading_are_written_in_ink_on_both_grounds(study):
    heading = many.back_off_chart(study)["title"]
    assert len(heading["subtitle"]) == 1 + len(study.kinds)
    assert heading["subtitleColor"] == tone("ink")


def test_the_pictures_are_told_in_words(study, influences):
    words = many.alt_text_many(study, influences)
    assert all(kind.name in words for kind in study.kinds)
    assert influences[0].label in words


def test_the_sheet_is_a_picture_and_the_same_one_each_time(study, influences):
    figure = many_figure(study, influences)
    assert [axes.get_title(loc="left") for axes in figure.axes] == [
        "Where the hubs end up, clamped",
        "How many a fixed back-off puts right",
        "What matters most",
    ]
    drawn = figure.axes[1].lines[0].get_ydata()
    assert np.max(drawn) == pytest.approx(study.all.curve.right.max() * 100)
    assert to_png(figure).startswith(b"\x89PNG")
    assert to_pdf(many_figure(study, influences)) == to_pdf(many_figure(study, influences))
