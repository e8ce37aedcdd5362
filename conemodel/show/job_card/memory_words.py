"""What all cards remember, in words and tables for the page."""

from conemodel.base.plain_text import for_page
from conemodel.base.table import Column, Table
from conemodel.show.headline import stop_words
from conemodel.show.job_card.on_page import who_words
from conemodel.tasks.job_card.card import Card
from conemodel.tasks.job_card.faults import Counted
from conemodel.tasks.job_card.memory import Recheck
from conemodel.tasks.job_card.steps import open_places
from conemodel.tasks.job_card.stops import headline_of_card

_FAULTS: tuple[Column[Counted], ...] = (
    Column(lambda one: one.words, page="Found", key="found"),
    Column(lambda one: one.found, page="On cards", key="cards"),
    Column(lambda one: one.looked, page="Of those looked at", key="looked_at"),
)


def list_faults_found(counted: tuple[Counted, ...]) -> Table[Counted]:
    """Return the table of faults, as they are ordered."""
    return Table(_FAULTS, counted)


def card_line(card: Card) -> str:
    """Return a card in a line for the label of a button: what it says largest of a fault, whose it is, and how far."""
    left = len(open_places(card))
    return f"{_stop(card)}{for_page(who_words(card))} · {f'{left} open' if left else 'complete'}"


def _stop(card: Card) -> str:
    words = stop_words(headline_of_card(card))
    return f"**{for_page(words)}** · " if words else ""


def recheck_line(recheck: Recheck) -> str:
    """Return a wheel to be looked at again in a line for the label of a button.

    >>> recheck_line(Recheck(Card(id="c", begun_at="2026-03-31T10:00:00+00:00"), 3))
    '**3 days overdue** · No tag yet · begun 2026-03-31'
    """
    days = abs(recheck.overdue)
    counted = f"{days} day{'' if days == 1 else 's'}"
    when = f"**{counted} overdue**" if recheck.overdue > 0 else f"in {counted}" if days else "**today**"
    return f"{when} · {_stop(recheck.card)}{for_page(who_words(recheck.card))}"
