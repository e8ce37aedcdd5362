"""Read every file from elsewhere: opened without blocking, held against limits, and only then parsed.

The limits are far above what any file here needs, and are checked before the text is handed to the TOML parser, whose
work grows with the square of how deep keys nest. No pattern here can backtrack: every repetition is possessive.
"""

import os
import re
import stat
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from conemodel.base.errors import InputProblems, Problem

FILE_SIZE_LIMIT = 64 * 1024
"""A scenario is a page of text; anything larger is not one [bytes]."""

MOST_LINES, LONGEST_LINE = 2000, 16 * 1024
"""Most lines of a file, and characters in one; a story may stand on a single line."""

MOST_KEYS, MOST_ENTRIES = 400, 2000
"""Most keys of a file, and entries of its lists and tables."""

MOST_QUOTES = 8000
"""Most quotation marks and apostrophes of a file."""

DEEPEST, LONGEST_WORD = 8, 1000
"""Most tables or lists within each other, parts of a dotted key too, and characters of a bare key or a number."""

_TEXTS = re.compile(
    r'"""(?:[^"\\]|\\[\s\S]|"(?!""))*+"{0,5}+'
    r"|'''(?:[^']|'(?!''))*+'{0,5}+"
    r'|"(?:[^"\\\n]|\\.)*+"?+'
    r"|'[^'\n]*+'?+"
    r"|#[^\n]*+"
)
"""Texts in quotes and comments; one that is not closed reaches to its end of line or file."""

_BREAK = re.compile(r"[=,\[\]{}\n]")
_BRACKETS = re.compile(r"[^\[\]{}]++")


def read_bytes(path: Path, *, most: int = FILE_SIZE_LIMIT) -> bytes:
    """Return the first bytes of a plain file, one more than `most` at most.

    Raises:
        InputProblems: it cannot be read, or is a folder, a pipe or a device; nothing is waited for.
    """
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            raise InputProblems([_unread(path, "it is no plain file")])
        with open(path, "rb", opener=_without_waiting) as stream:
            if not stat.S_ISREG(os.fstat(stream.fileno()).st_mode):
                raise InputProblems([_unread(path, "it is no plain file")])
            return stream.read(most + 1)
    except OSError as error:
        raise InputProblems([_unread(path, error.strerror or "check the name")]) from None


def parse(raw: bytes | str, *, name: str) -> tuple[str, dict[str, Any]]:
    """Return the text of a file called `name` and the tables in it.

    Raises:
        InputProblems: it is over a limit, or not text, or not TOML.
    """
    text = _decode(raw, name)
    broken = next(_over_limits(text), None)
    if broken is not None:
        raise InputProblems([_refused(name, f"must not have {broken}", "is it the right file?")])
    try:
        return text, tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        raise InputProblems([_refused(name, "is not TOML", str(error)[:120])]) from None


def _unread(path: Path, remedy: str) -> Problem:
    return _refused(str(path), "cannot be read", remedy)


def _refused(where: str, limit: str, remedy: str) -> Problem:
    return Problem(where=where, value="", limit=limit, remedy=remedy)


def _without_waiting(path: str, flags: int) -> int:
    """Open a file that another program may have turned into a pipe since it was looked at."""
    return os.open(path, flags | getattr(os, "O_NONBLOCK", 0))


def _decode(raw: bytes | str, name: str) -> str:
    """Return the text of a file, refusing what is too large or not text."""
    data = raw.encode("utf-8", "surrogatepass") if isinstance(raw, str) else raw
    if len(data) > FILE_SIZE_LIMIT:
        limit = f"must not be larger than {FILE_SIZE_LIMIT // 1024} KB"
        raise InputProblems([_refused(name, limit, "is it the right file?")])
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise InputProblems([_refused(name, "is not UTF-8 text", "is it the right file?")]) from None


def _over_limits(text: str) -> Iterator[str]:
    """Yield each limit that a text is over, cheapest first."""
    if text.count("\n") >= MOST_LINES:
        yield f"more than {MOST_LINES} lines"
    if max(map(len, text.split("\n"))) > LONGEST_LINE:
        yield f"a line of more than {LONGEST_LINE} characters"
    if text.count('"') + text.count("'") > MOST_QUOTES:
        yield f"more than {MOST_QUOTES} quotation marks"
    bare = _TEXTS.sub('"', text)
    if bare.count("=") > MOST_KEYS:
        yield f"more than {MOST_KEYS} keys"
    if sum(map(bare.count, ",[{")) > MOST_ENTRIES:
        yield f"more than {MOST_ENTRIES} entries"
    words = _BREAK.split(bare)
    if max(word.count(".") for word in words) >= DEEPEST:
        yield f"a key of more than {DEEPEST} parts"
    if max(map(len, words)) > LONGEST_WORD:
        yield f"a key or a number of more than {LONGEST_WORD} characters"
    if _depth(_BRACKETS.sub("", bare)) > DEEPEST:
        yield f"more than {DEEPEST} lists or tables within each other"


def _depth(brackets: str) -> int:
    """Return how deep brackets nest; those of a table's header close on their own line.

    >>> _depth("[{}[]][]")
    2
    """
    deepest = depth = 0
    for bracket in brackets:
        if bracket in "[{":
            depth += 1
            deepest = max(deepest, depth)
        elif bracket in "]}":
            depth -= 1
    return deepest
