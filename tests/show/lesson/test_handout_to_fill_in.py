"""The handout to fill in holds what the wall shows before the first question, a scale to draw on, and no answer."""

import re
from dataclasses import replace

import pytest

from conemodel.show.lesson.guess_frame import HIGH, LOW, STEP
from conemodel.show.lesson.handout import KEY, handout_figure
from conemodel.show.lesson.wording import known_words
from conemodel.tasks.lesson.lesson import Played, View, view_of
from conemodel.tasks.lesson.position import positions
from tests.show.lesson.told import EVERY, played


def texts(tale: Played, *, answers: bool) -> list[str]:
    figure = handout_figure(tale, answers=answers)
    found = [*figure.texts, *(text for axes in figure.axes for text in axes.texts)]
    return [" ".join(text.get_text().split()) for text in found]


def before_questions(tale: Played) -> list[View]:
    """Return what the wall shows while the class commits, question by question."""
    asked = [at for at in positions(tale.story) if at.revealed and view_of(tale, at).options]
    return [view_of(tale, replace(at, revealed=False)) for at in asked]


@pytest.mark.parametrize("name", EVERY)
def test_what_the_wall_tells_before_the_first_question_is_on_it_and_nothing_measured_later(name: str) -> None:
    tale = played(name)
    views = before_questions(tale)
    written = texts(tale, answers=False)
    for side in views[0].sides:
        assert known_words(side) in written
    later = [
        now.caption
        for now, first in zip(views[-1].sides, views[0].sides, strict=True)
        if known_words(now) != known_words(first)
    ]
    gauged = [words for words in written if words.startswith("locked, by gauge")]
    assert len(gauged) == sum("gauge" in known_words(side) for side in views[0].sides)
    for caption in later:
        assert any(re.match(rf"Measured by then, from the wall, {caption}: \.+", words) for words in written)


def test_the_quick_release_story_can_be_answered_from_the_sheet() -> None:
    written = texts(played("quick-release-or-nuts"), answers=False)
    assert [words for words in written if words.startswith("locked, ")] == [
        "locked, by gauge 0.06 ±0.01 mm",
        "locked, by gauge 0.05 ±0.01 mm",
    ]


def test_both_boxes_have_the_same_scale_for_every_story() -> None:
    """A scale fitted to a story would say how far its play goes."""
    for name in ("quick-release-or-nuts", "held-or-unheld-cone"):
        figure = handout_figure(played(name), answers=False)
        frames = [axes for axes in figure.axes if axes.get_xlim() == (LOW, HIGH)]
        assert len(frames) == 2
        for axes in frames:
            numbers = [text for text in axes.texts if re.fullmatch(r"-?\d\.\d", text.get_text())]
            assert [float(text.get_text()) for text in numbers] == [
                pytest.approx(text.get_position()[0], abs=1e-9) for text in numbers
            ]
            assert len(numbers) == round((HIGH - LOW) / STEP) - 1


def test_a_key_says_what_band_line_and_hatching_are() -> None:
    for answers in (True, False):
        said = " ".join(texts(played("quick-release-or-nuts"), answers=answers))
        assert (KEY in said) is answers
