"""``check``: readings in, words or JSON out."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from conemodel.cli import main
from conemodel.parts.readings import load_readings
from conemodel.tasks.diagnosis.diagnose import diagnose

DIAL = "scenarios/readings/dial-gauge.toml"


@pytest.fixture(autouse=True)
def _at_the_top(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(root)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, arguments)


def test_check_says_what_to_do_first():
    result = run("check", DIAL)
    assert result.exit_code == 0
    text = " ".join(result.output.split())
    for words in ("Turn the cone in (clockwise)", "What to do 1.", "Measure next", "maker's instructions"):
        assert words in text
    assert text.index("Turn the cone in") < text.index("Measure next")


def test_json_holds_the_numbers_of_the_library():
    found = json.loads(run("check", DIAL, "--json").output)
    diagnosis = diagnose(load_readings(DIAL))
    assert diagnosis.move is not None
    assert found["move"]["angle_deg"] == pytest.approx(diagnosis.move.angle * 57.29577951, rel=1e-9)
    assert found["end_play_closed"]["low80_mm"] < found["end_play_closed"]["median_mm"]
    assert sum(found["states"].values()) == pytest.approx(1.0)
    assert {fault["key"] for fault in found["faults"]} >= {"bent", "proud", "elsewhere"}
    assert run("check", DIAL, "--json").output == run("check", DIAL, "--json").output


def test_a_described_hub_may_be_given():
    found = json.loads(run("check", DIAL, "--hub", "scenarios/touring-rear.toml", "--json").output)
    assert found["hub"].startswith("Touring rear")


def test_contradictory_readings_have_no_numbers(tmp_path):
    path = tmp_path / "odd.toml"
    path.write_text(
        'clamp = "quick release"\n[found]\naxle_end_open = {play_mm = 0.05}\naxle_end_closed = {play_mm = 0.3}\n'
    )
    found = json.loads(run("check", str(path), "--json").output)
    assert found["contradictions"]
    assert found["move"] is None
    assert found["states"] is None
    assert found["end_play_closed"] is None
    assert "contradict" in run("check", str(path)).output


def test_mistakes_of_both_files_are_said_together_without_a_traceback():
    result = run("check", "nowhere.toml", "--hub", "nowhere-else.toml")
    assert result.exit_code == 2
    assert len(result.stderr.splitlines()) == 2
    assert "Traceback" not in result.output
