"""What was packed comes back; what was cut, changed or swollen on its way is refused with a sentence."""

import base64
import zlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conemodel.base.errors import InputProblems
from conemodel.parts.foreign_file import FILE_SIZE_LIMIT
from conemodel.ui.packed_text import LONGEST_ADDRESS, pack, unpack
from tests.hostile import HOSTILE


def packed(data: bytes) -> str:
    return base64.urlsafe_b64encode(zlib.compress(data, 9)).decode().rstrip("=")


@given(st.text(st.characters(exclude_categories=["Cs"])))
def test_a_text_comes_back_as_it_was(text: str) -> None:
    assert unpack(pack(text), name="it") == text


@given(st.text(st.characters(exclude_categories=["Cs"]), min_size=1), st.data())
def test_cut_anywhere_it_is_refused(text: str, data: st.DataObject) -> None:
    """The format ends with a sum of the text (RFC 1950): no beginning of it is whole."""
    whole = pack(text)
    # without its padding, the last characters of a text may hold no more than idle bits
    kept = data.draw(st.integers(0, len(whole) - 3))
    with pytest.raises(InputProblems, match="it: was cut short or changed"):
        unpack(whole[:kept], name="it")


HOSTILE_PACKS = {
    **HOSTILE,
    "swells": packed(b"\0" * 4_000_000),
    "a little too large": packed(b"a" * (FILE_SIZE_LIMIT + 1)),
    "no text": packed(b"\xff\xfe\x00"),
    "long": "A" * (LONGEST_ADDRESS + 1),
    "surrogate": "\ud800",
    "empty": "",
}


@pytest.mark.parametrize("text", HOSTILE_PACKS.values(), ids=list(HOSTILE_PACKS))
def test_what_was_not_packed_is_refused_in_a_sentence(text: str) -> None:
    with pytest.raises(InputProblems, match="it: was cut short or changed"):
        unpack(text, name="it")


def test_the_largest_file_is_let_through() -> None:
    assert unpack(packed(b"a" * FILE_SIZE_LIMIT), name="it") == "a" * FILE_SIZE_LIMIT
