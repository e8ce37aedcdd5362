"""The command line for many hubs: text, JSON, CSV, a picture, and mistakes said together."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from conemodel.cli import main


@pytest.fixture(autouse=True)
def _at_the_top(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(root)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ("many-hubs", *arguments))


def test_without_a_file_the_projects_own_population_is_taken() -> None:
    result = run("--hubs", "500")
    assert result.exit_code == 0
    assert "Hubs as they come to a workshop" in result.output
    assert "Assumed, all of it in the population's file" in result.output


def test_json_is_the_same_each_time_and_moves_with_back_off_and_seed() -> None:
    mix = "scenarios/populations/workshop-mix.toml"
    first = run(mix, "--hubs", "500", "--json").output
    assert run(mix, "--hubs", "500", "--json").output == first
    assert (
        json.loads(first)["all"]
        != json.loads(run(mix, "--hubs", "500", "--seed", "2", "--json").output)["all"]
    )
    less = json.loads(run(mix, "--hubs", "500", "--back-off", "1/8", "--json").output)
    assert less["back_off_deg"] == pytest.approx(45.0)
    assert less["all"]["loose"] < json.loads(first)["all"]["loose"]


def test_one_kind_of_hub_can_be_looked_at_alone() -> None:
    result = json.loads(run("--hubs", "300", "--kind", "road-front", "--json").output)
    assert [kind["hubs"] for kind in result["kinds"]] == [300]
    assert "Road front" in result["kinds"][0]["name"]


def test_csv_and_picture(tmp_path: Path) -> None:
    picture = tmp_path / "many.png"
    result = run("--hubs", "200", "--csv", "--png", str(picture))
    assert result.exit_code == 0
    assert len(result.stdout.splitlines()) == 201
    assert picture.read_bytes().startswith(b"\x89PNG")


def test_every_mistake_is_said_together() -> None:
    result = run("nowhere.toml", "--hubs", "many", "--seed", "-1", "--back-off", "99")
    assert result.exit_code == 2
    said = result.stderr.splitlines()
    assert said[0].startswith("nowhere.toml: cannot be read")
    assert said[1] == "--hubs = many: must be a whole number from 1 to 10000000"
    assert said[2].startswith("--seed = -1")
    assert said[3] == "--back-off = 99: must be from -1 to 3 turns"
    result = run("--kind", "tandem", "--hubs", "10")
    assert result.exit_code == 2
    assert "known here: touring-rear" in result.stderr
    result = run("--hubs", "10", "--png", "/nowhere/at/all.png")
    assert "cannot be written" in result.stderr
