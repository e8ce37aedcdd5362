"""Tables set for reading, from their declaration: as text for a terminal and as HTML for a page."""

from typing import Any, Literal, TypeVar

from conemodel.base.plain_text import for_html, one_line
from conemodel.base.table import Column, Table, lines
from conemodel.show.formatting import typeset

T = TypeVar("T")

NOT_VALID = "not valid"
"""Stands for a number where the balls leave their races and the model says nothing."""


def table_text(table: Table[T], *, turned: bool = False) -> str:
    """Return a table for a terminal; `turned` sets its columns one below the other, each with its heading first."""
    cells = _cells(table, "text", turned=turned)
    lefts = [column.left for column in table.columns if column.text is not None]
    left = [at == 0 for at in range(len(cells[0]))] if turned else lefts
    widths = [max(map(len, column)) for column in zip(*cells, strict=True)]

    def line(row: tuple[str, ...]) -> str:
        padded = (
            cell.ljust(width) if words else cell.rjust(width)
            for cell, width, words in zip(row, widths, left, strict=True)
        )
        return "  ".join(padded).rstrip()

    head, *body = cells
    return "\n".join((line(head), "  ".join("-" * width for width in widths), *map(line, body)))


def table_html(table: Table[T], *, turned: bool = False) -> str:
    """Return a table for a page, that a screen reader can read and that scrolls by itself on a phone."""
    head, *body = _cells(table, "page", turned=turned)
    top = "".join(f'<th scope="col">{for_html(cell)}</th>' for cell in head)
    lower = "".join(
        f'<tr><th scope="row">{for_html(first)}</th>{"".join(f"<td>{for_html(cell)}</td>" for cell in rest)}</tr>'
        for first, *rest in body
    )
    kind = "cm-table cm-words" if table.words else "cm-table"
    return (
        f'<div class="{kind}" role="region" tabindex="0" aria-label="{for_html(table.caption)}">'
        f"<table><thead><tr>{top}</tr></thead><tbody>{lower}</tbody></table></div>"
    )


def _cells(table: Table[T], place: Literal["text", "page"], *, turned: bool) -> list[tuple[str, ...]]:
    """Return all cells in words, the line of headings first."""
    kept = [column for column in table.columns if getattr(column, place) is not None]
    read = _on_page if place == "page" else _in_terminal
    cells = [tuple(getattr(column, place) for column in kept)]
    for record in table.records:
        words = [column.where_it_holds(read(column, record), record, instead=NOT_VALID) for column in kept]
        cells += lines(words)
    return list(zip(*cells, strict=True)) if turned else cells


def _in_terminal(column: Column[T], record: T) -> list[str]:
    cells = [format(value, column.form) for value in column.values(record)]
    return [cell if cell.isprintable() else one_line(cell) for cell in cells]


def _on_page(column: Column[T], record: T) -> list[str]:
    if column.say is None:
        return [_typeset(value, column.form) for value in column.values(record)]
    found = column.value(record)
    return [column.say(value) for value in (found if isinstance(found, list) else [found])]


def _typeset(value: Any, form: str) -> str:
    return value if isinstance(value, str) else typeset(format(value, form))
