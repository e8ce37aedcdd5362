"""Tables set for reading: HTML that a screen reader can follow, text in columns. Laws of a table, no source."""

from xml.etree import ElementTree

import pytest

from conemodel.base.table import Column, Table, only_where
from conemodel.base.units import MM, NEWTON
from conemodel.show.formatting import newtons
from conemodel.show.tables import table_html, table_text

Row = tuple[str, float, float]
COLUMNS: tuple[Column[Row], ...] = (
    Column(lambda row: row[0], key="name", text="stage", page="Stage", left=True),
    Column(lambda row: row[1], MM, "end_play_mm", text="end play mm", page="End play mm", form="+.3f"),
    Column(lambda row: row[2], NEWTON, text="preload N", page="Preload", form=".0f", say=newtons),
    Column(lambda row: "only in a file", key="kept"),
)
ROWS: list[Row] = [("<locked>", -3.2e-5, 41.0), ("open", 0.0, 12345.0)]


@pytest.fixture
def table() -> Table[Row]:
    return Table(COLUMNS, ROWS, caption='Play & "preload"')


def test_a_page_has_headings_for_columns_and_rows_and_a_name(table: Table[Row]) -> None:
    region = ElementTree.fromstring(table_html(table))
    assert (region.get("role"), region.get("tabindex")) == ("region", "0")
    assert region.get("aria-label") == table.caption
    heads = region.findall("./table/thead/tr/th")
    assert [(head.text, head.get("scope")) for head in heads] == [
        ("Stage", "col"),
        ("End play mm", "col"),
        ("Preload", "col"),
    ]
    lines = region.findall("./table/tbody/tr")
    assert [[cell.text for cell in line] for line in lines] == [
        ["<locked>", "−0.032", "41 N"],
        ["open", "0.000", "12.3 kN"],
    ]
    assert all(line[0].tag == "th" and line[0].get("scope") == "row" for line in lines)


def test_words_stand_to_the_left_where_a_table_is_of_words(table: Table[Row]) -> None:
    assert ElementTree.fromstring(table_html(table)).get("class") == "cm-table"
    wordy = Table(COLUMNS, ROWS, words=True)
    assert ElementTree.fromstring(table_html(wordy)).get("class") == "cm-table cm-words"


def test_a_terminal_has_words_left_and_numbers_right(table: Table[Row]) -> None:
    assert table_text(table).splitlines() == [
        "stage     end play mm  preload N",
        "--------  -----------  ---------",
        "<locked>       -0.032         41",
        "open           +0.000      12345",
    ]


def test_a_turned_table_has_its_columns_one_below_the_other(table: Table[Row]) -> None:
    assert table_text(table, turned=True).splitlines() == [
        "stage        <locked>    open",
        "-----------  --------  ------",
        "end play mm    -0.032  +0.000",
        "preload N          41   12345",
    ]
    lines = ElementTree.fromstring(table_html(table, turned=True)).findall(".//tr")
    assert [line[0].text for line in lines] == ["Stage", "End play mm", "Preload"]


def test_where_the_model_says_nothing_it_says_so() -> None:
    table = Table(only_where(lambda row: row[1] < 0, COLUMNS), ROWS)
    assert table_text(table).splitlines()[-1] == "not valid    not valid  not valid"
    assert [cell.text for cell in ElementTree.fromstring(table_html(table)).findall(".//tr")[-1]] == [
        "not valid"
    ] * 3
