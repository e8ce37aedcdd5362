"""Numbers as typed: whatever is typed is read or refused in words. The limits are the project's own."""

import contextlib
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conemodel.base.typed_numbers import TURN_FORMS, parse_turn, parse_whole

LONG = "1" + "0" * 400


@pytest.mark.parametrize(
    "text",
    [f"{LONG}/1", f"1/{LONG}", f"{LONG} 1/2", LONG, f"{LONG}deg", "1e308", "inf", "nan", "1/0", "", "1//2"],
)
def test_what_is_no_turn_is_told_the_forms(text):
    with pytest.raises(ValueError, match="fraction of a turn") as refused:
        parse_turn(text)
    assert str(refused.value) == TURN_FORMS


@given(st.text(alphabet="0123456789./ -+e°deginf", max_size=500))
def test_whatever_is_typed_is_a_finite_turn_or_refused(text):
    with contextlib.suppress(ValueError):
        assert math.isfinite(parse_turn(text))


@pytest.mark.parametrize("text", ["", "-1", "1.0", "1e3", "²", "٣", LONG, "0" * 400 + "11", "9" * 5000])
def test_what_is_no_whole_number_in_range_is_told_the_limits(text):
    with pytest.raises(ValueError, match="must be a whole number from 1 to 10"):
        parse_whole(text, least=1, most=10)


@pytest.mark.parametrize(("text", "number"), [("1", 1), ("10", 10), ("0" * 400 + "7", 7), (" 3 ", 3)])
def test_a_whole_number_in_range_is_read(text, number):
    assert parse_whole(text, least=1, most=10) == number
