"""A fitted real hub in words, in its chart and on the page to print. Expected words are spelt by hand."""

import csv
import io
import math
from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest
from matplotlib.figure import Figure
from matplotlib.patches import Circle

from conemodel.base.table import csv_text
from conemodel.base.units import MINUTE
from conemodel.parts.library import SCENARIOS
from conemodel.parts.real_hub import load_real_hub
from conemodel.parts.toml_files import load_scenario
from conemodel.show.paper.dial import TEST_LINE
from conemodel.show.paper.files import to_pdf
from conemodel.show.real_hub.chart import alt_text_of_real_hub, real_hub_figure, real_hub_svg
from conemodel.show.real_hub.contradiction_words import contradiction_words
from conemodel.show.real_hub.over_weeks import PRACTICE, REAL, Once, list_over_weeks
from conemodel.show.real_hub.page_to_print import COLUMNS, DIAL, HOLE, ROWS, page_figure
from conemodel.show.real_hub.text import list_readings, list_told
from conemodel.show.real_hub.wording import (
    COUNTS_AS,
    headline_words,
    lock_words,
    misfit_words,
    told_words,
    untold_words,
)
from conemodel.show.setting.text import CAUTION
from conemodel.show.tables import table_html
from conemodel.tasks.hand.estimate import Interval
from conemodel.tasks.real_hub.contradictions import Contradiction
from conemodel.tasks.real_hub.fit import Fitted, fit_real_hub
from conemodel.tasks.real_hub.lock_at import LockAt
from conemodel.tasks.real_hub.readings import Felt, Reading, readings_in
from conemodel.tasks.real_hub.told import what_is_told
from tests.show.paper.pdf_paths import circles, lines, page_size
from tests.show.paper.words import overlapping

FOUND = load_real_hub(SCENARIOS / "real_hubs" / "practice-wheel.toml")


@lru_cache(maxsize=8)
def fit(*readings: Reading) -> Fitted:
    return fit_real_hub(load_scenario(SCENARIOS / "touring-rear.toml"), readings or readings_in(FOUND))


def play(minutes: float, state: str = "locked") -> Felt:
    (first,) = [each for each in readings_in(FOUND) if isinstance(each, Felt) and each.what == "play"][2:3]
    assert first.state == state
    return replace(first, count=MINUTE.to_si(minutes))


def test_what_is_known_of_the_hand_stands_largest_with_its_range():
    fitted = fit()
    told = what_is_told(fitted)["felt_play"]
    state, below = headline_words(told, fitted)
    value, low, high = (f"{at * 1e3:.2f}" for at in (told.now.value, told.now.low, told.now.high))
    assert state == f"You feel play from {value} mm at the rim"
    assert below.startswith(f"{low} to {high} mm; ")


def test_what_is_not_known_is_not_said_with_a_number():
    fitted = fit(play(8))
    told = what_is_told(fitted)
    state, below = headline_words(told["felt_play"], fitted)
    assert state == "Your threshold is not told yet"
    assert "cannot tell it apart from the slack of the cone's thread. Together, along the axle: 0." in below
    assert "Wanted: play with the nut loose" in below
    assert told_words(told["clamp_give"]) == untold_words(told["clamp_give"])
    assert told_words(told["clamp_give"]).startswith("Not told by these readings; assumed 0.0")


def test_a_reading_that_does_not_fit_is_named_with_its_number():
    good = readings_in(FOUND)
    wrong = [replace(each, count=MINUTE.to_si(19)) if place == 4 else each for place, each in enumerate(good)]
    fitted = fit(*wrong)
    said = misfit_words(fitted)
    assert "play from, locked, not clamped (19 min out)" in said
    assert "left out" in table_html(list_readings(fitted))
    assert misfit_words(fit()) == ""


def test_two_that_contradict_each_other_take_the_place_of_the_threshold():
    fitted = fit(play(5), play(16))
    state, below = headline_words(what_is_told(fitted)["felt_play"], fitted)
    assert state == "Your two counts differ by 11 minutes: count again"
    assert below == "Nobody can tell which is wrong, so no number rests on them."
    assert "5 min out" in misfit_words(fitted)
    assert "16 min out" in misfit_words(fitted)
    assert not any(one.told for one in what_is_told(fitted).values())


@pytest.mark.parametrize(
    ("kind", "minutes", "said"),
    [
        ("repeated", 15, "Your two counts differ by 15 minutes: count again"),
        ("clamping", -4, "Clamping cannot add play: rows swapped, or the clamp not closed?"),
        ("clamping", 0, "Clamping took no play: was the clamp closed?"),
        (
            "clamping",
            14,
            "Clamping took 14 minutes, which this hub cannot: count again, or is it another hub?",
        ),
        ("locking", -6, "Locking cannot add play: rows swapped, or the locknut not tight?"),
        ("drag past play", 5, "Drag 5 minutes further out than play cannot be: count both again"),
        (
            "beyond",
            0,
            "No hand assumed here would give such counts: find finger contact again, and count again",
        ),
    ],
)
def test_what_cannot_be_is_said_as_a_mechanic_would(kind, minutes, said):
    found = Contradiction(kind=kind, readings=(0, 1), apart=MINUTE.to_si(minutes))
    assert contradiction_words(found) == said


def test_the_tables_hold_every_reading_and_every_unknown():
    fitted = fit()
    assert table_html(list_readings(fitted)).count("<tr>") == 1 + len(fitted.readings)
    assert table_html(list_told(what_is_told(fitted))).count("<tr>") == 1 + 4


@pytest.mark.parametrize("dark", [False, True])
def test_the_chart_holds_a_line_for_each_state_and_a_mark_for_each_reading(dark):
    axes = real_hub_figure(fit(), dark=dark).axes[0]
    assert len(axes.containers) == len(fit().readings)
    thick = [line for line in axes.lines if line.get_linewidth() > 2]
    assert [line.get_linestyle() for line in thick] == [":", "-", "--"]
    steep = [np.diff(line.get_ydata())[0] / np.diff(line.get_xdata())[0] for line in thick]
    assert steep == pytest.approx([1 / 60] * 3)  # a thread of 1 mm, a sixtieth of a turn


def test_the_chart_is_told_in_words_and_drawn_without_a_date():
    said = alt_text_of_real_hub(fit())
    for words in (
        "locknut loose: just touching",
        "you feel play at +0.0",
        "play from, locked and clamped: 12 min out",
    ):
        assert words in said
    svg = real_hub_svg(fit(), dark=False, compact=True)
    assert svg.startswith("<svg")
    assert "<dc:date>" not in svg


def sheet() -> Figure:
    figure = page_figure()
    figure.canvas.draw()
    return figure


def test_dial_and_line_are_as_long_on_paper_as_they_say():
    """Read from the file as it is printed; a sheet of A4 is 210 mm by 297 mm (ISO 216)."""
    pdf = to_pdf(page_figure())
    assert page_size(pdf) == pytest.approx((210, 297), abs=0.1)
    hole, dial = sorted(circles(pdf), key=lambda circle: circle.diameter)
    assert (hole.diameter, dial.diameter) == pytest.approx((HOLE, DIAL), abs=0.1)
    assert (hole.x, hole.y) == pytest.approx((dial.x, dial.y), abs=0.01)
    beside = [math.dist(*line) for line in lines(pdf) if line[0][0] > dial.x + DIAL / 2 and line[0][1] < 115]
    assert [length for length in beside if 20 < length < 90] == [pytest.approx(TEST_LINE, abs=0.1)]


def test_the_minutes_of_the_dial_count_anticlockwise():
    axes = sheet().axes[0]
    texts = {text.get_text(): axes.transData.transform(text.get_position()) for text in axes.texts}
    middle = (texts["0"] + texts["30"]) / 2
    for minutes, way in (("0", (0, 1)), ("15", (-1, 0)), ("30", (0, -1)), ("45", (1, 0))):
        off = texts[minutes] - middle
        assert off / np.hypot(*off) == pytest.approx(way, abs=1e-6)


def test_every_word_lies_on_the_sheet_and_the_cautions_stand_on_it():
    figure = sheet()
    wide, high = figure.get_size_inches() * figure.dpi
    for text in figure.axes[0].texts:
        box = text.get_window_extent()
        assert 0.03 * wide < box.x0 < box.x1 < 0.97 * wide, text.get_text()
        assert 0.02 * high < box.y0 < box.y1 < 0.98 * high, text.get_text()
    said = " ".join(text.get_text().replace("\n", " ") for text in figure.axes[0].texts)
    assert CAUTION in said
    assert "Never force it" in said
    assert overlapping(figure) == []


def test_the_sheet_says_how_long_it_takes_what_stays_empty_and_where_the_dial_goes():
    axes = sheet().axes[0]
    said = " ".join(text.get_text().replace("\n", " ") for text in axes.texts)
    for words in (
        "Allow an hour",
        "In a lesson do 1 to 4",
        "What you never feel stays empty",
        "the dial comes off through its slit",
    ):
        assert words in said
    steps = [text for text in axes.texts if text.get_text().startswith("Allow an hour")]
    boxes = [text for text in axes.texts if text.get_text() == "Name"]
    assert steps[0].get_window_extent().y0 > boxes[0].get_window_extent().y1  # the steps end above the boxes


def test_a_mark_lies_half_a_step_from_its_count_and_the_words_say_so():
    fitted = fit(play(3))
    (mark,) = [line for line in real_hub_figure(fitted).axes[0].lines if line.get_marker() == "o"]
    assert np.asarray(mark.get_xdata())[0] == pytest.approx(2.5)
    assert "play first felt at 3 began between 2 and 3, so its mark lies at 2.5" in COUNTS_AS


def test_the_count_to_lock_at_is_said_with_its_range_and_chance():
    ends = Interval(value=MINUTE.to_si(10), low=MINUTE.to_si(9), high=MINUTE.to_si(11.5))
    said = lock_words(LockAt(count=MINUTE.to_si(10.5), ends=ends, right=0.86, tight=0.04))
    assert said.startswith("Lock this hub at about 10.5 min out (best count: 9 min out to 11.5 min out). ")
    assert "in the good range 86 times in 100, too tight 4 times" in said
    assert lock_words(None) == ""


def test_there_is_a_box_for_every_number_the_screen_asks_for():
    boxes = [each for each in sheet().axes[0].patches if not isinstance(each, Circle)]
    assert len(boxes) == len(ROWS) * len(COLUMNS) == 12


def test_it_is_one_page():
    pdf = to_pdf(page_figure())
    assert pdf.startswith(b"%PDF")
    assert pdf.count(b"/Type /Page ") == 1


def test_real_hubs_and_practice_stand_in_the_order_they_were_made_and_untold_numbers_stay_out():
    slack = Interval(value=0.0914e-3, low=0.082e-3, high=0.1e-3)
    goes = [
        Once(made_at="2026-03-08T10:00:00+00:00", where=REAL, hub="Touring rear", slack=slack),
        Once(made_at="2026-03-01T10:00:00+00:00", where=PRACTICE, threshold=slack),
    ]
    first, second = csv.DictReader(io.StringIO(csv_text(list_over_weeks(goes))))
    assert (first["where"], second["where"]) == (PRACTICE, REAL)
    assert float(second["slack_mm"]) == pytest.approx(0.0914)
    assert second["threshold_mm"] == first["slack_mm"] == ""
    page = table_html(list_over_weeks(goes))
    assert "0.09 (0.08 to 0.10)" in page
    assert "0.091 (0.082 to 0.100)" in page
    assert page.count("not told") == 4
