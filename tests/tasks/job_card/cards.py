"""Cards for tests, made of answers."""

from collections.abc import Mapping

from conemodel.tasks.job_card.card import Card, Entry, Place, Value

BEGUN = "2026-01-01T10:00:00+00:00"

REAR: dict[str, Value] = {"wheel": "rear", "held_by": "quick release", "brake": "rim", "drive": "freehub"}


def card_with(answers: Mapping[str, Value], *, begun: str = BEGUN, name: str = "c") -> Card:
    """Return a card with answers by the names of their steps; ``cone/left`` is one of a side, ``turn/2`` of a round."""
    entries = tuple(
        Entry(at=begun, by=None, place=Place(*(place.split("/"))), value=value)
        for place, value in answers.items()
    )
    return Card(id=name, begun_at=begun, entries=entries)
