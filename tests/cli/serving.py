"""The ``serve`` command, running, for tests that reach it over the wire."""

import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from signal import SIGINT

from conemodel.record.database import FILE_OPTION
from tests.patience import PATIENCE

ADDRESS = "127.0.0.2"
"""An address of this machine that is neither of the two every browser at its own desk takes; no network is needed."""

LAST_WORDS = "Ctrl+C ends it."


@contextmanager
def served(root: Path, port: int, scratch: Path) -> Iterator[subprocess.Popen[str]]:
    """Serve from another folder than the program's until the block ends; what was printed lies in `scratch`/printed."""
    printed = scratch / "printed"
    kept = {"XDG_DATA_HOME": str(scratch), "HOME": str(scratch), FILE_OPTION: str(scratch / "record.sqlite3")}
    with printed.open("w") as out:
        server = subprocess.Popen(
            [sys.executable, "-m", "conemodel", "serve", "--address", ADDRESS, "--port", str(port)],
            cwd=scratch,
            env={**os.environ, "PYTHONPATH": str(root), **kept},
            stdout=out,
            stderr=subprocess.STDOUT,
            text=True,
            start_new_session=True,
        )
    try:
        _wait_for(printed, server)
        yield server
    finally:
        interrupt(server)


def interrupt(server: subprocess.Popen[str]) -> int:
    """Do what Ctrl+C does: interrupt the command and all it started; return its exit code."""
    if server.poll() is None:
        os.killpg(server.pid, SIGINT)
    return server.wait(PATIENCE)


def _wait_for(printed: Path, server: subprocess.Popen[str]) -> None:
    while LAST_WORDS not in printed.read_text():
        try:
            code = server.wait(0.1)
        except subprocess.TimeoutExpired:
            continue
        raise RuntimeError(f"ended with {code}: {printed.read_text()}")
