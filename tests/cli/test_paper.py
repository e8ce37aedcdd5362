"""Sheets to print, from a shell."""

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from conemodel.cli import main
from conemodel.show.paper.sheet import PAPERS
from tests.show.paper.pdf_paths import page_size

REAR = "scenarios/touring-rear.toml"


@pytest.fixture(autouse=True)
def _at_the_top(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(root)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ("paper", *arguments))


@pytest.mark.parametrize(("size", "sheet"), [((), "A4"), (("--size", "letter"), "Letter")])
def test_the_dial_is_written_on_the_sheet_asked_for(
    tmp_path: Path, size: tuple[str, ...], sheet: str
) -> None:
    result = run(REAR, "--dial", str(tmp_path / "dial.pdf"), *size)
    assert result.exit_code == 0, result.output
    assert "100 %" in result.output
    assert page_size((tmp_path / "dial.pdf").read_bytes()) == pytest.approx(PAPERS[sheet], abs=0.1)


def test_dial_and_wall_chart_are_written_together(tmp_path: Path) -> None:
    files = [tmp_path / name for name in ("dial.pdf", "wall.pdf")]
    result = run(REAR, "--dial", str(files[0]), "--wall-chart", str(files[1]), "--size", "A3")
    assert result.exit_code == 0, result.output
    assert [page_size(path.read_bytes())[1] for path in files] == [pytest.approx(420, abs=0.1)] * 2


def test_what_is_missing_or_cannot_be_written_is_said(tmp_path: Path) -> None:
    nothing = run(REAR, "--size", "a3")
    assert (nothing.exit_code, "give --dial FILE" in nothing.output) == (2, True)
    nowhere = run(REAR, "--dial", str(tmp_path / "none" / "dial.pdf"))
    assert (nowhere.exit_code, "cannot be written" in nowhere.output) == (2, True)
