"""Cards that may be of one wheel, read from the record without the others."""

import json
import sqlite3

from conemodel.record.cards import kept_card
from conemodel.record.database import Database
from conemodel.tasks.job_card.card import Card
from conemodel.tasks.job_card.same_wheel import KNOWN_BY, plain


def cards_known_alike(card: Card, database: Database) -> tuple[Card, ...]:
    """Return the other cards on which tag or customer was ever answered as on this one, capitals alike.

    Raises:
        RecordError: the record could not be read or written.
    """
    with database.reading() as connection:
        names = {name for step in KNOWN_BY for name in _answered(step, card.text(step), connection)}
        found = (kept_card(name, connection) for name in sorted(names - {card.id}))
        return tuple(other for other in found if other)


def _answered(step: str, text: str, connection: sqlite3.Connection) -> set[str]:
    """Return the ids of cards on which a step was ever answered by a text."""
    rows = connection.execute("SELECT DISTINCT card, value FROM card_entry WHERE step = ?", (step,))
    wanted = plain(text)
    return {row["card"] for row in rows if wanted and plain(str(json.loads(row["value"]))) == wanted}
