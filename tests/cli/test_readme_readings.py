"""The readings file in README: whole, and worth a turn as it stands there."""

import re
from pathlib import Path

from click.testing import CliRunner

from conemodel.cli import main


def test_the_readings_in_readme_are_measured_as_they_stand(root: Path, tmp_path: Path) -> None:
    blocks = re.findall(r"```toml\n(.*?)```", (root / "README.md").read_text(encoding="utf-8"), re.DOTALL)
    (readings,) = [block for block in blocks if "read_by" in block]
    path = tmp_path / "my-wheel.toml"
    path.write_text(readings, encoding="utf-8")
    result = CliRunner().invoke(main, ("measure", str(path)))
    assert result.exit_code == 0
    assert "Turn 6 minutes in" in result.output
    # a second mark, read after the turn, goes on from there
    path.write_text(f"{readings}\n[second]\ncount_minutes = 9\nclamped_mm = [0.0, 0.0]\n", encoding="utf-8")
    assert "Right" in CliRunner().invoke(main, ("measure", str(path))).output
