"""A record of its own for every test of a page: nothing is read from or kept in the user's own."""

from pathlib import Path

import pytest

from conemodel.record.database import FILE_OPTION, Database


@pytest.fixture(autouse=True)
def database(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Database:
    """Return the record that pages use during the test."""
    path = tmp_path / "record.sqlite3"
    monkeypatch.setenv(FILE_OPTION, str(path))
    return Database(path)
