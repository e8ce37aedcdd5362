"""The table of where the play went: numbers add up, bars stand where the numbers say, no meaning hangs on colour alone.

Expected values are sums and geometry: terms add up to end play, a band is the good range, 360° are one lead.
"""

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from conemodel.base.units import MM
from conemodel.parts.heat import Heat
from conemodel.show.waterfall.rows import rows_of_prediction
from conemodel.show.waterfall.screen import HEADING, bar_style, waterfall_table, where_the_play_went
from conemodel.tasks.setting.predict import predict

HALF = 5e-4
"""What a number written to 0.001 mm may be off by."""
PLACE = 0.02
"""How far places written to 0.01 % may miss each other."""


def rows(html):
    """Return the rows of the table: mm, degrees, words, and the marks in the track by class; of a range its end."""
    found = []
    for row in ElementTree.fromstring(html).iterfind(".//tbody/tr"):
        length, angle, words, track = row
        marks = {mark.get("class"): place(mark.get("style")) for mark in track}
        found.append((value(length.text), value(angle.text), words.text or "", marks))
    return found


def value(text):
    return values(text)[-1]


def values(text):
    """Return the numbers in words: what is squeezed or turned in is below nought, also the first of two alike."""
    found = re.findall(r"([-+]?[\d.]+)°?(?:\s(play|squeeze|out|in))?", (text or "").replace("−", "-"))
    return [float(size) * (-1 if (word or found[-1][1]) in ("squeeze", "in") else 1) for size, word in found]


def place(style):
    """Return left edge and width of a mark, in hundredths of the track."""
    found = dict(re.findall(r"(left|width):([\d.-]+)%", style or ""))
    return float(found["left"]), float(found.get("width", 0.0))


def bar_of(marks):
    """Return class, left and right end of the bar that moves the end play or shows a level."""
    (kind, (left, width)) = next((k, v) for k, v in marks.items() if re.search("cm-(opens|closes|level)", k))
    return kind, left, left + width


def test_the_terms_add_up_to_each_level_and_the_levels_are_the_end_plays(prediction):
    level, terms, levels = 0.0, 0, []
    for length, _, words, marks in rows(where_the_play_went(prediction)):
        if "good range" in words:
            assert length == pytest.approx(prediction.window.loose_edge * 1000, abs=HALF)
        elif "cm-level" in bar_of(marks)[0]:
            assert length == pytest.approx(level, abs=HALF * (terms + 1) + 1e-9)
            levels.append(length)
        else:
            level, terms = level + length, terms + 1
    ends = [stage.end_play * 1000 for name, stage in prediction.stages.items() if name != "contact"]
    assert levels == pytest.approx(ends, abs=HALF)


def test_a_bar_starts_where_the_last_one_ended_and_points_the_way_it_moved_the_cone(prediction, tight):
    for each in (prediction, tight):
        at = nought = None
        for length, _, words, marks in rows(where_the_play_went(each)):
            nought = marks["cm-nought"][0]
            if "good range" in words:
                continue
            kind, left, right = bar_of(marks)
            if "cm-level" in kind:
                assert nought == pytest.approx(left if length >= 0 else right, abs=PLACE)
                continue
            start, end = (left, right) if "cm-opens" in kind else (right, left)
            # a term under a nanometre is not drawn
            assert start == pytest.approx(nought if at is None else at, abs=2 * PLACE)
            assert (length > 0) == ("cm-opens" in kind)
            at = end


def test_all_bars_have_one_scale_and_lie_on_it(prediction, tight):
    for each in (prediction, tight):
        scales = []
        for length, _, _, marks in rows(where_the_play_went(each)):
            assert all(0 <= left <= left + width <= 100 for left, width in marks.values())
            widest = max(width for width in (marks[k][1] for k in marks))
            if abs(length) > 0.05 and not any("good" in k for k in marks):
                scales.append(widest / abs(length))
        assert len(scales) > 2
        assert scales == pytest.approx([scales[0]] * len(scales), rel=0.02)


def test_a_turn_of_the_cone_is_its_length_over_the_lead(touring):
    # M10 × 1: 1 mm is 360°
    for length, angle, *_ in rows(where_the_play_went(touring)):
        assert angle == pytest.approx(360 * length, abs=0.7)


def test_what_is_assumed_is_marked_beside_its_dashes(prediction):
    assumed = {term.label for stage in prediction.stages.values() for term in stage.terms if term.assumed}
    html = where_the_play_went(prediction)
    seen = [
        (words, "cm-assumed" in bar_of(m)[0]) for _, _, words, m in rows(html) if "good range" not in words
    ]
    assert {words.removeprefix("≈ ") for words, dashed in seen if dashed} <= assumed
    assert all(words.startswith("≈") == dashed for words, dashed in seen)
    assert "only assumed" in html
    sure = tuple(replace(step, assumed=False) for step in rows_of_prediction(prediction))
    assert "only assumed" not in waterfall_table(sure, window=prediction.window, lead=1e-3)


def test_the_band_is_the_good_range_behind_the_clamped_hub_only(prediction):
    bands = {words: marks.get("cm-good") for _, _, words, marks in rows(where_the_play_went(prediction))}
    width = bands["good range, clamped"]
    assert width is not None
    behind = [words for words, band in bands.items() if band == width]
    clamped = [step.words for step in rows_of_prediction(prediction) if step.stage == "clamped"]
    assert [words.removeprefix("≈ ") for words in behind] == [*clamped, "good range, clamped"]


def test_the_good_range_stands_among_the_places_by_its_edges_and_not_by_its_width(prediction, tight):
    """Every level beside it is a place of the cone; M10 × 1: 1 mm is 360°."""
    for each in (prediction, tight):
        edges = [MM.from_si(edge) for edge in (each.window.tight_edge, each.window.loose_edge)]
        *_, (length, angle, _, _) = ElementTree.fromstring(where_the_play_went(each)).iterfind(".//tbody/tr")
        assert values(length.text) == pytest.approx(edges, abs=HALF)
        assert values(angle.text) == pytest.approx([360 * edge for edge in edges], abs=0.7)


def test_a_tight_hub_is_told_with_its_preload(tight):
    clamped = next(
        words for _, _, words, _ in rows(where_the_play_went(tight)) if words.startswith("Clamped")
    )
    (force,) = re.findall(r"preload (\d+) N", clamped)
    assert float(force) == pytest.approx(tight.stages["clamped"].preload, rel=0.05)  # to two figures


def test_words_cannot_become_markup(touring):
    steps = (replace(rows_of_prediction(touring)[0], words="<b>&"),)
    assert "&lt;b&gt;&amp;" in waterfall_table(steps, window=touring.window, lead=1e-3)


def test_the_same_result_gives_the_same_table(touring):
    assert where_the_play_went(touring) == where_the_play_went(touring)
    assert HEADING in where_the_play_went(touring)


def test_opening_and_closing_bars_are_hatched_apart():
    style = bar_style(dark=False)
    hatches = re.findall(r"cm-(opens|closes) \{background: repeating-linear-gradient\((-?\d+)deg", style)
    assert sorted(hatches) == [("closes", "-45"), ("opens", "45")]


def test_riding_leaves_the_play_as_it_was_unless_heat_changes_it(prediction):
    cold = rows_of_prediction(prediction)[-1]
    assert cold.words.endswith("the same")
    warm = rows_of_prediction(predict(prediction.scenario.replace(heat=Heat(shell_warming=60.0))))[-1]
    assert not warm.words.endswith("the same")
    assert warm.length < cold.length
