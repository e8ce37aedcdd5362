"""What the races and the hands feel as CSV and as text: all of it, in the units the names say."""

import csv
import io

import pytest

from conemodel.base.table import csv_text
from conemodel.parts.toml_files import load_scenario
from conemodel.show.bearing.tables import (
    list_balls,
    list_checks,
    list_races,
    list_rocking,
    list_spin,
    list_torque,
)
from conemodel.show.bearing.text import checks_text, feel_text, races_text
from conemodel.show.setting.tables import list_limits
from conemodel.tasks.bearing.ball_loads import loads_of
from conemodel.tasks.bearing.feel_when_turned import signature
from conemodel.tasks.bearing.race_sweep import sweep_races
from conemodel.tasks.bearing.rocking import bench_and_frame
from conemodel.tasks.bearing.spin_down import spin_down
from conemodel.tasks.setting.defects import defects_of
from conemodel.tasks.setting.good_range import window_of
from conemodel.tasks.validation.method import published_checks


@pytest.fixture(scope="module")
def hub(root):
    return load_scenario(root / "scenarios" / "touring-rear.toml")


def read(table):
    return list(csv.DictReader(io.StringIO(csv_text(table))))


def test_a_sweep_has_a_line_a_position_and_its_units_in_the_names(hub):
    races = sweep_races(hub)
    lines = read(list_races(races))
    assert len(lines) == 81
    assert float(lines[0]["cone_out_deg"]) == pytest.approx(-15)
    for line, end in zip(lines, races.end_play, strict=True):
        assert float(line["end_play_clamped_mm"]) == pytest.approx(end * 1e3)
        low, value, high = (float(line[f"impact_cone_pressure_mpa{end_}"]) for end_ in ("_low", "", "_high"))
        assert low <= value <= high
        parts = sum(float(line[f"drag_{part}_nmm"]) for part in ("load", "grease", "seals"))
        assert float(line["drag_total_nmm"]) == pytest.approx(parts)
        assert 0 < float(line["life_mixed_share_of_best"]) <= 1


def test_every_ball_has_a_line(hub):
    loads = loads_of(hub, "straight")
    lines = read(list_balls(loads))
    assert [line["row"] for line in lines] == ["left"] * 9 + ["right"] * 9
    assert float(lines[4]["ball_load_n"]) == pytest.approx(float(loads.left.ball_load[4]))
    # a contact is an ellipse across the track, twice its half axes
    assert float(lines[4]["cone_ellipse_across_mm"]) == pytest.approx(
        2e3 * float(loads.left.cone_semi_major[4])
    )


def test_curves_have_a_line_a_point(hub):
    found, coast, (bench, frame) = signature(hub), spin_down(hub), bench_and_frame(hub)
    assert len(read(list_torque(found))) == found.angle.size
    times = read(list_spin(coast))
    assert float(times[0]["speed_turns_per_s"]) == pytest.approx(4)
    assert float(times[-1]["time_s"]) == pytest.approx(coast.stop_time)
    pushes = read(list_rocking(bench, frame))
    assert float(pushes[0]["wheel_flex_mm"]) == pytest.approx(-20 / 60)


def test_limits_and_checks_say_which(hub):
    limits = read(list_limits(window_of(hub)))
    assert {line["side"] for line in limits if line["met_first"] == "yes"} == {"loose", "tight"}
    checks = published_checks()
    lines = read(list_checks(checks))
    assert len(lines) == len(checks)
    assert all(line["known"] in ("seen", "computed", "from memory") for line in lines)
    assert float(lines[0]["deviation"]) == pytest.approx(
        float(lines[0]["computed"]) / float(lines[0]["published"]) - 1
    )


def test_the_words_beside_the_numbers_are_printed_too(hub):
    said = " ".join(races_text(sweep_races(hub)).split())
    for words in (
        "4200 MPa",
        "assumption",
        "punishes tightness far more than play",
        "never that it is right",
    ):
        assert words in said


def test_what_a_hand_finds_is_told_with_numbers_and_cures(root, hub):
    sound = feel_text(hub.name, "Clamped", signature(hub), defects_of(hub))
    assert "smooth" in sound
    assert "Nothing is wrong with this hub that the cone could not put right." in sound
    dented = load_scenario(root / "scenarios" / "dented-cone.toml")
    said = " ".join(feel_text(dented.name, "Clamped", signature(dented), defects_of(dented)).split())
    for words in ("notchy", "ripple", "brinelled", "Replace the cone", "qualified mechanic"):
        assert words in said


def test_a_check_that_does_not_hold_is_counted_and_marked():
    checks = published_checks()
    broken = type(checks[0])(
        **{name: getattr(checks[0], name) for name in type(checks[0]).__slots__ if name != "computed"},
        computed=2 * checks[0].published,
    )
    said = checks_text([broken, *checks[1:]])
    assert f"{len(checks) - 1} of {len(checks)} hold" in said
    assert " NO" in said
    assert read(list_checks([broken]))[0]["holds"] == "no"
