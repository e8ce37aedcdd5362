"""Rows, CSV and JSON hold the results themselves: the only thing done to a number is its unit."""

import csv
import io
import itertools
import json

import pytest

from conemodel.base.table import csv_text, rows
from conemodel.show.setting.prediction_json import prediction_json
from conemodel.show.setting.tables import list_stages, list_sweep
from conemodel.show.waterfall.rows import list_terms

# Names that scripts rely on; they do not change.
FIXED = {
    "name",
    "end_play_mm",
    "preload_n",
    "rim_play_mm",
    "axle_end_play_mm",
    "peak_pressure_mpa",
    "torque_nmm",
}
SWEPT = [
    "cone_out_deg",
    "end_play_open_mm",
    "end_play_clamped_mm",
    "preload_open_n",
    "preload_clamped_n",
    "rim_play_open_mm",
    "rim_play_clamped_mm",
    "peak_pressure_clamped_mpa",
    "peak_pressure_ridden_mpa",
    "torque_clamped_nmm",
]


def test_a_stage_is_told_in_everyday_units(prediction):
    for row, stage in zip(rows(list_stages(prediction)), prediction.stages.values(), strict=True):
        assert set(row) >= FIXED
        assert row["name"] == stage.name
        # 1 m = 1000 mm, 1 MPa = 1e6 Pa, 1 N·m = 1000 N·mm
        assert row["end_play_mm"] == pytest.approx(stage.end_play * 1000, rel=1e-15)
        assert row["preload_n"] == stage.preload
        assert row["rim_play_mm"] == pytest.approx(stage.rim_play * 1000, rel=1e-15)
        assert row["axle_end_play_mm"] == pytest.approx(stage.axle_end_play * 1000, rel=1e-15)
        assert row["peak_pressure_mpa"] == pytest.approx(stage.peak_pressure / 1e6, rel=1e-15)
        assert row["torque_nmm"] == pytest.approx(stage.torque * 1000, rel=1e-15)


def test_a_turn_of_the_cone_moves_it_by_its_lead(touring):
    # M10 × 1: 360° of cone are 1 mm. Geometry of a thread.
    for row in rows(list_stages(touring)):
        assert row["cone_deg"] == pytest.approx(360 * row["end_play_mm"])


def test_terms_lead_from_stage_to_stage(prediction):
    terms = rows(list_terms(prediction))
    assert terms[0]["before_mm"] == 0.0
    for earlier, later in itertools.pairwise(terms):
        assert later["before_mm"] == earlier["after_mm"]
    for row in terms:
        assert row["after_mm"] - row["before_mm"] == pytest.approx(row["length_mm"], abs=1e-12)
    for stage in ("contact", "backed_off", "locked", "clamped"):
        last = [row for row in terms if row["stage"] == stage][-1]
        assert last["after_mm"] == pytest.approx(prediction.stages[stage].end_play * 1000, abs=1e-12)


def test_json_holds_the_scenario_as_its_file_does(prediction):
    whole = json.loads(prediction_json(prediction))
    assert {"scenario", "stages", "verdict", "turn", "window"} <= set(whole)
    assert whole["scenario"]["hub"]["row_spacing_mm"] == pytest.approx(
        prediction.scenario.hub.row_spacing * 1000
    )
    ends = [whole["scenario"]["assumed"][f"clamp_force_{end}_n"] for end in ("low", "high")]
    assert ends == list(prediction.scenario.clamp.traits.force.span)
    assert [stage["name"] for stage in whole["stages"]] == list(prediction.stages)
    assert whole["verdict"]["sentence"] == prediction.verdict.sentence
    for stage in whole["stages"]:
        assert stage["end_play_mm"] == prediction.stages[stage["name"]].end_play * 1000


def test_json_numbers_are_not_rounded(touring):
    stages = json.loads(prediction_json(touring))["stages"]
    assert stages[3]["end_play_mm"] / 1000 == pytest.approx(touring.stages["clamped"].end_play, rel=1e-15)
    assert all(sum(term["length_mm"] for term in stage["terms"]) < 1 for stage in stages)


def test_the_same_prediction_gives_the_same_text(touring):
    assert prediction_json(touring) == prediction_json(touring)
    assert "-0.0," not in prediction_json(touring)


def test_csv_has_a_column_for_every_name(touring_sweep):
    swept = list(csv.DictReader(io.StringIO(csv_text(list_sweep(touring_sweep)))))
    assert list(swept[0]) == SWEPT
    assert len(swept) == len(touring_sweep.cone_angle)
    assert float(swept[0]["cone_out_deg"]) == pytest.approx(touring_sweep.cone_angle[0] * 57.29577951308232)
    for name in ("end_play_clamped_mm", "rim_play_clamped_mm", "torque_clamped_nmm"):
        field = name.rpartition("_")[0]
        assert float(swept[-1][name]) == pytest.approx(getattr(touring_sweep, field)[-1] * 1000)
    assert float(swept[0]["peak_pressure_clamped_mpa"]) == pytest.approx(
        touring_sweep.peak_pressure_clamped[0] / 1e6
    )
