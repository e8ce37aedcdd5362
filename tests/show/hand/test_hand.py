"""A measured hand in words and pictures. Expected words are spelt by hand from the numbers given."""

import csv
import io
from math import radians

import pytest

from conemodel.base.table import csv_text
from conemodel.show.hand.over_time import alt_text_over_time, list_hands, over_time_chart
from conemodel.show.hand.wording import bias_words, threshold_range_words, threshold_words, usual_words
from conemodel.show.tables import table_html
from conemodel.tasks.hand.estimate import Interval
from conemodel.tasks.hand.kinds import KINDS
from conemodel.tasks.hand.measured_hand import MeasuredHand
from tests.show.vega_lite import check_vega_lite


def hand(
    kind: str = "play", *, size: float = 0.0824e-3, bias: float = 0.01e-3, off: float = 0.03e-3
) -> MeasuredHand:
    """Return a hand with bias ± off and a threshold a third either way; a degree of cone for every 0.02 of its unit."""
    turn = radians(1) / KINDS[kind].unit.to_si(0.02)
    threshold = Interval(value=size, low=size / 1.5, high=size * 1.5)
    bias_ = Interval(value=bias, low=bias - off, high=bias + off)
    return MeasuredHand(
        kind=KINDS[kind],
        begun_at="2026-03-01T10:00:00+00:00",
        threshold=threshold,
        threshold_turn=threshold.through(lambda at: at * turn),
        bias=bias_,
        bias_turn=bias_.through(lambda at: at * turn),
        pairs=40,
        right=35,
    )


def test_a_threshold_is_told_with_two_figures_its_range_and_its_turn():
    assert threshold_words(hand()) == "You tell 0.082 mm at the rim"
    assert threshold_range_words(hand()) == "0.055 to 0.124 mm; 4° of cone, 3° to 6°"
    tight = hand("tightness", size=2.44e-3)
    assert threshold_words(tight) == "You tell 2.4 N·mm at the axle"
    assert threshold_words(hand("tightness", size=12.3e-3)) == "You tell 12 N·mm at the axle"


@pytest.mark.parametrize(
    ("bias", "said"),
    [
        (0.01e-3, "No bias that can be told (−0.026 to +0.046 mm, −1.3° to +2° of cone)."),
        (0.1e-3, "it has 0.100 mm, 5° of cone, more (+0.064 to +0.136 mm, +3° to +7° of cone)."),
        (-0.1e-3, "it has 0.100 mm, 5° of cone, less (−0.136 to −0.064 mm, −7° to −3° of cone)."),
    ],
)
def test_a_bias_is_named_only_where_its_range_leaves_zero_out(bias, said):
    assert bias_words(hand(bias=bias, off=0.036e-3)).removeprefix("Hub B feels like hub A when ") == said


def test_what_is_assumed_of_others_is_the_unknowns_usual_value():
    # FELT_AT_RIM, 0.1 mm; FELT_RIPPLE, 13 % of 20 N·mm, between torques on either side of it: 2.4
    assert "0.1 mm at the rim is assumed" in usual_words(KINDS["play"])
    assert "2.4 N·mm at the axle is assumed" in usual_words(KINDS["tightness"])


def test_the_chart_holds_every_sitting_with_its_range():
    hands = [hand(), hand(size=0.0622e-3)]
    spec = over_time_chart(hands)
    check_vega_lite(spec)
    rows = spec["data"]["values"]
    assert [row["threshold"] for row in rows] == pytest.approx([0.0824, 0.0622])
    assert all(row["low"] < row["threshold"] < row["high"] for row in rows)
    top = spec["layer"][1]["encoding"]["y"]["scale"]["domain"][1]
    assert top > max(row["high"] for row in rows)
    assert "2: You tell 0.062 mm at the rim, 0.041 to 0.093 mm; 3° of cone, 2° to 5°." in alt_text_over_time(
        hands
    )


def test_the_file_holds_every_number_in_its_unit():
    (row,) = csv.DictReader(io.StringIO(csv_text(list_hands([hand()]))))
    assert row["begun_at"] == "2026-03-01T10:00:00+00:00"
    assert float(row["threshold_mm"]) == pytest.approx(0.0824, rel=1e-3)
    assert float(row["threshold_turn_high_deg"]) == pytest.approx(0.0824 * 1.5 / 0.02, rel=1e-3)
    assert float(row["bias_low_mm"]) == pytest.approx(-0.02, rel=1e-3)
    assert (row["pairs"], row["right"]) == ("40", "35")
    assert "You tell 0.082 mm at the rim" in table_html(list_hands([hand()]))
