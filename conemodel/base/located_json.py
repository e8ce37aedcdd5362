"""JSON from elsewhere, each value with the line it stands on, so that a mistake in a long file can be found.

Stricter than JSON must be: no name twice in an object, no endless number, no half of a letter.
No pattern here can backtrack: every repetition is possessive.
"""

import json
import re
from bisect import bisect_right
from typing import NamedTuple

from conemodel.base.errors import InputProblems, Problem
from conemodel.base.plain_text import visible

DEEPEST = 8
"""Most lists and objects within each other."""

LONGEST_NUMBER = 40
"""Most characters of a number."""

_TOKEN = re.compile(
    r'[{}\[\],:]|"(?:[^"\\\x00-\x1f]|\\.)*+"'
    r"|-?+(?:0|[1-9][0-9]*+)(?:\.[0-9]++)?+(?:[eE][-+]?+[0-9]++)?+|true|false|null"
)
_BLANK = re.compile(r"[ \t\r\n]*+")
_SAID = re.compile(r"[^\r\n]{0,40}+")
_WORDS = {"true": True, "false": False, "null": None}


class Located(NamedTuple):
    """A value and the line on which it begins, from 1."""

    value: dict[str, "Located"] | list["Located"] | str | int | float | bool | None
    line: int


def read_json(raw: bytes | str, *, name: str, most: int) -> Located:
    """Return what is in the JSON of a file called `name`, of at most `most` bytes.

    Raises:
        InputProblems: it is too large, not UTF-8 text, not JSON or nested too deep, naming the line; names that stand
            twice in an object, all of them.
    """
    reader = _Reader(_decode(raw, name, most), name)
    found = reader.whole()
    if reader.problems:
        raise InputProblems(reader.problems)
    return found


def _decode(raw: bytes | str, name: str, most: int) -> str:
    """Return the text of a file, refusing what is too large or not text."""
    data = raw.encode("utf-8", "surrogatepass") if isinstance(raw, str) else raw
    if len(data) > most:
        limit = f"must not be larger than {most // 1024} KB"
        raise InputProblems([Problem(where=name, value="", limit=limit)])
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise InputProblems([Problem(where=f"{name}:{line}", value="", limit="is not UTF-8 text")]) from None


class _Reader:
    """Reads one text from its start to its end; `problems` holds what is wrong but does not end the reading."""

    def __init__(self, text: str, name: str) -> None:
        self.text, self.name, self.at = text, name, 0
        self.ends = [found.start() for found in re.finditer("\n", text)]
        self.problems: list[Problem] = []

    def whole(self) -> Located:
        """Return the one value of the text."""
        found = self.value(0)
        if self.next_at() < len(self.text):
            raise self.refused("must end here")
        return found

    def value(self, depth: int) -> Located:
        """Return the value that begins here, `depth` lists and objects deep."""
        if depth > DEEPEST:
            raise self.refused(f"must not have more than {DEEPEST} lists or objects within each other")
        at = self.next_at()
        token = self.token("a value")
        line = self.line(at)
        if token == "{":
            return Located(self.names_and_values(depth + 1), line)
        if token == "[":
            return Located(self.values(depth + 1), line)
        if token in _WORDS:
            return Located(_WORDS[token], line)
        if token[0] == '"':
            return Located(self.letters(token, at), line)
        if token in "}],:":
            raise self.refused("must be a value", at)
        return Located(self.number(token, at), line)

    def values(self, depth: int) -> list[Located]:
        """Return what stands in a list that was opened."""
        found: list[Located] = []
        if self.passes("]"):
            return found
        while True:
            found.append(self.value(depth))
            if not self.goes_on("]"):
                return found

    def names_and_values(self, depth: int) -> dict[str, Located]:
        """Return what stands in an object that was opened."""
        found: dict[str, Located] = {}
        if self.passes("}"):
            return found
        while True:
            at = self.next_at()
            token = self.token("a name in quotes")
            if token[0] != '"':
                raise self.refused("must be a name in quotes", at)
            name = self.letters(token, at)
            if not self.passes(":"):
                raise self.refused("must be : after a name")
            if name in found:
                where = f"{self.name}:{self.line(at)}: {name[:60]}"
                limit = f"stands twice, first on line {found[name].line}"
                self.problems.append(Problem(where=where, value="", limit=limit))
            found[name] = self.value(depth)
            if not self.goes_on("}"):
                return found

    def goes_on(self, end: str) -> bool:
        """Return whether a comma stands next, and not the end of a list or object."""
        if self.passes(","):
            return True
        if self.passes(end):
            return False
        raise self.refused(f"must be , or {end}")

    def letters(self, token: str, at: int) -> str:
        """Return the text within quotes."""
        try:
            text: str = json.loads(token) if "\\" in token else token[1:-1]
            text.encode()
        except ValueError:
            raise self.refused("must be text in quotes", at) from None
        return text

    def number(self, token: str, at: int) -> int | float:
        """Return a number."""
        if len(token) > LONGEST_NUMBER:
            raise self.refused(f"must not have more than {LONGEST_NUMBER} characters", at)
        return float(token) if set(token) & set(".eE") else int(token)

    def token(self, wanted: str) -> str:
        """Return the next word or sign, and go past it."""
        found = _TOKEN.match(self.text, self.next_at())
        if found is None:
            raise self.refused(f"must be {wanted}")
        self.at = found.end()
        return found[0]

    def passes(self, sign: str) -> bool:
        """Go past a sign if it stands next, and return whether it did."""
        at = self.next_at()
        there = self.text.startswith(sign, at)
        self.at = at + len(sign) * there
        return there

    def next_at(self) -> int:
        """Return where the next word or sign begins."""
        found = _BLANK.match(self.text, self.at)
        return self.at if found is None else found.end()

    def line(self, at: int) -> int:
        """Return the line of a place, from 1."""
        return bisect_right(self.ends, at - 1) + 1

    def refused(self, limit: str, at: int | None = None) -> InputProblems:
        """Return what ends the reading at a place, the next one where none is given."""
        place = self.next_at() if at is None else at
        said = _SAID.match(self.text, place)
        value = visible(said[0])[:60] if said and said[0] else "the end"
        return InputProblems([Problem(where=f"{self.name}:{self.line(place)}", value=value, limit=limit)])
