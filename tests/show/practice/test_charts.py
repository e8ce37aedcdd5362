"""Charts of practice. Expected values are sums: terms add up to the levels, an angle is a length over the lead."""

import re
from math import pi

import pytest

from conemodel.show.practice.charts import Done, alt_text_progress, hub_rows, progress_chart
from conemodel.show.waterfall.screen import waterfall_table
from conemodel.solve.stages.terms import Term
from conemodel.tasks.practice.hub_terms import window_for
from tests.show.vega_lite import check_vega_lite
from tests.tasks.practice.hubs import open_link

LEAD = 1e-3 / (2 * pi)
TERMS = (
    Term(key="finger", label="pinched by finger", length=-1e-5, assumed=True),
    Term(key="back_off", label="cone turned out", length=2e-4),
    Term(key="thread_slack", label="thread slack taken up", length=-6e-5),
    Term(key="drift", label="cone turned in with the nut", length=0.0),
    Term(key="axle_shortening", label="axle shortens under the clamp", length=-9e-5),
)
ATTEMPTS = [
    Done(when="2026-03-01T10:00:00+00:00", exercise="4", passed=False, off_turn=-0.5),
    Done(when="2026-03-02T10:00:00+00:00", exercise="4", passed=True, off_turn=0.0),
]


def test_the_terms_add_up_stage_by_stage():
    levels = {step.stage: step.end for step in hub_rows(TERMS, lead=LEAD) if step.kind == "level"}
    assert levels == pytest.approx({"backed_off": 1.9e-4, "locked": 1.3e-4, "clamped": 4e-5})


def test_what_changes_nothing_is_left_out_and_a_millimetre_is_a_turn():
    steps = hub_rows(TERMS, lead=LEAD)
    assert "cone turned in with the nut" not in [step.words for step in steps]
    assert next(s for s in steps if s.words == "cone turned out").angle == pytest.approx(0.2 * 2 * pi)


def test_the_waterfall_of_a_marked_hub_holds_its_terms_and_levels():
    bench = open_link("05-quick-release.chart.1", key="k")
    window, steps = window_for(bench.secret, bench.hub), hub_rows(TERMS, lead=LEAD)
    said = re.sub(r"<[^>]+>", " ", waterfall_table(steps, window=window, lead=LEAD))
    assert re.search(r"−0.060\s+−22°\s+thread slack taken up", said)
    assert re.search(r"0.040 play\s+14° out\s+Clamped\s", said)


def test_progress_is_valid_vega_lite_with_every_attempt_and_room_for_the_worst():
    chart = progress_chart(ATTEMPTS)
    check_vega_lite(chart)
    rows = chart["data"]["values"]
    assert [row["passed"] for row in rows] == ["not yet", "passed"]
    assert rows[0]["off"] == pytest.approx(-28.6479, abs=1e-3)
    low, high = chart["layer"][1]["encoding"]["y"]["scale"]["domain"]
    assert low < -28.6479 < high
    assert "1: 4, not yet, 29° too tight." in alt_text_progress(ATTEMPTS)


def test_a_round_that_passed_by_its_other_hubs_says_so_at_the_dot_of_its_worst():
    done = Done(when="2026-03-03T10:00:00+00:00", exercise="1", passed=True, off_turn=-0.471, hubs=4, right=3)
    (row,) = progress_chart([done])["data"]["values"]
    assert row["count"] == "3 of 4 right"
    assert "27° too tight, the worst of its hubs; 3 of 4 right." in alt_text_progress([done])
    (alone,) = progress_chart(ATTEMPTS[:1])["data"]["values"]
    assert (alone["count"], alone["words"]) == ("", "29° too tight")


def test_only_attempts_at_the_same_exercise_are_joined():
    (line,) = (layer for layer in progress_chart(ATTEMPTS)["layer"] if layer["mark"].get("type") == "line")
    assert line["encoding"]["detail"]["field"] == "exercise"


def test_no_attempt_is_a_chart_too():
    check_vega_lite(progress_chart([]))
