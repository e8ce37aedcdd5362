"""``real-hub``: what was counted in, words or JSON out."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from conemodel.cli import main
from conemodel.parts.real_hub import load_real_hub
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.real_hub.fit import fit_real_hub
from conemodel.tasks.real_hub.readings import readings_in

FOUND = "scenarios/real_hubs/practice-wheel.toml"


@pytest.fixture(autouse=True)
def _at_the_top(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(root)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ("real-hub", *arguments))


def test_the_threshold_comes_first_and_the_caution_last():
    result = run(FOUND)
    assert result.exit_code == 0
    text = " ".join(result.output.split())
    for words in ("You feel play from 0.", "slack of the cone's thread: 0.", "maker's instructions"):
        assert words in text
    assert text.index("You feel play") < text.index("slack of the cone's thread") < text.index("maker's")


def test_json_holds_the_numbers_of_the_library():
    found = json.loads(run(FOUND, "--json").output)
    fitted = fit_real_hub(load_scenario("scenarios/touring-rear.toml"), readings_in(load_real_hub(FOUND)))
    slack = found["unknowns"]["slack"]
    assert slack["mm"] == pytest.approx(1e3 * fitted.interval(lambda shown: shown.slack).value)
    assert slack["low80_mm"] < slack["mm"] < slack["high80_mm"]
    assert len(found["readings"]) == 12


def test_another_hub_may_be_given():
    found = json.loads(run(FOUND, "--hub", "scenarios/road-front.toml", "--json").output)
    assert found["hub"].startswith("Road front")


def test_the_mistakes_of_both_files_come_together(tmp_path):
    path = tmp_path / "odd.toml"
    path.write_text("step_minutes = 9\n[locked]\naxle_play_mm = 0.1\n")
    result = run(str(path), "--hub", "nowhere.toml")
    assert result.exit_code == 2
    for words in ("step_minutes = 9", "axle_play_mm = 0.1", "nowhere.toml"):
        assert words in result.output


def test_a_picture_is_written(tmp_path):
    path = tmp_path / "lines.png"
    assert run(FOUND, "--png", str(path)).exit_code == 0
    assert path.read_bytes().startswith(b"\x89PNG")
