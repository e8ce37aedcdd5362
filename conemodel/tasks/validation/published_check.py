"""One published value beside what this program computes for it when asked."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np

Status = Literal["seen", "computed", "from memory"]

STATUS_WORDS: dict[Status, str] = {
    "seen": "the printed text was read",
    "computed": "no printed value; worked out outside this program, or a closed form",
    "from memory": "quoted without the page open",
}
"""What a status means."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedCheck:
    """One published value beside the computed one.

    Attributes:
        source: key in the bibliography, or what the value rests on where there is none.
        what: the quantity, in words; unit: of both values, empty for plain numbers.
        published, computed: the two values, in `unit`.
        tolerance: relative deviation allowed [-]; reason: why that much.
        status: how the published value is known, see `STATUS_WORDS`.
    """

    source: str
    what: str
    unit: str
    published: float
    computed: float
    tolerance: float
    reason: str
    status: Status

    @property
    def deviation(self) -> float:
        """Computed over published, less one [-]."""
        return self.computed / self.published - 1

    @property
    def holds(self) -> bool:
        """Whether the deviation is within the tolerance."""
        return abs(self.deviation) <= self.tolerance


PRINTED = "digits printed"


def check(source: str, what: str, unit: str, published: float, computed: Any, **rest: Any) -> PublishedCheck:
    """Return a check; the tolerance is half a printed digit or so unless said."""
    rest = {"tolerance": 1e-3, "reason": PRINTED, "status": "seen", **rest}
    return PublishedCheck(
        source=source,
        what=what,
        unit=unit,
        published=published,
        computed=float(np.asarray(computed).item()),
        **rest,
    )


def checks(
    source: str, of: str, rows: Iterable[tuple[str, str, float, Any]], **rest: Any
) -> Iterator[PublishedCheck]:
    """Yield checks `of` one thing: what, unit, published and computed value of each; the rest as for `check`."""
    for what, unit, published, computed in rows:
        yield check(source, f"{of}: {what}", unit, published, computed, **rest)
