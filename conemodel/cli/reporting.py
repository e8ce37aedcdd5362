"""Output shared by all commands: error messages, picture files, progress of a long run."""

import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from conemodel.base.errors import ConemodelError, InputProblems, Problem
from conemodel.base.plain_text import for_terminal

BAD_INPUT = 2
"""Exit code where what was given cannot be used."""

NO_ANSWER = 1
"""Exit code where the model found no answer."""


def say(text: str, *, end: str = "\n", err: bool = False) -> None:
    """Print text that may come from a file, so that a terminal obeys no control sequence in it."""
    click.echo(for_terminal(text) + end, err=err, nl=False)


class Reported:
    """Turns the package's own errors into a message and an exit code, never a traceback."""

    def __enter__(self) -> None:
        pass

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: object) -> None:
        if isinstance(error, InputProblems):
            say(str(error), err=True)
            sys.exit(BAD_INPUT)
        if isinstance(error, ConemodelError):
            say(f"no answer: {error}", err=True)
            sys.exit(NO_ANSWER)


def tell_progress(done: float) -> None:
    """Print the share of a long study that is done, at a terminal only; nothing is written into a pipe."""
    if sys.stderr.isatty():
        click.echo(f"\r{done:4.0%}" if done < 1 else "\r    \r", err=True, nl=False)


def write_picture(path: Path, draw: Callable[[], Any]) -> None:
    """Write the figure that `draw` returns as PNG.

    Raises:
        InputProblems: the file cannot be written.
    """
    from conemodel.show.paper.files import to_png

    _write("--png", path, lambda: to_png(draw()))


def write_sheet(option: str, path: Path, draw: Callable[[], Any]) -> None:
    """Write the figure that `draw` returns as PDF, to a file given by an `option`.

    Raises:
        InputProblems: the file cannot be written.
    """
    from conemodel.show.paper.files import to_pdf

    _write(option, path, lambda: to_pdf(draw()))


def _write(option: str, path: Path, data: Callable[[], bytes]) -> None:
    try:
        path.write_bytes(data())
    except OSError as error:
        problem = Problem(
            where=f"{option} {path}", value="", limit="cannot be written", remedy=error.strerror or ""
        )
        raise InputProblems([problem]) from None
