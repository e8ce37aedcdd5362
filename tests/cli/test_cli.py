"""The command line: readable text, stable JSON, and words instead of tracebacks."""

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

import conemodel as cm
from conemodel.cli import main
from conemodel.show.setting.closing_gap_paint import HEIGHT, WIDTH

REAR = "scenarios/touring-rear.toml"


@pytest.fixture(autouse=True)
def _at_the_top(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(root)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, arguments)


def test_predict_prints_verdict_stages_terms_and_caution() -> None:
    result = run("predict", REAR)
    assert result.exit_code == 0
    for words in (
        "it still rocks",
        "in (clockwise)",
        "finger contact",
        "under the rider",
        "Where the play went",
    ):
        assert words.lower() in " ".join(result.output.lower().split())
    assert "maker's instructions" in " ".join(result.output.split())


def test_json_has_the_promised_names_and_the_numbers_of_the_library() -> None:
    """Names as documented; numbers not rounded and the same as from Python."""
    result = json.loads(run("predict", REAR, "--json").output)
    assert [stage["name"] for stage in result["stages"]] == [
        "contact",
        "backed_off",
        "locked",
        "clamped",
        "ridden",
    ]
    stages = cm.predict(cm.load_scenario(REAR)).stages
    for stage in result["stages"]:
        of = stages[stage["name"]]
        assert stage["end_play_mm"] == pytest.approx(of.end_play * 1e3, rel=1e-12)
        assert stage["preload_n"] == pytest.approx(of.preload, rel=1e-12)
        assert stage["rim_play_mm"] == pytest.approx(of.rim_play * 1e3, rel=1e-12)
        assert stage["peak_pressure_mpa"] == pytest.approx(of.peak_pressure / 1e6, rel=1e-12)
        assert stage["torque_nmm"] == pytest.approx(of.torque * 1e3, rel=1e-12)
    assert run("predict", REAR, "--json").output == run("predict", REAR, "--json").output


@pytest.mark.parametrize("quarter", ["1/4", "0.25", "90deg", "90°", " 2/8 "])
def test_a_quarter_turn_can_be_said_in_many_ways(quarter: str) -> None:
    stages = json.loads(run("predict", REAR, "--back-off", quarter, "--json").output)["stages"]
    moved = stages[1]["end_play_mm"] - stages[0]["end_play_mm"]
    assert moved == pytest.approx(0.25, abs=1e-12)  # a quarter of the 1 mm pitch


def test_options_reach_the_setting_and_the_clamp() -> None:
    options = (
        "--technique", "cone turned out", "--lock-torque", "20", "--drift", "4", "--cone-held", "no",
        "--axle-held", "far spanners", "--clamp-seat", "spacer on axle end", "--clamp-force", "4000",
        "--contact-found", "nut snug",
    )  # fmt: skip
    scenario = json.loads(run("predict", REAR, *options, "--json").output)["scenario"]
    assert scenario["setting"] == {
        "finger_torque_nm": 0.1,
        "back_off_turns": 0.25,
        "technique": "cone turned out",
        "lock_torque_nm": 20.0,
        "cone_held": False,
        "drift_deg": 4.0,
        "contact_found": "nut snug",
        "axle_held": "far spanners",
        "clamp_seat": "spacer on axle end",
    }
    assert scenario["clamp"]["force_n"] == 4000.0


def test_every_mistake_of_options_and_file_is_said_together_without_a_traceback() -> None:
    result = run(
        "predict", "nowhere.toml", "--back-off", "a bit", "--clamp-force", "-5", "--technique", "pray"
    )
    assert result.exit_code == 2
    said = result.stderr.splitlines()
    assert len(said) == 4
    assert said[0].startswith("nowhere.toml: cannot be read")
    assert "--back-off = a bit: must be a fraction of a turn (1/4)" in said[1]
    assert "--technique = pray: must be one of" in said[2]
    assert said[3] == "--clamp-force = -5: must be at least 0 N"
    assert "Traceback" not in result.output


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--back-off", "1/0"), "--back-off"),
        (("--back-off", "nan"), "--back-off"),
        (("--back-off", "99"), "must be at most 3 turn"),
        (("--lock-torque", "inf"), "must be a finite number"),
        (("--cone-held", "perhaps"), "must be yes or no"),
    ],
)
def test_a_bad_option_is_named(arguments: tuple[str, str], said: str) -> None:
    result = run("predict", REAR, *arguments)
    assert result.exit_code == 2
    assert said in result.stderr


def test_a_real_shell_gets_exit_code_2_and_no_traceback(root: Path) -> None:
    command = [sys.executable, "-m", "conemodel", "predict", "README.md"]
    done = subprocess.run(command, cwd=root, capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert "is not TOML" in done.stderr
    assert "Traceback" not in done.stderr


def test_readings_given_to_predict_are_sent_to_check_in_one_line() -> None:
    result = run("predict", "scenarios/readings/dial-gauge.toml")
    assert result.exit_code == 2
    assert len(result.stderr.splitlines()) == 1
    assert "the command check" in result.stderr


def test_sweep_as_table_csv_and_picture(tmp_path: Path) -> None:
    table = run("sweep", REAR, "--points", "5").output.splitlines()
    assert table[0].startswith("cone out °")
    assert len(table) == 2 + 5
    lines = run("sweep", REAR, "--points", "5", "--csv").output.strip().splitlines()
    assert lines[0].split(",")[:3] == ["cone_out_deg", "end_play_open_mm", "end_play_clamped_mm"]
    assert len(lines) == 1 + 5
    picture = tmp_path / "sweep.png"
    assert run("sweep", REAR, "--points", "21", "--png", str(picture)).exit_code == 0
    assert picture.read_bytes().startswith(b"\x89PNG")


def test_predict_writes_the_closing_gap_as_a_picture(tmp_path: Path) -> None:
    picture = tmp_path / "gap.png"
    result = run("predict", REAR, "--png", str(picture))
    assert result.exit_code == 0
    assert result.output == run("predict", REAR).output
    data = picture.read_bytes()
    assert data.startswith(b"\x89PNG")
    assert (int.from_bytes(data[16:20], "big"), int.from_bytes(data[20:24], "big")) == (WIDTH, HEIGHT)


def test_sweep_refuses_what_makes_no_sense() -> None:
    result = run("sweep", REAR, "--from", "1/2", "--to", "1/4", "--points", "1")
    assert result.exit_code == 2
    assert "--points = 1: must be a whole number from 2 to 2000" in result.stderr
    result = run("sweep", REAR, "--from", "1/2", "--to", "1/4")
    assert "--to = 1/4: must be above --from, 1/2" in result.stderr
    result = run("sweep", REAR, "--points", "3", "--png", "/nowhere/at/all.png")
    assert result.exit_code == 2
    assert "cannot be written" in result.stderr


def test_the_version_is_told_and_is_the_packages_own() -> None:
    said = run("--version")
    assert said.exit_code == 0
    assert said.output == f"conemodel {cm.__version__}\n"
    assert re.fullmatch(r"\d+\.\d+\.\d+", cm.__version__)
