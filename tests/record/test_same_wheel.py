"""Cards of one wheel are found in the record by tag or customer, also by one that was corrected since."""

from pathlib import Path

from conemodel.record.cards import answer, begin_card, find_card
from conemodel.record.database import Database
from conemodel.record.same_wheel import cards_known_alike
from conemodel.tasks.job_card.card import Place


def test_cards_known_alike_are_read_and_no_others(tmp_path: Path) -> None:
    database = Database(tmp_path / "record.sqlite3")
    answers: tuple[dict[str, str], ...] = (
        {"tag": "A 7"},
        {"tag": " a  7"},
        {"customer": "ADA"},
        {"tag": "8"},
        {},
    )
    cards = []
    for given in answers:
        card = begin_card(database)
        answer(card.id, {Place(step): value for step, value in given.items()}, database)
        cards.append(card.id)
    answer(cards[0], {Place("customer"): "Ada"}, database)
    alike = cards_known_alike(find_card(cards[0], database), database)
    assert {card.id for card in alike} == set(cards[1:3])
    assert cards_known_alike(find_card(cards[4], database), database) == ()
