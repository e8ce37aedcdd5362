"""One scale of sizes: page, charts and the frame's settings share it, and nothing types another."""

import re
import tomllib

from conemodel.show.charts.vega_lite import axis, title, written
from conemodel.show.type_scale import COMPACT, FRONT, HEADING, LABEL, STATE, TEXT, TITLE, VALUE, type_style


def test_the_frame_is_set_in_the_scale(root):
    theme = tomllib.loads((root / ".streamlit/config.toml").read_text("utf-8"))["theme"]
    assert theme["baseFontSize"] == TEXT
    assert theme["headingFontSizes"][:3] == [f"{size}px" for size in (HEADING, VALUE, TITLE)]
    assert set(theme["headingFontSizes"][3:]) == {f"{TEXT}px"}


def test_a_page_knows_every_size_by_name_and_the_smaller_ones_of_a_telephone():
    wide, narrow = type_style().split("@media")
    assert sorted(map(int, re.findall(r"(\d+)px", wide))) == [
        LABEL,
        TEXT,
        TITLE,
        VALUE,
        HEADING,
        STATE,
        FRONT,
    ]
    assert [int(size) for size in re.findall(r": (\d+)px", narrow.split("{", 1)[1])] == [*COMPACT.values()]


def test_nothing_is_below_the_smallest_size():
    assert min(LABEL, *COMPACT.values()) == 13


def test_words_in_charts_are_of_the_scale():
    assert {axis()[part] for part in ("labelFontSize", "titleFontSize")} == {LABEL}
    assert title("Heading", 12)["fontSize"] == TITLE
    assert {layer["mark"]["fontSize"] for layer in written({})} == {LABEL}


def sizes_typed(root):
    """Yield file and size of every size of type that is a bare number."""
    for kind in ("py", "css"):
        for room in ("show", "ui"):
            for path in sorted((root / "conemodel" / room).rglob(f"*.{kind}")):
                for found in re.findall(r"font-size: ?([\d.]+(?:rem|px))", path.read_text("utf-8")):
                    yield path.name, found


def test_no_size_is_typed_a_second_time(root):
    assert list(sizes_typed(root)) == []
