"""Real hubs in their file: readings are kept as they were given, and found again under the name only.

Nothing here comes from a book: the laws are that what was kept is found again, once, in order.
"""

from datetime import UTC, datetime
from pathlib import Path

import pytest

from conemodel.base.errors import InputProblems
from conemodel.parts.library import SCENARIOS
from conemodel.parts.real_hub import load_real_hub
from conemodel.parts.toml_files import load_scenario
from conemodel.record.attempts import delete_name
from conemodel.record.database import Database
from conemodel.record.real_hubs import delete_real_hubs, keep_real_hub, real_hubs

FOUND = load_real_hub(SCENARIOS / "real_hubs" / "practice-wheel.toml")
HUB = load_scenario(SCENARIOS / "touring-rear.toml")


@pytest.fixture
def file(tmp_path: Path) -> Database:
    return Database(tmp_path / "folder" / "record.sqlite3")


def on(day: int) -> datetime:
    return datetime(2026, 3, day, 9, tzinfo=UTC)


def test_what_was_kept_is_found_again_with_its_hub(file):
    kept = keep_real_hub(FOUND, HUB, file, name=" Ada  L. ", now=on(1))
    (found,) = real_hubs("Ada L.", Database(file.path))
    assert found == kept
    assert (found.readings, found.hub, found.made_at) == (FOUND, HUB, "2026-03-01T09:00:00+00:00")
    assert real_hubs("Ada", file) == ()


def test_the_same_pressed_twice_is_kept_once_and_another_day_again(file):
    first, second = (keep_real_hub(FOUND, HUB, file, name="Ada", now=on(1)) for _ in range(2))
    assert first == second
    keep_real_hub(FOUND, HUB, file, name="Ada", now=on(8))
    assert [one.made_at[:10] for one in real_hubs("Ada", file)] == ["2026-03-01", "2026-03-08"]


def test_deleting_takes_that_name_only_by_itself_or_with_all_else(file):
    for name in ("Ada", "Kim"):
        keep_real_hub(FOUND, HUB, file, name=name)
    assert delete_real_hubs("Ada", file) == 1
    assert len(real_hubs("Kim", file)) == 1
    delete_name("Kim", file)
    assert real_hubs("Kim", file) == ()


def test_a_name_that_does_not_print_is_refused_and_nothing_is_kept(file):
    with pytest.raises(InputProblems, match="printable"):
        keep_real_hub(FOUND, HUB, file, name="A\x07da")
    assert real_hubs("A\x07da", file) == ()
