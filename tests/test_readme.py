"""The two commands of the README that a newcomer copies."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.patience import PATIENCE

ROOT = Path(__file__).resolve().parents[1]


def commands() -> list[str]:
    blocks = re.findall(r"```[a-z]*\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.DOTALL)
    return [line for block in blocks for line in block.splitlines() if line.startswith("python3 -m venv")]


def test_the_readme_opens_with_one_command_to_run_and_one_to_test():
    run_it, test_it = commands()
    assert run_it.endswith("-m streamlit run app.py")
    assert test_it.endswith("-m pytest")
    assert "-r requirements.txt" in run_it
    assert "-r tests/requirements.txt" in test_it


@pytest.mark.slow
def test_the_first_command_installs_all_the_app_needs(tmp_path):
    # In a copy without any virtual environment; the last step would serve until stopped: one run instead.
    copy = tmp_path / "copy"
    copy.mkdir()
    for name in ("app.py", "requirements.txt"):
        shutil.copy(ROOT / name, copy)
    for name in ("conemodel", "scenarios", ".streamlit"):
        shutil.copytree(ROOT / name, copy / name, ignore=shutil.ignore_patterns("__pycache__"))
    check = (
        "from streamlit.testing.v1 import AppTest; "
        f"page = AppTest.from_file('app.py', default_timeout={PATIENCE}).run(); "
        "assert not page.exception, page.exception; assert page.main"
    )
    command = commands()[0].replace("-m streamlit run app.py", f'-c "{check}"')
    done = subprocess.run(["bash", "-c", command], cwd=copy, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
