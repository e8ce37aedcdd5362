"""What every test stands on: repeatable random cases and the place of the checkout."""

import os
from pathlib import Path

import pytest
from hypothesis import settings

settings.register_profile("desk", deadline=None, max_examples=50)
settings.register_profile("ci", deadline=None, max_examples=200, derandomize=True, print_blob=True)
settings.load_profile("ci" if os.environ.get("CI") else "desk")


MOST_WORKERS = 4
"""Each takes a browser and a server of its own and some 500 MB; the longest file ends the run, so more help little."""


def pytest_xdist_auto_num_workers(config: pytest.Config) -> int:
    """Return one worker for each processor when everything runs, none where somebody asks for a part of it."""
    asked = config.args_source is pytest.Config.ArgsSource.ARGS
    return 0 if asked else min(os.cpu_count() or 1, MOST_WORKERS)


@pytest.fixture(scope="session")
def root() -> Path:
    """Return the top of the checkout."""
    return Path(__file__).resolve().parents[1]
