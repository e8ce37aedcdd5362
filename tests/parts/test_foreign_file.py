"""The door for files from elsewhere: what is over its limits is refused in words, and soon.

Nothing here comes from a book: the limits are the project's own. No time is asserted by itself; a refusal is held
against an ordinary one, of a file with one misspelt key, of the same run.
"""

import os
import tracemalloc
from collections.abc import Callable
from pathlib import Path
from time import perf_counter
from typing import Any

import pytest

from conemodel.base.errors import InputProblems
from conemodel.parts.crowd import load_crowd, read_crowd
from conemodel.parts.exercise import Exercise
from conemodel.parts.file_kinds import FILE_KINDS, kind_of
from conemodel.parts.foreign_file import FILE_SIZE_LIMIT, read_bytes
from conemodel.parts.lesson import Story, load_story
from conemodel.parts.library import SCENARIOS
from conemodel.parts.measured_hub import MeasuredHub
from conemodel.parts.population import Population
from conemodel.parts.readings import Readings, load_readings
from conemodel.parts.real_hub import RealHubReadings
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import load_part, load_scenario, read_part, read_scenario
from conemodel.parts.toml_reader import MOST_MESSAGES

REAR = (SCENARIOS / "touring-rear.toml").read_text()
MISSPELT = REAR.replace("rim_radius_mm", "rim_raduis_mm")

FULL = FILE_SIZE_LIMIT - 100
HOSTILE = {
    "blanks after a bracket in a story": 'story = """\n[' + " " * 2500 + '\n"""',
    "a page of blanks after a bracket": "story = '''\n[" + " " * FULL + "\n'''",
    "a dotted key of a thousand parts": "a." * 1000 + "a = 1",
    "a page of one dotted key": "a." * (FULL // 2) + "a = 1",
    "a page of one quoted dotted key": "'a'." * (FULL // 4) + "a = 1",
    "a page of one dotted header": "[" + "a." * (FULL // 2) + "a]",
    "five thousand unknown keys": "\n".join(f"k{i} = 1" for i in range(5000)),
    "unknown keys on few lines": "a = {" + ", ".join(f"k{i} = 1" for i in range(5000)) + "}",
    "a page of nested lists": "a = " + "[" * FULL,
    "a page of nested tables": "a = " + "{a = " * (FULL // 5),
    "a page of numbers": "a = [" + "1," * (FULL // 2 - 5) + "]",
    "a page of one number": "a = 0x" + "f" * FULL,
    "a page of blank lines": "\n" * FULL,
    "a page of quotes": '"' * FULL,
    "a page of empty texts": "a = [" + '"" ' * (FULL // 3) + "]",
    "pages of empty texts on lines": "a = [\n" + ('"", ' * 4000 + "\n") * 4,
    "pages of brackets on lines": "a = " + ("[" * 16000 + "\n") * 4,
    "pages of quotes on lines": ('"' * 15999 + "\n") * 4,
    "pages of escapes on lines": 'a = """' + ("\\" * 15990 + "\n") * 4 + '"""' + "[" * 10,
    "pages of dots on lines": ("." * 16000 + "\n") * 4,
    "a page of escapes": 'a = "' + "\\" * FULL + '"',
    "a page of short comments": "#\n" * (FULL // 2),
    "a file too large": "#" * (FILE_SIZE_LIMIT + 1),
}


def refusal(text: str, cls: type[Any] = Scenario) -> InputProblems:
    with pytest.raises(InputProblems) as refused:
        read_part(cls, text, name="hub.toml")
    return refused.value


def quickest(work: Callable[[], object], tries: int) -> float:
    """Return the shortest of several times of `work` [s]: what else the machine did only ever adds."""
    times = []
    for _ in range(tries):
        start = perf_counter()
        work()
        times.append(perf_counter() - start)
    return min(times)


def peak(work: Callable[[], object]) -> int:
    """Return the most memory that `work` holds at once [bytes]."""
    tracemalloc.start()
    try:
        work()
        return tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()


@pytest.mark.parametrize("text", HOSTILE.values(), ids=list(HOSTILE))
def test_what_is_over_a_limit_is_refused_in_twice_the_time_of_an_ordinary_refusal(text: str) -> None:
    assert len(str(refusal(text))) < 5000
    ordinary = quickest(lambda: refusal(MISSPELT), 40)
    assert quickest(lambda: refusal(text), 40) <= 2 * ordinary


@pytest.mark.parametrize("text", HOSTILE.values(), ids=list(HOSTILE))
def test_what_is_over_a_limit_takes_little_memory(text: str) -> None:
    assert peak(lambda: refusal(text)) <= peak(lambda: refusal(MISSPELT)) + 50e6


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a." * 8 + "a = 1", "must not have a key of more than 8 parts"),
        ("a = " + "[" * 9 + "]" * 9, "must not have more than 8 lists or tables within each other"),
        ("\n".join(f"k{i} = 1" for i in range(401)), "must not have more than 400 keys"),
        ("a = [" + "1," * 2000 + "]", "must not have more than 2000 entries"),
        ("\n" * 2000, "must not have more than 2000 lines"),
        ('"' * 8001, "must not have more than 8000 quotation marks"),
        ("# " + "x" * 16384, "must not have a line of more than 16384 characters"),
        ("a = 0x" + "f" * 1000, "a key or a number of more than 1000 characters"),
    ],
)
def test_a_limit_is_named(text: str, said: str) -> None:
    assert said in str(refusal(text))


@pytest.mark.parametrize(
    "text",
    [
        "story = '''" + "[[[[[[[[[[ a.b.c.d.e.f.g.h.i.j =,{ " * 50 + "'''\nname = 'x'",
        'story = """he said ""yes\\""" [[[[[[[[[[ ""\\" """""\nname = "x"',
        'name = "a.b.c.d.e.f.g.h.i.j [[[[[[[[[[ \\" [["  # a.b.c.d.e.f.g.h.i.j [[[[[[[[[[',
    ],
)
def test_what_stands_in_texts_and_comments_counts_for_nothing(text: str) -> None:
    """The files are TOML, and a reading has nothing that must be there."""
    assert read_part(Readings, text, name="hub.toml").replace(name="", story="") == Readings(
        name="", story=""
    )


def test_a_text_that_ends_in_quotes_hides_nothing_behind_it() -> None:
    assert "within each other" in str(refusal('a = [""" ""\\" """"", ' + "[" * 9 + "]" * 10))


def test_of_very_many_mistakes_the_first_are_said_and_the_rest_counted() -> None:
    said = refusal("\n".join(f"k{i} = 1" for i in range(400))).problems
    assert len(said) == MOST_MESSAGES + 1
    assert "more mistakes" in str(said[-1])


def test_a_key_as_long_as_a_page_is_cut_in_the_message() -> None:
    assert len(str(refusal('"' + "k" * 10000 + '" = 1', Readings))) < 1000


def test_a_population_of_a_thousand_names_is_refused_before_any_is_looked_for() -> None:
    text = (SCENARIOS / "populations" / "workshop-mix.toml").read_text()
    files = ", ".join(f"'n{i}'" for i in range(1000))
    lines = [f"files = [{files}]" if line.startswith("files") else line for line in text.splitlines()]
    with pytest.raises(InputProblems) as refused:
        read_crowd("\n".join(lines).encode(), name="mix.toml")
    assert "must not be more than 40" in str(refused.value)
    assert len(str(refused.value)) < 2000


LOADERS = [load_scenario, load_readings, load_crowd, load_story]


@pytest.mark.parametrize("load", LOADERS)
def test_a_pipe_is_refused_without_waiting(tmp_path: Path, load: Callable[[Path], object]) -> None:
    pipe = tmp_path / "pipe.toml"
    os.mkfifo(pipe)
    with pytest.raises(InputProblems, match="it is no plain file"):
        load(pipe)


@pytest.mark.parametrize("load", LOADERS)
def test_folders_and_devices_are_refused(tmp_path: Path, load: Callable[[Path], object]) -> None:
    for path in (tmp_path, Path(os.devnull), Path("/dev/zero")):
        with pytest.raises(InputProblems, match="it is no plain file"):
            load(path)


def test_a_pipe_beside_a_population_is_not_waited_for(tmp_path: Path) -> None:
    (tmp_path / "mix.toml").write_text((SCENARIOS / "populations" / "workshop-mix.toml").read_text())
    os.mkfifo(tmp_path / "other.toml")
    with pytest.raises(InputProblems, match="is not the name of a scenario here"):
        load_crowd(tmp_path / "mix.toml")


def test_a_file_that_becomes_a_pipe_after_it_was_looked_at_is_not_waited_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    plain, pipe = tmp_path / "plain.toml", tmp_path / "pipe.toml"
    plain.write_text("")
    os.mkfifo(pipe)
    looked_at = plain.stat()
    monkeypatch.setattr(Path, "stat", lambda self: looked_at)
    with pytest.raises(InputProblems, match="it is no plain file"):
        read_bytes(pipe)


KINDS: dict[str, type[Any]] = {
    "Scenario": Scenario,
    "Readings": Readings,
    "Population": Population,
    "Story": Story,
    "Exercise": Exercise,
    "RealHubReadings": RealHubReadings,
    "MeasuredHub": MeasuredHub,
}
SHIPPED = [(path, "Scenario") for path in sorted(SCENARIOS.glob("*.toml"))] + [
    (path, kind)
    for folder, kind in {
        "readings": "Readings",
        "populations": "Population",
        "stories": "Story",
        "practise": "Exercise",
        "real_hubs": "RealHubReadings",
        "measured": "MeasuredHub",
    }.items()
    for path in sorted((SCENARIOS / folder).glob("*.toml"))
]


@pytest.mark.parametrize(("path", "kind"), SHIPPED, ids=lambda value: getattr(value, "stem", value))
def test_a_file_in_the_wrong_place_is_told_its_own_in_one_sentence(path: Path, kind: str) -> None:
    for name, cls in KINDS.items():
        if name == kind:
            assert load_part(cls, path)
            continue
        with pytest.raises(InputProblems, match="it is taken by") as refused:
            load_part(cls, path)
        assert len(refused.value.problems) == 1


def test_the_marks_of_a_kind_are_keys_of_its_part_and_of_no_other() -> None:
    assert {kind.part for kind in FILE_KINDS} == set(KINDS)
    for kind in FILE_KINDS:
        found = kind_of(kind.marks)
        assert found is kind
    for one in FILE_KINDS:
        assert all(not one.marks & other.marks for other in FILE_KINDS if other is not one)


def test_readings_given_to_predict_are_sent_to_check() -> None:
    text = (SCENARIOS / "readings" / "dial-gauge.toml").read_text()
    with pytest.raises(InputProblems) as refused:
        read_scenario(text, name="dial-gauge.toml")
    assert str(refused.value) == (
        "dial-gauge.toml: is a file of readings, which is not read here "
        "(it is taken by the command check, and the page Check a hub)"
    )
