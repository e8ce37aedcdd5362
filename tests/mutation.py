"""Mutation run: are there small changes to the program that no test notices?

``python -m tests.mutation --mutants 60 --seed 1`` changes one thing at a time in a copy of the tree and runs the tests,
those first that mirror the changed file's room. What survives is reported, not asserted: a mutant may change nothing
that can be seen, and whether it does is for a reader to judge.
"""

import argparse
import ast
import os
import random
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
NOT_COPIED = (".git", ".venv", "__pycache__", ".*_cache", ".hypothesis", ".benchmarks")
EVERYTHING = ["tests", "conemodel"]
NOTHING_TO_RUN = 5
"""What pytest ends with where a file has no example or a folder no test."""

LIMIT = 1200
"""A mutant whose tests take so long hangs, and counts as killed [s]."""

OPERATORS: dict[type[ast.AST], type[ast.AST]] = {
    ast.Lt: ast.GtE,
    ast.LtE: ast.Gt,
    ast.Gt: ast.LtE,
    ast.GtE: ast.Lt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.And: ast.Or,
    ast.Or: ast.And,
    ast.USub: ast.UAdd,
}
PAIRS = (
    ("min", "max"),
    ("minimum", "maximum"),
    ("sin", "cos"),
    ("any", "all"),
    ("low", "high"),
    ("left", "right"),
)
NAMES = {one: other for pair in PAIRS for one, other in (pair, pair[::-1])}


@dataclass(frozen=True, slots=True)
class Mutant:
    """One change to a file: its line as it was and as it is now, and the whole text with the change."""

    path: Path
    line: int
    before: str
    after: str
    text: str


def mutate(node: ast.AST) -> bool:
    """Change one node where it stands; return whether there was anything to change."""
    if isinstance(node, ast.Compare) and type(node.ops[0]) in OPERATORS:
        node.ops[0] = OPERATORS[type(node.ops[0])]()  # type: ignore[call-overload]
    elif isinstance(node, ast.BinOp | ast.BoolOp | ast.UnaryOp) and type(node.op) in OPERATORS:
        node.op = OPERATORS[type(node.op)]()  # type: ignore[assignment]
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        node.operand = ast.UnaryOp(ast.Not(), node.operand)  # twice not: the first is dropped
    elif isinstance(node, ast.Constant) and isinstance(node.value, bool):
        node.value = not node.value
    elif isinstance(node, ast.Constant) and isinstance(node.value, int | float):
        node.value = node.value * 2 if node.value else 1
    elif isinstance(node, ast.Attribute) and node.attr in NAMES:
        node.attr = NAMES[node.attr]
    elif isinstance(node, ast.Name) and node.id in NAMES and isinstance(node.ctx, ast.Load):
        node.id = NAMES[node.id]
    elif isinstance(node, ast.IfExp):
        node.body, node.orelse = node.orelse, node.body
    else:
        return False
    return True


def cropped(before: str, after: str) -> tuple[str, str]:
    """Return two lines with little more than where they differ."""
    same = next((i for i, (a, b) in enumerate(zip(before, after, strict=False)) if a != b), 0)
    start = max(same - 40, 0)
    return before[start : same + 40].strip(), after[start : same + 40].strip()


def mutants_of(path: Path) -> Iterator[Mutant]:
    """Yield every single change to a file."""
    source = path.read_text(encoding="utf-8")
    plain = ast.unparse(ast.parse(source)).splitlines()
    for number in range(sum(1 for _ in ast.walk(ast.parse(source)))):
        tree = ast.parse(source)
        node = next(node for place, node in enumerate(ast.walk(tree)) if place == number)
        if isinstance(node, ast.expr) and mutate(node):
            text = ast.unparse(ast.fix_missing_locations(tree))
            changed = [pair for pair in zip(plain, text.splitlines(), strict=False) if pair[0] != pair[1]]
            if changed:
                before, after = cropped(*changed[0])
                yield Mutant(path, node.lineno, before, after, text)


def draw(count: int, seed: int) -> list[Mutant]:
    """Return as many mutants, each from a file drawn by its size, the same for the same seed."""
    dice = random.Random(seed)
    files = sorted((ROOT / "conemodel").rglob("*.py"))
    sizes = [path.stat().st_size for path in files]
    drawn: list[Mutant] = []
    while len(drawn) < count:
        found = list(mutants_of(dice.choices(files, sizes)[0]))
        drawn += [dice.choice(found)] if found else []
    return drawn


def rounds(path: Path) -> Iterator[list[str]]:
    """Yield what to run for a changed file: its examples and mirrored tests, its room's, then everything."""
    inside = path.relative_to(ROOT / "conemodel")
    near = [folder for folder in (ROOT / "tests" / inside.parent,) if folder.is_dir() and inside.parent.name]
    yield [f"conemodel/{inside.as_posix()}", *(folder.relative_to(ROOT).as_posix() for folder in near)]
    room = ROOT / "tests" / inside.parts[0]
    if room.is_dir() and [room] != near:
        yield [f"tests/{inside.parts[0]}"]
    yield EVERYTHING


def fails(chosen: list[str], copy: Path) -> bool:
    """Return whether a chosen test fails in the `copy` of the tree, or hangs."""
    environment = {**os.environ, "CI": "true", "CONEMODEL_BROWSER": "off", "PYTHONDONTWRITEBYTECODE": "1"}
    command = [sys.executable, "-m", "pytest", "-q", "-x", "-p", "no:cacheprovider", *chosen]
    try:
        done = subprocess.run(
            command, cwd=copy, env=environment, capture_output=True, check=False, timeout=LIMIT
        )
    except subprocess.TimeoutExpired:
        return True
    return done.returncode not in (0, NOTHING_TO_RUN)


def is_killed(mutant: Mutant, copy: Path) -> bool:
    """Return whether a test in the `copy` of the tree fails with the mutant in it."""
    place = copy / mutant.path.relative_to(ROOT)
    whole = place.read_text(encoding="utf-8")
    place.write_text(mutant.text, encoding="utf-8")
    try:
        return any(fails(chosen, copy) for chosen in rounds(mutant.path))
    finally:
        place.write_text(whole, encoding="utf-8")


def tell(line: str) -> None:
    """Write a line at once: a run takes hours."""
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


def main() -> None:
    """Draw mutants, run the tests on each, and print what survived."""
    parser = argparse.ArgumentParser(description="Change one thing at a time and see whether a test notices.")
    parser.add_argument("--mutants", type=int, default=60)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    killed = 0
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "tree"
        shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(*NOT_COPIED))
        if fails(EVERYTHING, copy):
            sys.exit("a test fails without any mutant: mend that first")
        for mutant in draw(asked.mutants, asked.seed):
            dead = is_killed(mutant, copy)
            killed += dead
            where = f"{mutant.path.relative_to(ROOT).as_posix()}:{mutant.line}"
            tell(f"{'killed  ' if dead else 'SURVIVED'} {where}  {mutant.before}  →  {mutant.after}")
    tell(f"{killed} of {asked.mutants} killed")


if __name__ == "__main__":
    main()
