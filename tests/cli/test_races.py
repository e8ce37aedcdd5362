"""Races, feel and method on the command line: readable text, CSV, and words instead of tracebacks."""

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from conemodel.cli import main

REAR = "scenarios/touring-rear.toml"


@pytest.fixture(autouse=True)
def _at_the_top(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(root)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, arguments)


def test_races_prints_a_line_a_position() -> None:
    result = run("races", REAR, "--points", "5")
    assert result.exit_code == 0
    head, _, *lines = result.output.split("\n\n")[0].splitlines()
    assert "straight MPa" in head
    assert len(lines) == 5


def test_races_as_csv_has_its_head_and_its_lines() -> None:
    lines = run("races", REAR, "--points", "3", "--csv").output.splitlines()
    assert lines[0].startswith("cone_out_deg,end_play_clamped_mm,straight_ball_load_n")
    assert len(lines) == 4


def test_a_setting_on_the_line_counts() -> None:
    tight, loose = (run("feel", REAR, "--back-off", turn).output for turn in ("0", "1/4"))
    assert "stiff" in tight
    assert "stiff" not in loose


def test_feel_tells_bench_from_frame_and_names_the_cure() -> None:
    bench, frame = run("feel", REAR, "--bench").output, run("feel", REAR).output
    assert "locked, 0.137 mm play" in bench
    assert "clamped, 0.078 mm play" in frame
    assert "one packet" in run("feel", "scenarios/big-ball.toml").output
    assert run("feel", REAR, "--csv").output.startswith("wheel_deg,torque_nmm\n")


def test_method_prints_every_check_with_its_deviation() -> None:
    result = run("method")
    assert result.exit_code == 0
    assert "218 bearing" in result.output
    assert "from memory" in result.output
    assert run("method", "--csv").output.startswith("what,unit,published,computed,deviation")


@pytest.mark.parametrize(
    "arguments",
    [
        ("races", "nowhere.toml"),
        ("races", REAR, "--points", "1"),
        ("feel", REAR, "--back-off", "lots"),
        ("feel", "nowhere.toml"),
    ],
)
def test_what_cannot_be_used_is_said_in_words(arguments: tuple[str, ...]) -> None:
    result = run(*arguments)
    assert result.exit_code == 2
    assert "Traceback" not in result.output
