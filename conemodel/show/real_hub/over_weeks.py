"""What a hand felt over weeks, on real hubs and in practice, one beside the other; never one for the other."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from conemodel.base.table import Column, Table
from conemodel.base.units import MM
from conemodel.show.formatting import number
from conemodel.tasks.hand.estimate import Interval

REAL, PRACTICE = "a real hub", "practice, on a screen"

NOT_ALIKE = (
    "On a real hub: the least play you feel at all. In practice: the difference you tell between two hubs, three times "
    "in four. The two are compared here; only the first may serve on a wheel."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Once:
    """One go: what was found, None where it was not told.

    Attributes:
        made_at: when, UTC, ISO 8601; where: on a real hub or in practice; hub: what it is called.
        threshold: in play at the rim; slack: of the thread; clamp_give: what the clamp takes [m].
    """

    made_at: str
    where: str
    hub: str = ""
    threshold: Interval | None = None
    slack: Interval | None = None
    clamp_give: Interval | None = None


def list_over_weeks(goes: Sequence[Once]) -> Table[Once]:
    """Return every go in the order it was made, for a page and as CSV."""
    columns: tuple[Column[Once], ...] = (
        Column(lambda once: once.made_at, key="made_at"),
        Column(lambda once: once.made_at[:16].replace("T", " "), page="When (UTC)"),
        Column(lambda once: once.where, key="where", page="On"),
        Column(lambda once: once.hub, key="hub", page="Hub"),
        Column(lambda once: _words(once.threshold, 2), page="You feel, mm at the rim"),
        Column(lambda once: _words(once.slack, 3), page="Thread slack, mm"),
        Column(lambda once: _words(once.clamp_give, 3), page="Clamp takes, mm"),
        *(
            Column(_reader(name, end), key=f"{name}{tail}_mm")
            for name in ("threshold", "slack", "clamp_give")
            for end, tail in (("value", ""), ("low", "_low"), ("high", "_high"))
        ),
    )
    ordered = sorted(goes, key=lambda once: once.made_at)
    return Table(columns, ordered, caption="Every go, on real hubs and in practice", words=True)


def _words(found: Interval | None, digits: int) -> str:
    """Return an interval [m] in mm, or that it was not told."""
    if found is None:
        return "not told"
    value, low, high = (number(MM.from_si(at), digits) for at in (found.value, found.low, found.high))
    return f"{value} ({low} to {high})"


def _reader(name: str, end: str) -> Callable[[Once], float | str]:
    """Return what takes an end of an interval out of a go, in mm for a file; nothing where it was not told."""

    def read(once: Once) -> float | str:
        found: Interval | None = getattr(once, name)
        return "" if found is None else MM.from_si(getattr(found, end))

    return read
