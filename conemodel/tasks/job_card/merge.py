"""Two histories of one job card, kept on two machines, made one that holds every answer of both."""

from collections import Counter, deque
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from conemodel.tasks.job_card.card import Card, Entry


class _Label(NamedTuple):
    """What tells an entry from every other of its card; in order of time."""

    at: str
    step: str
    where: str
    value: str
    by: str
    time: int


def merge_cards(one: Card, other: Card) -> Card:
    """Return a card with every answer of both: what both hold once, the rest in order of time.

    Each machine's own order stands, so that an answer still comes after the one it corrects. Which card is given first
    makes no difference, and merging again adds nothing. Where one history begins with the other, the longer stands.
    """
    entries = dict((*_labelled(one.entries), *_labelled(other.entries)))
    order = _merged([label for label, _ in _labelled(card.entries)] for card in (one, other))
    return Card(id=one.id, begun_at=one.begun_at, entries=tuple(entries[label] for label in order))


def _labelled(entries: Iterable[Entry]) -> Iterator[tuple[_Label, Entry]]:
    """Yield entries by their labels; those alike in everything are counted."""
    seen: Counter[tuple[str, ...]] = Counter()
    for entry in entries:
        alike = (entry.at, *entry.place, repr(entry.value), entry.by or "")
        seen[alike] += 1
        yield _Label(*alike, seen[alike]), entry


def _merged(given: Iterable[list[_Label]]) -> Iterator[_Label]:
    """Yield the labels of two rows: what only one has before what both have next, else the earlier."""
    rows = [deque(row) for row in given]
    both = set(rows[0]).intersection(rows[1])
    done: set[_Label] = set()
    while heads := [row[0] for row in rows if row]:
        first = min([head for head in heads if head not in both] or heads)
        done.add(first)
        yield first
        for row in rows:
            while row and row[0] in done:
                row.popleft()
