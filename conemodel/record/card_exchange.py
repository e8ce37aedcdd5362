"""Job cards out of the record as one file, and into it from one, all or none; nothing in the record is lost by it."""

import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass

from conemodel.base.errors import InputProblems, Problem
from conemodel.parts.toml_reader import first_problems
from conemodel.record.card_file import write_cards
from conemodel.record.card_reader import ReadCard, read_cards
from conemodel.record.cards import all_cards, find_card, keep_card, kept_card
from conemodel.record.database import Database
from conemodel.tasks.job_card.card import Card
from conemodel.tasks.job_card.merge import merge_cards


@dataclass(frozen=True, slots=True, kw_only=True)
class Imported:
    """What came of the cards of a file: how many were new, had answers that were not in the record, or had none."""

    added: int
    continued: int
    unchanged: int


def export_cards(database: Database, card_id: str | None = None) -> str:
    """Return every card with all of its history as JSON, or the one of an id.

    Raises:
        NoCard: it is not in the record.
        TooManyCards: the text would be too large to be read back.
        RecordError: the record could not be read.
    """
    return write_cards(all_cards(database) if card_id is None else [find_card(card_id, database)])


def import_cards(raw: bytes | str, database: Database, *, name: str = "the file") -> Imported:
    """Keep the cards in the text of a file called `name`, all or none, and return what came of them.

    Of a card that is in the record already, the answers that it lacks are added (`merge_cards`).

    Raises:
        InputProblems: what cannot be used, naming file, line, field, value and limit; the record is as it was.
        RecordError: the record could not be read or written; it is as it was.
    """
    cards = read_cards(raw, name=name)
    with database.writing() as connection:
        here = {read.card.id: kept_card(read.card.id, connection) for read in cards}
        _check_same(cards, here, name)
        pairs = [(here[read.card.id], read.card) for read in cards]
        outcomes = [_bring_in(mine, theirs, connection) for mine, theirs in pairs]
    return Imported(
        added=outcomes.count("added"),
        continued=outcomes.count("continued"),
        unchanged=outcomes.count("unchanged"),
    )


def _check_same(cards: Iterable[ReadCard], here: dict[str, Card | None], name: str) -> None:
    """Hold cards against those of the same id in the record."""
    problems = []
    for card, line in cards:
        mine = here[card.id]
        if mine is not None and mine.begun_at != card.begun_at:
            limit = f"must be {mine.begun_at}, as on the card of this id in the record"
            problems.append(Problem(where=f"{name}:{line}: begun_at", value=card.begun_at, limit=limit))
    if problems:
        raise InputProblems(first_problems(problems, name))


def _bring_in(mine: Card | None, theirs: Card, connection: sqlite3.Connection) -> str:
    """Keep a card, or what it adds to the one in the record, and return which it was."""
    if mine is None:
        keep_card(theirs, connection)
        return "added"
    both = merge_cards(mine, theirs)
    if both == mine:
        return "unchanged"
    keep_card(both, connection)
    return "continued"
