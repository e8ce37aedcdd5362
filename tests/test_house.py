"""The order of the house: what may stand where, who may use whom, what every docstring owes its reader.

Nothing here comes from a book: these are the project's own rules, set out in DEVELOPERS.md.
"""

import ast
import fnmatch
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest

from tests.patience import PATIENCE

ROOT = Path(__file__).resolve().parents[1]
PACKAGE = ROOT / "conemodel"
TOP = {
    "README.md",
    "DEVELOPERS.md",
    "LICENSE",
    "requirements.txt",
    "app.py",
    "conemodel",
    "scenarios",
    "tests",
}
TOP_DOTS = {
    ".ci",
    ".git",
    ".gitignore",
    ".importlinter",
    ".mypy.ini",
    ".pytest.ini",
    ".ruff.toml",
    ".streamlit",
}
LONGEST_FILE = {"conemodel": 250, "tests": 320}
"""Lines that a file may have, by where it stands."""
# Not imported by name: pytest runs the tests.
NOT_IMPORTED = {"pytest"}


def python_files(*folders: Path) -> list[Path]:
    return sorted(path for folder in folders for path in folder.rglob("*.py"))


def short(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def run(code: str, folder: Path = ROOT) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", code],
        cwd=folder,
        capture_output=True,
        text=True,
        check=False,
        timeout=PATIENCE,
    )


def test_the_top_level_holds_what_it_should_and_no_more():
    ignored = [line.rstrip("/") for line in (ROOT / ".gitignore").read_text().split()]
    found = {
        path.name
        for path in ROOT.iterdir()
        if not any(fnmatch.fnmatch(path.name, pattern) for pattern in ignored)
    }
    assert found - TOP_DOTS == TOP
    assert found & TOP_DOTS >= TOP_DOTS - {".git"}


LINT = "import sys; from importlinter.cli import lint_imports; sys.exit(lint_imports(no_cache=True))"


def test_a_room_uses_only_the_rooms_below_it():
    done = run(LINT)
    assert done.returncode == 0, done.stdout


@pytest.mark.parametrize(
    ("room", "reaches_for"),
    [
        ("base/units.py", "conemodel.physics.hertz"),
        ("physics/hertz.py", "matplotlib"),
        ("cli/options.py", "streamlit"),
    ],
)
def test_an_import_against_the_order_is_found(tmp_path, room, reaches_for):
    shutil.copytree(PACKAGE, tmp_path / "conemodel", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / ".importlinter", tmp_path)
    wrong = tmp_path / "conemodel" / room
    wrong.write_text(wrong.read_text(encoding="utf-8") + f"\nimport {reaches_for}\n", encoding="utf-8")
    assert "BROKEN" in run(LINT, tmp_path).stdout


def test_importing_the_package_does_not_import_what_draws():
    code = (
        "import sys, conemodel as cm; [getattr(cm, name) for name in cm.__all__]; "
        "print(sorted({'altair', 'matplotlib', 'pandas', 'streamlit'} & set(sys.modules)))"
    )
    done = run(code)
    assert done.stdout.strip() == "[]", done.stderr


@pytest.mark.parametrize("name", ["predict", "sweep", "load_scenario", "load_readings", "solve_pair"])
def test_what_takes_long_to_import_is_imported_only_when_used(name):
    # scipy.special, which every prediction needs, brings numpy.f2py along by itself
    slow = {"scipy.optimize", "scipy.spatial", "scipy.stats", "scipy.integrate", "scipy.interpolate"}
    done = run(f"import sys, conemodel; conemodel.{name}; print(sorted({slow} & set(sys.modules)))")
    assert done.stdout.strip() == "[]", done.stderr


@pytest.mark.parametrize("path", python_files(PACKAGE, ROOT / "tests"), ids=short)
def test_a_file_is_short_enough_to_read(path):
    lines = path.read_text(encoding="utf-8").splitlines()
    assert len(lines) <= LONGEST_FILE[path.relative_to(ROOT).parts[0]]


def test_every_test_file_is_collected_and_nothing_else_is():
    done = run("import sys, pytest; sys.exit(pytest.main(['--collect-only', '-qq', '-m', '', 'tests']))")
    assert done.returncode == 0, done.stdout
    collected = {line.split(":")[0] for line in done.stdout.splitlines() if ".py:" in line}
    outside = ROOT / "tests" / "bench"
    assert collected == {
        short(path) for path in (ROOT / "tests").rglob("test_*.py") if outside not in path.parents
    }


def test_no_file_names_a_place_on_one_machine():
    # Put together here, so that this file does not find itself.
    places = re.compile("|".join(["/" + p + "/" for p in ("home", "root", "work", "opt", "Users")]))
    texts = [
        ROOT / name for name in ("README.md", "DEVELOPERS.md", "app.py", ".ci/run", ".streamlit/config.toml")
    ]
    for folder in (PACKAGE, ROOT / "tests", ROOT / "scenarios"):
        texts += [p for p in folder.rglob("*") if p.is_file() and p.suffix != ".pyc"]
    assert [short(p) for p in texts if places.search(p.read_text(encoding="utf-8", errors="ignore"))] == []


def pins(path: Path) -> set[str]:
    lines = path.read_text().splitlines()
    return {line.split("==")[0] for line in lines if line and not line.startswith(("-r", "#"))}


def imported_distributions(*paths: Path) -> set[str]:
    owners = packages_distributions()
    names = set()
    for path in paths:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                names |= {alias.name.split(".")[0] for alias in node.names}
            elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
                names.add(node.module.split(".")[0])
    names -= set(sys.stdlib_module_names)
    return {owners[name][0].lower() for name in names if name in owners}


def test_every_package_the_app_imports_is_pinned_and_no_other():
    used = imported_distributions(ROOT / "app.py", *python_files(PACKAGE))
    assert used == pins(ROOT / "requirements.txt") - NOT_IMPORTED


@pytest.mark.parametrize("name", ["requirements.txt", "tests/requirements.txt"])
def test_every_pin_is_exact(name):
    for line in (ROOT / name).read_text().splitlines():
        assert re.fullmatch(r"-r \S+|[A-Za-z0-9-]+==\d[\w.]*", line), line


# What docstrings owe. Read from the text of each file, so that nothing has to be imported.

Definition = ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef


def public(path: Path) -> Iterator[Definition]:
    """Yield the public functions and classes at the top of a file, an overloaded function once."""
    for node in ast.parse(path.read_text(encoding="utf-8")).body:
        if isinstance(node, Definition) and not node.name.startswith("_") and not is_overload(node):
            yield node


def is_overload(node: Definition) -> bool:
    """Tell whether a definition only names types that the next one of its name takes."""
    return any(isinstance(mark, ast.Name) and mark.id == "overload" for mark in node.decorator_list)


def functions(path: Path) -> Iterator[ast.FunctionDef]:
    """Yield every function and method of a file, private ones too."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.FunctionDef):
            yield node


def parameters(node: ast.FunctionDef) -> set[str]:
    given = node.args.posonlyargs + node.args.args + node.args.kwonlyargs
    return {each.arg for each in given} - {"self", "cls"}


def described(text: str) -> set[str] | None:
    """Return the names under ``Args:`` in a docstring, or None where it has no such section."""
    section = re.search(r"^Args:\n((?:(?: {4}.*)?\n?)+)", text, re.MULTILINE)
    if section is None:
        return None
    entries: list[str] = re.findall(r"^ {4}([\w, *]+?)(?: \([^)]*\))?:", section.group(1), re.MULTILINE)
    return {name.strip(" *") for entry in entries for name in entry.split(",")}


PHYSICS = {node.name: node for path in python_files(PACKAGE / "physics") for node in public(path)}
EQUATIONS = [
    node
    for node in PHYSICS.values()
    if isinstance(node, ast.FunctionDef) and not (node.returns and ast.unparse(node.returns) == "None")
]


@pytest.mark.parametrize("path", python_files(PACKAGE), ids=short)
def test_every_public_name_says_what_it_is(path):
    assert ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))), "the file itself"
    assert [node.name for node in public(path) if not ast.get_docstring(node)] == []


@pytest.mark.parametrize("path", python_files(PACKAGE), ids=short)
def test_the_arguments_described_are_those_there_are(path):
    wrong = {}
    for node in functions(path):
        names = described(ast.get_docstring(node) or "")
        if names is not None and names != parameters(node):
            wrong[node.name] = names ^ parameters(node)
    assert wrong == {}


@pytest.mark.parametrize("path", python_files(PACKAGE), ids=short)
def test_what_is_raised_stands_in_a_section_of_its_own(path):
    prose = re.compile(r"\bErrors:|\bRaises: \S")
    assert [node.name for node in functions(path) if prose.search(ast.get_docstring(node) or "")] == []


@pytest.mark.parametrize("node", EQUATIONS, ids=lambda node: node.name)
def test_an_equation_says_what_goes_in_and_in_which_unit(node):
    text = ast.get_docstring(node) or ""
    known = (described(text) or set()) | set(re.findall(r"`(\w+)`", text))
    # "as for `cone_curvature`" stands for that function's own list.
    for other in re.findall(r"as for `(\w+)`", text):
        known |= described(ast.get_docstring(PHYSICS[other]) or "") or set()
    assert parameters(node) - known == set()
    assert re.search(r"\[[^\]]+\]|as for `", text), "no unit in brackets"


@pytest.mark.parametrize("node", EQUATIONS, ids=lambda node: node.name)
def test_an_equation_takes_its_values_by_name(node):
    # One value cannot be swapped with another; two can.
    assert len(node.args.posonlyargs + node.args.args) < 2 - bool(node.args.kwonlyargs)


@pytest.mark.parametrize("node", EQUATIONS, ids=lambda node: node.name)
def test_an_equation_says_where_it_comes_from(node):
    text = ast.get_docstring(node) or ""
    assert KEY.search(text) or re.search(r"(?i)\bderived\b|\bclosed form\b|\bgeometry\b", text)


# The bibliography.

KEY = re.compile(r"\[([A-Z][A-Za-z]*\d[\w.-]*)\]")


def cited(*paths: Path) -> set[str]:
    return {key for path in paths for key in KEY.findall(path.read_text(encoding="utf-8"))}


def test_what_is_cited_is_in_the_bibliography_and_the_reverse():
    from conemodel.base.sources import SOURCES

    files = [
        p for p in python_files(PACKAGE, ROOT / "tests") if p.name not in ("sources.py", Path(__file__).name)
    ]
    assert cited(*files) == set(SOURCES)


def test_the_bibliography_is_in_order():
    from conemodel.base.sources import SOURCES

    assert list(SOURCES) == sorted(SOURCES)
    assert all(KEY.fullmatch(f"[{key}]") for key in SOURCES)


# Scenario files.

SCENARIOS = sorted((ROOT / "scenarios").glob("*.toml"))


def test_there_are_at_least_eight_scenarios():
    assert len(SCENARIOS) >= 8


@pytest.mark.parametrize("path", SCENARIOS, ids=lambda path: path.stem)
def test_a_scenario_loads_and_tells_its_story(path):
    import conemodel as cm

    scenario = cm.load_scenario(path)
    assert len(scenario.story.split()) >= 20
