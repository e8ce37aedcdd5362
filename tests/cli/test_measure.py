"""``measure``: plays read at pen marks in, the turn in words or JSON out."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from conemodel.cli import main
from conemodel.parts.measured_hub import load_measured_hub
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.real_hub.next_reading import measure_hub

FOUND = "scenarios/measured/rear-wheel.toml"


@pytest.fixture(autouse=True)
def _at_the_top(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(root)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ("measure", *arguments))


def test_the_turn_comes_first_and_the_caution_last():
    result = run(FOUND)
    assert result.exit_code == 0
    text = " ".join(result.output.split())
    assert text.index("in (clockwise)") < text.index("slack of the cone's thread: 0.") < text.index("maker's")
    for words in ("Right almost surely after it", "simulated hubs", "of 100"):
        assert words in text


def test_a_last_mark_without_readings_is_a_turn_that_was_made(tmp_path):
    path = tmp_path / "turned.toml"
    path.write_text("[first]\ncount_minutes = 15\nlocked_mm = [0.15]\n[second]\ncount_minutes = 9\n")
    result = run(str(path))
    assert "Turned: the cone is at 9. Read it loose, then locked." in result.output
    assert "clockwise)" not in result.output


def test_json_holds_the_numbers_of_the_library():
    found = json.loads(run(FOUND, "--json").output)
    measuring = measure_hub(load_scenario("scenarios/touring-rear.toml"), load_measured_hub(FOUND))
    slack = measuring.fitted.interval(lambda shown: shown.slack)
    assert found["slack_mm"] == pytest.approx(1e3 * slack.value)
    assert found["slack_low80_mm"] < found["slack_mm"] < found["slack_high80_mm"]
    assert found["chance_right"] == pytest.approx(measuring.turn.right if measuring.turn else None)
    assert len(found["readings"]) == 6


def test_the_mistakes_of_both_files_come_together(tmp_path):
    path = tmp_path / "odd.toml"
    path.write_text("[first]\nlocked_mm = [0.1]\n")
    result = run(str(path), "--hub", "nowhere.toml")
    assert result.exit_code == 2
    for words in ("count_minutes", "nowhere.toml"):
        assert words in result.output


def test_a_picture_is_written(tmp_path):
    path = tmp_path / "lines.png"
    assert run(FOUND, "--png", str(path)).exit_code == 0
    assert path.read_bytes().startswith(b"\x89PNG")


def test_what_forbids_riding_comes_before_any_turn(tmp_path):
    """An axle 8 mm out of the locknut in a dropout of 5 mm stands 3 mm proud (geometry)."""
    hub = tmp_path / "proud.toml"
    hub.write_text('family = "usual rear"\nprotrusion_left_mm = 8\ndropout_thickness_mm = 5\n')
    text = " ".join(run(FOUND, "--hub", str(hub)).output.split())
    predicted = " ".join(CliRunner().invoke(main, ("predict", str(hub))).output.split())
    danger = "Do not ride: the axle stands proud of the dropout at both ends."
    assert danger in text
    assert danger in predicted
    assert "Right" not in text
    assert "Turn 6 minutes" not in text
    found = json.loads(run(FOUND, "--hub", str(hub), "--json").output)
    assert found["turn_minutes"] is None
    assert found["unsafe"][0].startswith(danger)
