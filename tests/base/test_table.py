"""A declared table as CSV and rows. CSV is read back by the standard library's reader; the rest are laws of a table."""

import csv
import io
from collections.abc import Iterator

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from conemodel.base.table import Column, Table, csv_pieces, csv_text, only_where, rows
from conemodel.base.units import DEG, MM

PLAYS: tuple[Column[float], ...] = (
    Column(lambda play: "hub, left", key="which"),
    Column(lambda play: play, MM, "end_play_mm"),
    Column(lambda play: play, MM, "rounded_mm", digits=".2f"),
    Column(lambda play: play, MM, text="only for reading"),
)


def read(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text)))


def test_a_column_without_a_key_stands_in_no_file() -> None:
    table = Table(PLAYS, [1e-3, -2.5e-4])
    assert read(csv_text(table)) == [
        ["which", "end_play_mm", "rounded_mm"],
        ["hub, left", "1.0", "1.00"],
        ["hub, left", "-0.25", "-0.25"],
    ]
    assert rows(table)[1] == {"which": "hub, left", "end_play_mm": -0.25, "rounded_mm": -0.25}


@given(st.lists(st.floats(allow_nan=False, allow_infinity=False), min_size=2, max_size=5))
def test_numbers_are_read_back_as_they_were_and_zero_has_no_sign(numbers: list[float]) -> None:
    column: tuple[Column[float], ...] = (Column(lambda number: number, key="number"),)
    assert [float(line[0]) for line in read(csv_text(Table(column, numbers)))[1:]] == numbers
    angle: tuple[Column[list[float]], ...] = (Column(np.asarray, DEG, "angle_deg"),)
    assert "-0.0\n" not in csv_text(Table(angle, [[-0.0, 0.0]]))


def test_an_array_gives_a_line_an_entry_and_what_is_single_stands_in_all_of_them() -> None:
    columns: tuple[Column[tuple[str, list[float]]], ...] = (
        Column(lambda row: row[0], key="row"),
        Column(lambda row: np.array(row[1]), MM, "length_mm"),
    )
    table = Table(columns, [("left", [1e-3, 2e-3]), ("right", [3e-3])])
    assert [tuple(line.values()) for line in rows(table)] == [("left", 1.0), ("left", 2.0), ("right", 3.0)]
    with pytest.raises(ValueError, match=r"shorter|longer"):
        rows(Table((Column(lambda _: [1, 2], key="a"), Column(lambda _: [1, 2, 3], key="b")), [None]))


def test_a_piece_is_written_before_the_next_record_is_worked_out() -> None:
    worked_out = []

    def records() -> Iterator[float]:
        for play in (1e-3, 2e-3):
            worked_out.append(play)
            yield play

    pieces = csv_pieces(Table(PLAYS, records()))
    assert next(pieces).startswith("which,")
    assert worked_out == []
    assert "1.0" in next(pieces)
    assert worked_out == [1e-3]


@pytest.mark.parametrize("text", ['=HYPERLINK("x")', "+cmd", "-x", "@sum", "\tx"])
def test_no_text_is_run_by_a_spreadsheet(text: str) -> None:
    columns: tuple[Column[str], ...] = (
        Column(str, key="one"),
        Column(lambda words: [words, words], key="many"),
    )
    table = Table(columns, [text])
    for line in csv.DictReader(io.StringIO(csv_text(table))):
        assert line == {"one": f"'{text}", "many": f"'{text}"}
    # a number written as text runs nothing, and JSON is no spreadsheet
    assert csv_text(Table(columns, ["-5"])).splitlines()[1:] == ["-5,-5"] * 2
    assert rows(table)[0]["one"] == text


def test_where_the_model_says_nothing_a_cell_is_empty() -> None:
    modelled: tuple[Column[list[float]], ...] = (Column(lambda plays: plays, MM, "end_play_mm"),)
    position: tuple[Column[list[float]], ...] = (Column(lambda plays: plays, MM, "place_mm"),)
    columns = (*position, *only_where(lambda plays: np.array(plays) < 1.5e-3, modelled))
    assert read(csv_text(Table(columns, [[1e-3, 2e-3]])))[1:] == [["1.0", "1.0"], ["2.0", ""]]
