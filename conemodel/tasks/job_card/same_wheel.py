"""When two cards are of one wheel, and when two texts on them say the same: one rule for all that is remembered."""

from unicodedata import normalize

from conemodel.tasks.job_card.card import Card

KNOWN_BY = ("tag", "customer")
"""Steps at least one of which two cards of one wheel, or perhaps of one, answer alike."""


def plain(text: str) -> str:
    """Return a text as it is compared: capitals and blanks alike, and a letter with its accent one sign or two.

    >>> plain(" A  7 ")
    'a 7'
    """
    return normalize("NFC", " ".join(text.split()).casefold())


def wheel_names(card: Card) -> frozenset[tuple[str, ...]]:
    """Return what the wheel of a card is known again by: its tag, or its customer and the mark on its rim.

    Front and rear have names apart; of a card that does not say which it is nothing is known.
    """
    wheel = card.text("wheel")
    tag, customer, mark = (plain(card.text(step)) for step in ("tag", "customer", "rim_mark"))
    names = {(wheel, tag): tag, (wheel, customer, mark): customer and mark}
    return frozenset(name for name, given in names.items() if wheel and given)


def is_same_wheel(card: Card, other: Card) -> bool:
    """Return whether two cards are of one wheel."""
    return bool(wheel_names(card) & wheel_names(other))


def may_be_same_wheel(card: Card, other: Card) -> bool:
    """Return whether they are, or may be: one customer's, front or rear alike, no two marks on the rim told."""
    customer = plain(card.text("customer"))
    marks = {plain(each.text("rim_mark")) for each in (card, other)} - {""}
    alike = bool(customer) and customer == plain(other.text("customer")) and len(marks) < 2
    wheel = card.text("wheel")
    return is_same_wheel(card, other) or (alike and bool(wheel) and wheel == other.text("wheel"))
