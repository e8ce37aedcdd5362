"""Lists of cards: what a card says largest of a fault stands first in its line, by a word and not by colour."""

import pytest

from conemodel.show.job_card.memory_words import card_line, recheck_line
from conemodel.tasks.job_card.memory import Recheck
from tests.tasks.job_card.cards import REAR, card_with


@pytest.mark.parametrize(
    ("answers", "first"),
    [
        ({"far_locked": "no"}, "⚠ Do not ride: the far side is not locked"),
        ({"cup/left": "pitted"}, "✗ To be renewed: cup, left"),
    ],
)
def test_a_fault_stands_first_in_every_list(answers, first: str) -> None:
    card = card_with(REAR | {"tag": "7"} | answers)
    assert card_line(card).startswith(f"**{first}** · Tag 7")
    assert f"**today** · **{first}** · Tag 7" in recheck_line(Recheck(card, 0))


def test_a_card_without_a_fault_says_only_whose_it_is() -> None:
    assert card_line(card_with({"tag": "7"})).startswith("Tag 7 · begun")
