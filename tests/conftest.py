"""What every test stands on: repeatable random cases and the place of the checkout."""

import os
from pathlib import Path

import pytest
from hypothesis import settings

settings.register_profile("desk", deadline=None, max_examples=50)
settings.register_profile("ci", deadline=None, max_examples=200, derandomize=True, print_blob=True)
settings.load_profile("ci" if os.environ.get("CI") else "desk")


@pytest.fixture(scope="session")
def root() -> Path:
    """Return the top of the checkout."""
    return Path(__file__).resolve().parents[1]
