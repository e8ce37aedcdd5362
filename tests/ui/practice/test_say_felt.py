"""The line from loose to tight: no answer before it is marked, and no tight hub may be called right."""

from tests.ui.practice.trainee import Trainee


def test_an_untouched_line_is_no_answer_and_a_broken_rule_is_named() -> None:
    trainee = Trainee(link="02-loose-right-tight.evening.5")
    trainee.rock().twirl().choose("How sure", "sure")
    said = next(button for button in trainee.app.button if button.label == "That is what I felt")
    assert said.disabled
    assert "it stands unmarked" in " ".join(caption.value for caption in trainee.app.caption)
    for _ in range(8):
        trainee.rock().twirl().say(0, "sure")
    assert "Rule broken:** a tight hub was called right" in trainee.words
