"""The amount of a turn that a class is told brings most such hubs right."""

import numpy as np

from conemodel.show.lesson.wording import certainty_words
from conemodel.tasks.lesson.answers import OPTIONS
from conemodel.tasks.lesson.lesson import view_of
from conemodel.tasks.lesson.position import positions
from conemodel.tasks.wording import clock_minutes
from tests.show.lesson.told import EVERY, played

IN, OUT, *_ = OPTIONS["turn"]


def test_every_turn_that_is_told_has_an_amount_that_leaves_more_hubs_right_than_before() -> None:
    told = 0
    for name in EVERY:
        tale = played(name)
        for view in (view_of(tale, at) for at in positions(tale.story)):
            for side in view.sides:
                answer = side.answer
                if answer is None or answer.words not in (IN, OUT):
                    assert answer is None or answer.turn is None
                    continue
                told += 1
                assert answer.turn is not None
                assert (answer.turn > 0) == (answer.words == OUT)
                drawn = tale.told[side.side].drawn
                assert drawn.chances_at(answer.turn).right > drawn.chances_at(0.0).right
                # what a clock face has: sixty minutes to a turn
                minutes = clock_minutes(2 * np.pi * answer.turn / tale_pitch(tale, side.side))
                assert certainty_words(side).startswith(f"about {minutes}: ")
    assert told > 0


def tale_pitch(tale, side: str) -> float:
    return float(getattr(tale, side).scenario.axle.thread_pitch)
