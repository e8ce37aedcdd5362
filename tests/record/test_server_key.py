"""The server's own key: made once, kept, the same for everybody who comes at once, and nobody else's to read."""

import stat
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from conemodel.record.database import RecordError
from conemodel.record.server_key import server_key


def test_the_key_is_made_once_and_kept(tmp_path: Path) -> None:
    path = tmp_path / "deep" / "practice.key"
    first = server_key(path)
    assert len(first) == 64
    assert server_key(path) == first
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert [file.name for file in path.parent.iterdir()] == ["practice.key"]


def test_two_servers_have_two_keys(tmp_path: Path) -> None:
    assert server_key(tmp_path / "a") != server_key(tmp_path / "b")


def test_all_who_come_at_once_get_the_same(tmp_path: Path) -> None:
    with ThreadPoolExecutor(8) as pool:
        keys = set(pool.map(lambda _: server_key(tmp_path / "practice.key"), range(40)))
    assert len(keys) == 1


@pytest.mark.parametrize("text", ["", "short", "\xff\xfe"])
def test_a_file_that_is_no_key_is_not_used(tmp_path: Path, text: str) -> None:
    path = tmp_path / "practice.key"
    path.write_bytes(text.encode("latin-1"))
    with pytest.raises(RecordError, match=r"practice\.key"):
        server_key(path)
