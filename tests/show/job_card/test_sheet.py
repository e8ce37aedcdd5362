"""A job card on paper: all that was answered, lines for what was not, and never that a wheel is safe."""

import re

import pytest
from hypothesis import given, settings
from matplotlib.text import Text

from conemodel.show.job_card.sheet import CUT, FOLD, card_figure, card_pdf
from conemodel.show.job_card.sheet_rows import answer_words, rows_of
from conemodel.show.paper.sheet import PAPERS
from conemodel.show.setting.text import CAUTION
from conemodel.tasks.job_card.card import Entry, Place, Value
from conemodel.tasks.job_card.step import MOST_ROUNDS, Amount, Choice, Day
from conemodel.tasks.job_card.steps import STEPS, places_of
from conemodel.tasks.job_card.stops import headline_of_card
from tests.show.paper.pdf_paths import page_size
from tests.show.paper.words import boxes, off_the_sheet, overlapping, said
from tests.tasks.job_card.cards import BEGUN, REAR, card_with
from tests.tasks.job_card.random_cards import cards

LONG = "Łukasz Ξενοφών Очень-Длинное-Имя-без-пробела-и-без-конца 明 "


def value_for(step):
    """Return the longest answer that a step takes."""
    match step:
        case Choice():
            return max(step.choices, key=len)
        case Amount():
            return int(step.most) if step.whole else step.most
        case Day():
            return "2026-12-31"
    return (LONG * 40)[: step.longest].strip()


def card_of_everything():
    answers = {
        "/".join(filter(None, place)): value_for(step)
        for step in STEPS.values()
        for place in step.places(MOST_ROUNDS)
    }
    kind = {
        "brake": "disc",
        "held_by": "nuts",
        "axle_nuts": "torque wrench",
        "locknut": "torque wrench",
    }
    return card_with(answers | REAR | kind)


CARDS = {
    "empty": card_with({}),
    "begun": card_with(
        REAR | {"tag": "0417", "turn/1": -15, "outcome/1": "loose", "cone/left": "pale track"}
    ),
    "everything": card_of_everything(),
}


@pytest.mark.parametrize("name", CARDS)
def test_nothing_lies_over_anything_or_off_the_sheet(name):
    figure = card_figure(CARDS[name])
    assert overlapping(figure) == []
    assert off_the_sheet(figure, margin_mm=3) == []
    assert page_size(card_pdf(CARDS[name])) == pytest.approx(PAPERS["A5"], abs=0.1)


@pytest.mark.filterwarnings("ignore:Glyph .* missing from font")  # a font has not every letter there is
@settings(max_examples=5, deadline=None)
@given(cards(most=40))
def test_whatever_stands_on_a_card_stays_apart_and_on_the_sheet(card):
    figure = card_figure(card)
    assert overlapping(figure) == []
    assert off_the_sheet(figure, margin_mm=3) == []


def test_every_answer_that_stands_is_in_its_row_and_all_rows_find_room():
    card = card_of_everything()
    rows = list(rows_of(card))
    for place in places_of(card):
        step = STEPS[place.step]
        if step.each != "round" and not step.written:
            answer = answer_words(card, step, place.where)
            assert any(row.words == step.words and answer in row.cells for row in rows)
    assert "more stands on the card" not in said(card_figure(card))


def test_steps_that_do_not_apply_are_absent_and_open_ones_are_lines():
    rows = {row.words: row.cells for row in rows_of(card_with(REAR))}
    assert STEPS["rotor"].words not in rows  # a rim brake has none
    assert rows[STEPS["cone"].words] == ("", "")
    count = len(card_figure(card_with(REAR)).axes[0].lines)
    assert len(card_figure(card_with(REAR | {"cone/left": "good"})).axes[0].lines) == count - 1


def test_a_correction_shows_what_stands_and_not_what_was():
    card = card_with({"tag": "0417", "rim_mark": "red cap"})
    card = card.with_entry(Entry(at=BEGUN, by="Ada", place=Place("rim_mark"), value="green cap"))
    words = said(card_figure(card))
    assert "green cap" in words
    assert "red cap" not in words


def test_both_halves_and_the_tag_have_what_they_are_for():
    answers: dict[str, Value] = {
        "tag": "0417",
        "recheck_on": "2026-12-10",
        "recheck_after": 100,
        "balls": "all new",
    }
    answers |= {"turn/1": 11, "advice/1": "out by 11 minutes", "outcome/1": "right"}
    figure = card_figure(card_with(REAR | answers))
    parts: list[list[str]] = [[], [], []]
    for text in figure.findobj(Text):
        if text.get_text() and isinstance(text.get_position()[1], float):
            y = text.get_position()[1]
            parts[int(y > FOLD) + int(y > CUT)].append(text.get_text())
    workshop, customer, tag = (" ".join(part) for part in parts)
    assert "Round 1: 11 min out (anticlockwise) right advised: out by 11 minutes" in workshop
    for words in ("2026-12-10 or after 100 km", "all new", "After the first ride", "Received", CAUTION):
        assert words in customer
    for words in ("0417", "rear wheel", "2026-12-10 or after 100 km"):
        assert words in tag


def test_what_forbids_riding_stands_on_every_part_and_nothing_is_called_safe():
    figure = card_figure(card_with(REAR | {"tag": "0417", "brake_works": "no"}))
    heights = [box.y0 / figure.dpi * 25.4 for words, box in boxes(figure) if "Do not ride" in words]
    parts = {int(210 - up > FOLD) + int(210 - up > CUT) for up in heights}
    assert parts == {0, 1, 2}
    for card in (*CARDS.values(), card_with(REAR)):
        assert not re.search(r"\bsafe\b", said(card_figure(card)))


def test_a_letter_that_cannot_be_drawn_is_a_box_and_the_same_card_gives_the_same_file():
    card = card_with({"customer": "Zoë 明"})
    assert "Zoë □" in said(card_figure(card))
    assert card_pdf(card) == card_pdf(card)
    assert b"Date" not in card_pdf(card)


STOPS: dict[str, Value] = {
    "brake_works": "no", "lever": "light", "far_locked": "no", "play_closed": "clear", "turning": "not tried",
    "rim_central": "not looked", "axle_thread/left": "damaged", "advice_given": "do not ride", "cone/left": "pitted",
}  # fmt: skip


def test_nothing_of_a_stop_and_of_the_risk_of_a_turn_is_cut():
    advice = "As measured, turn it 6 minutes (36°) in (clockwise) from the pen line: right on 9, too tight on 1 of 10."
    card = card_with(REAR | STOPS | {f"advice/{place}": f"{place}: {advice}" for place in (1, 2, 3)})
    headline, words = headline_of_card(card), said(card_figure(card))
    assert len(headline.stops) > 6
    for answer in (headline.answer, *headline.stops):
        assert f"{answer.head} {answer.act}".strip() in words
        assert words.count(answer.head) >= 2  # on the customer's half too
    for place in (1, 2, 3):
        assert f"advised: {place}: {advice}" in words
    assert overlapping(card_figure(card)) == []


def test_the_risk_of_the_last_turn_is_whole_however_much_else_stands():
    card = card_of_everything()
    assert f"advised: {card.text('advice', str(MOST_ROUNDS))}" in said(card_figure(card)).replace("□", "明")


def test_a_length_not_measured_is_a_line_to_write_on():
    rows = {row.words: row.cells for row in rows_of(card_with(REAR))}
    assert rows[STEPS["fixed_protrusion"].words] == ("",)
