"""One function for each place that foreign text is put. What markup is comes from the targets' own parsers.

The page's parser runs in a browser and is tried there, in `tests/browser/test_foreign_text.py`.
"""

import csv
import json
import xml.etree.ElementTree as ET
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st
from matplotlib.cbook import is_math_text
from matplotlib.figure import Figure

from conemodel.base.errors import Problem
from conemodel.base.plain_text import (
    for_csv,
    for_file_name,
    for_html,
    for_page,
    for_picture,
    for_terminal,
    one_line,
    visible,
)
from tests.hostile import HOSTILE

TEXTS = st.text(
    st.characters(codec="utf-8") | st.sampled_from("$\\_*[]()<>:=+-@\x1b\x9b\u202e\n\t"), max_size=60
)


@given(TEXTS)
def test_nothing_unseen_is_left(text):
    """Unicode's own classes: no control but line and tab, no format character but the joiners of letters."""
    import unicodedata

    for letter in visible(text):
        assert letter in "\n\t\u200c\u200d" or unicodedata.category(letter) not in ("Cc", "Cs", "Zl", "Zp")
    assert not set(visible(text)) & set(
        "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200e\u200f\u061c"
    )
    assert len(one_line(text).splitlines()) <= 1


@given(TEXTS)
def test_what_is_written_out_is_read_back_by_json(text):
    """RFC 8259: an escape in a string stands for its character."""
    whole = json.dumps({"name": text}, ensure_ascii=False)
    assert json.loads(for_terminal(whole)) == {"name": text}


@given(TEXTS)
def test_html_gives_the_text_back_as_text(text):
    read = ET.fromstring(f'<a b="{for_html(text)}">{for_html(text)}</a>')
    assert len(read) == 0
    assert (read.text or "") == visible(text)


@given(TEXTS)
def test_a_picture_has_no_mathematics(text):
    """Matplotlib's own rule of what is mathematics; where nothing is, it drops the stroke before a dollar sign."""
    drawn = Figure().text(0, 0, for_picture(text)).get_text()
    assert not is_math_text(drawn)
    assert drawn.replace(r"\$", "$").removeprefix(" ") == visible(text).removeprefix(" ")


@given(TEXTS)
def test_no_cell_is_a_formula(text):
    stream = StringIO()
    csv.writer(stream).writerow([for_csv(text)])
    (cell,) = next(csv.reader(StringIO(stream.getvalue()), strict=True), [""])
    if cell.strip()[:1] in ("=", "+", "-", "@"):
        assert float(cell) == float(text)


@pytest.mark.parametrize("number", [-1.5, 2, None, True])
def test_a_number_stays_a_number(number):
    assert for_csv(number) is number


@pytest.mark.parametrize("text", HOSTILE.values(), ids=list(HOSTILE))
def test_a_file_name_is_letters_and_digits(text):
    assert set(for_file_name(text)) <= set("abcdefghijklmnopqrstuvwxyz0123456789-")


@pytest.mark.parametrize("text", HOSTILE.values(), ids=list(HOSTILE))
def test_a_mistake_is_said_on_one_line(text):
    said = str(Problem(where=text, value=text, limit="must be above 0"))
    assert said == one_line(said)


def test_own_words_are_left_as_they_are():
    words = "Rear, M10 × 1 (nine 1/4 in balls): 0.2 mm, the maker's - 50 % more."
    assert for_page(words) == for_html(words).replace("&#x27;", "'") == for_picture(words) == words
