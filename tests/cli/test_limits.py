"""Numbers typed on the command line have the limits of the model; beyond its validity no number is printed.

The limits of a setting are the project's own: a position of the cone lies from 1 turn in to 3 turns out.
"""

import csv
import math
from io import StringIO
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from conemodel.cli import main

REAR = "scenarios/touring-rear.toml"
LONG = "1" + "0" * 400


@pytest.fixture(autouse=True)
def _at_the_top(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(root)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, arguments)


@pytest.mark.parametrize("command", ["sweep", "races"])
@pytest.mark.parametrize(
    ("option", "text", "limit"),
    [
        ("--to", "1e9", "must be at most 3 turn"),
        ("--to", "3.001", "must be at most 3 turn"),
        ("--to", "1e308", "must be a fraction of a turn"),
        ("--from", "-10", "must be at least -1 turn"),
        ("--to", f"{LONG}/1", "must be a fraction of a turn"),
        ("--to", f"{LONG}deg", "must be a fraction of a turn"),
        ("--points", LONG, "must be a whole number from 2 to 2000"),
        ("--points", "000002999999999", "must be a whole number from 2 to 2000"),
    ],
)
def test_a_sweep_stays_where_a_setting_may_be(command: str, option: str, text: str, limit: str) -> None:
    result = run(command, REAR, option, text)
    assert result.exit_code == 2
    assert len(result.stderr.splitlines()) == 1
    assert result.stderr.startswith(f"{option} = ")
    assert limit in result.stderr


def test_thread_slack_is_refused_in_its_own_name_and_unit() -> None:
    """1000 µm on the pitch diameter are 1 mm · tan 30° = 0.577 mm along the axis (60° thread, closed form)."""
    result = run("predict", REAR, "--thread-slack", "0.7")
    assert result.exit_code == 2
    assert result.stderr.strip() == f"--thread-slack = 0.7: must be at most {math.tan(math.pi / 6):.3g} mm"
    assert run("predict", REAR, "--thread-slack", "0.57").exit_code == 0
    assert "--thread-slack = -1: must be at least 0 mm" in run("predict", REAR, "--thread-slack", "-1").stderr


@pytest.mark.parametrize(
    ("option", "text"),
    [
        ("--hubs", LONG),
        ("--hubs", "00000000000000000001" + "0" * 30),
        ("--seed", LONG),
        ("--seed", "0" * 20 + "9" * 5000),
        ("--back-off", f"{LONG}/1"),
        ("--back-off", "1e308"),
    ],
)
def test_a_study_refuses_what_no_study_has(option: str, text: str) -> None:
    result = run("many-hubs", option, text)
    assert result.exit_code == 2
    assert len(result.stderr.splitlines()) == 1
    assert result.stderr.startswith(f"{option} = ")


@pytest.mark.parametrize("command", ["sweep", "races"])
def test_where_the_balls_leave_their_races_no_number_is_printed(command: str) -> None:
    """So loose that the grooves' centres pass each other the balance is of another, impossible hub: geometry."""
    asked = (command, REAR, "--from", "1/8", "--to", "3", "--points", "2")
    first, last = run(*asked).output.split("\n\n", maxsplit=1)[0].splitlines()[2:4]
    assert "not valid" not in first
    assert "not valid" in last
    assert set("".join(last.split("not valid")[1:])) <= {" "}
    good, bad = csv.DictReader(StringIO(run(*asked, "--csv").output))
    for name in good:
        assert good[name] != ""
        assert (bad[name] == "") == (name != "cone_out_deg" and not name.startswith("end_play"))


def test_a_stage_outside_the_model_says_so() -> None:
    verdict, rest = run("predict", REAR, "--back-off", "3").output.split("\n\n", maxsplit=2)[1:]
    assert "far too loose" in verdict
    stage = next(line for line in rest.splitlines() if line.startswith("Clamped  "))
    assert stage.count("not valid") == 6


def test_an_option_over_what_was_measured_says_so(tmp_path: Path) -> None:
    hub = tmp_path / "own.toml"
    hub.write_text('family = "usual rear"\nclamp_force_n = 3000\nthread_slack_mm = 0.12\n')
    result = run("predict", str(hub), "--clamp-force", "8000", "--thread-slack", "0.09")
    assert result.exit_code == 0
    assert result.stderr.splitlines() == [
        "--clamp-force 8000 is taken, and not the 3000 N of the file.",
        "--thread-slack 0.09 is taken, and not the 0.12 mm of the file.",
    ]
    assert run("predict", str(hub), "--clamp-force", "3000").stderr == ""
    assert run("predict", REAR, "--clamp-force", "8000").stderr == ""
