"""A table declared once: its columns with name, unit and format; here as CSV and as rows for JSON.

It lies in base because the record room writes its attempts with it as well, which may not use `show`; `show.tables`
sets the same declaration for reading, on a page and in a terminal.
"""

import csv
import io
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import KW_ONLY, dataclass, replace
from operator import itemgetter
from typing import Any, Generic, TypeVar

import numpy as np

from conemodel.base.plain_text import for_csv
from conemodel.base.units import Unit

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Column(Generic[T]):
    """One column. It stands in files where it has a `key`, in a terminal or on a page where it has a heading there.

    Attributes:
        value: takes it out of a record: a number in SI, words, or an array or list with one entry a line.
        unit: in which numbers are given; None leaves a value as it is.
        key: its name in CSV and JSON, with the unit's suffix in it.
        digits: format of a number in CSV; empty does not round.
        text: heading in a terminal; may be empty.
        page: heading on a page; may be empty.
        form: format of a number for reading, in the unit.
        say: words for a value in SI on a page, where `form` does not do.
        left: set to the left in a terminal, as words are.
        holds: tells whether the model says anything of a record, or of each of its lines; where it does not, the cell
            is empty in CSV, and says so for reading.
    """

    value: Callable[[T], Any]
    unit: Unit | None = None
    key: str = ""
    _: KW_ONLY
    digits: str = ""
    text: str | None = None
    page: str | None = None
    form: str = ""
    say: Callable[[Any], str] | None = None
    left: bool = False
    holds: Callable[[T], Any] | None = None

    def values(self, record: T) -> list[Any]:
        """Return what a record has in this column, in its unit: plain numbers, never a negative zero, or words."""
        found = self.value(record)
        if self.unit is not None:
            found = (np.asarray(found, dtype=np.float64) * self.unit.per_si + 0.0).tolist()
        return found if isinstance(found, list) else [found]

    def where_it_holds(self, cells: list[Any], record: T, *, instead: Any) -> list[Any]:
        """Return the cells of a record with `instead` where the model says nothing."""
        if self.holds is None:
            return cells
        valid = np.atleast_1d(self.holds(record)).tolist()
        return [cell if holds else instead for cell, holds in zip(cells, valid, strict=True)]


def only_where(holds: Callable[[T], Any], columns: Sequence[Column[T]]) -> tuple[Column[T], ...]:
    """Return columns that are filled only where the model `holds`."""
    return tuple(replace(column, holds=holds) for column in columns)


@dataclass(frozen=True, slots=True)
class Table(Generic[T]):
    """Columns, and the records that fill them: a record gives one line, or as many as its arrays are long.

    Attributes:
        columns: from left to right.
        records: from top to bottom; may come one by one.
        caption: what the table is, for a page.
        words: most of it is words, which stand to the left on a page.
    """

    columns: Sequence[Column[T]]
    records: Iterable[T]
    _: KW_ONLY
    caption: str = ""
    words: bool = False


Words = tuple[str, ...]
"""What stands in one line of a table that is words already."""


def table_of_words(caption: str, heads: Words, lines: Iterable[Words], *, words: bool = True) -> Table[Words]:
    """Return lines of words below their headings as a table for a page; `words` as in `Table`.

    >>> listed = table_of_words("Hubs", ("Hub", "Rocked"), [("loose", "a knock")])
    >>> [column.values(listed.records[0]) for column in listed.columns]
    [['loose'], ['a knock']]
    """
    columns: tuple[Column[Words], ...] = tuple(
        Column(itemgetter(at), page=head) for at, head in enumerate(heads)
    )
    return Table(columns, tuple(lines), caption=caption, words=words)


def rows(table: Table[T]) -> list[dict[str, Any]]:
    """Return the lines of a table by the keys of its columns, for JSON; numbers are not rounded.

    >>> from math import pi
    >>> from conemodel.base.units import DEG
    >>> rows(Table((Column(lambda angle: angle, DEG, "cone_deg"),), [0.0, pi]))
    [{'cone_deg': 0.0}, {'cone_deg': 180.0}]
    """
    kept = [column for column in table.columns if column.key]
    keys = [column.key for column in kept]
    return [
        dict(zip(keys, line, strict=True))
        for record in table.records
        for line in lines([column.values(record) for column in kept])
    ]


def csv_text(table: Table[T]) -> str:
    r"""Return a table as CSV: a line of keys, then its lines; numbers are not rounded unless their column says so.

    >>> from conemodel.base.units import MM
    >>> csv_text(Table((Column(str, key="a"), Column(float, MM, "b_mm")), ["1", "2"]))
    'a,b_mm\n1,1000.0\n2,2000.0\n'
    """
    return "".join(csv_pieces(table))


def csv_pieces(table: Table[T]) -> Iterator[str]:
    """Yield that CSV in pieces: the line of keys, then the lines of one record after the other."""
    kept = [column for column in table.columns if column.key]
    yield _csv([[column.key for column in kept]])
    for record in table.records:
        cells = [column.where_it_holds(_filed(column, record), record, instead=None) for column in kept]
        yield _csv(lines(cells))


def lines(columns: Sequence[list[Any]]) -> Iterator[tuple[Any, ...]]:
    """Yield what stands beside one another in columns; a column of one entry has it in every line."""
    most = max((len(column) for column in columns), default=0)
    return zip(*(column * most if len(column) == 1 else column for column in columns), strict=True)


def _csv(cells: Iterable[Sequence[Any]]) -> str:
    stream = io.StringIO()
    csv.writer(stream, lineterminator="\n").writerows(cells)
    return stream.getvalue()


def _filed(column: Column[T], record: T) -> list[Any]:
    """Return a column's entries as they stand in CSV; every text of every CSV passes here."""
    found = column.values(record)
    if column.digits:
        return [format(value, column.digits) for value in found]
    return [for_csv(value) for value in found] if column.unit is None else found
