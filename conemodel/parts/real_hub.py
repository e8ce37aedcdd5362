"""What was found on a real hub whose cone was backed off in counted minutes: the file of one go at it."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, Literal

from conemodel.base.units import MINUTE, MM, NEWTON, ONE
from conemodel.parts.schema import FieldError, Part, quantity
from conemodel.parts.toml_files import load_part

State = Literal["nut loose", "locked", "clamped"]
"""How the hub stands: locknut run back, locked on the bench, locked and clamped."""

STATES: dict[str, State] = {"nut_loose": "nut loose", "locked": "locked", "clamped": "clamped"}
"""Every state by the name of its table in a file, in the order of the work."""

LEAST_COUNT, MOST_COUNT = -15.0, 60.0
"""Furthest in and out that a cone may have stood, from finger contact [min]: past a whole turn out nothing is felt."""

MOST_TRIES = 12
"""Most times that one thing can have been felt for."""


class InState(Part):
    """What was found in one state of the hub; counts are turns of the cone out of finger contact."""

    play_from: tuple[float, ...] = quantity(
        MINUTE, "smallest count at which play was felt, one number for each try", default=()
    )
    drag_up_to: tuple[float, ...] = quantity(
        MINUTE, "largest count at which it turned stiffer than further out, for each try", default=()
    )
    measured_at: float | None = quantity(
        MINUTE, "count at which play was measured", default=None, at_least=LEAST_COUNT, at_most=MOST_COUNT
    )
    axle_play: float | None = quantity(
        MM, "play along the axle by dial gauge", default=None, at_least=0, at_most=3
    )
    rim_play: float | None = quantity(MM, "play at the rim", default=None, at_least=0, at_most=20)
    rim_by: Literal["ruler", "dial gauge"] = quantity(
        ONE, "what the play at the rim was read by", default="ruler"
    )
    rim_push: float | None = quantity(
        NEWTON, "push each way under which it was read, where known", default=None, at_least=0, at_most=30
    )

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """Counts must lie within a turn; a play that was measured needs the count it was measured at."""
        yield from super().cross_checks(values)
        for name in ("play_from", "drag_up_to"):
            yield from _check_counts(name, values.get(name, ()))
        for name in ("axle_play", "rim_play"):
            if values.get(name) is not None and "measured_at" in values and values["measured_at"] is None:
                yield FieldError(
                    field=name, value=values[name], limit="needs the count it was measured at: measured_at"
                )
        if values.get("rim_push") is not None and "rim_play" in values and values["rim_play"] is None:
            yield FieldError(field="rim_push", value=values["rim_push"], limit="stands without a rim_play")


def _check_counts(name: str, counts: tuple[float, ...]) -> Iterator[FieldError]:
    """Yield counts that cannot be, and too many of them."""
    if len(counts) > MOST_TRIES:
        yield FieldError(field=name, value=f"{len(counts)} tries", limit=f"must be at most {MOST_TRIES}")
    for count in counts:
        for bound, out, words in ((LEAST_COUNT, count < MINUTE.to_si(LEAST_COUNT), "at least"),
                                  (MOST_COUNT, count > MINUTE.to_si(MOST_COUNT), "at most")):  # fmt: skip
            if out:
                yield FieldError(
                    field=name, value=count, limit=f"must be {words} {{}}", bound=MINUTE.to_si(bound)
                )


class RealHubReadings(Part):
    """One go at a real hub: which hub it is most like, who felt it, and what was found in each state."""

    name: str = quantity(ONE, "what to call this hub", default="A real hub")
    hand: str = quantity(ONE, "whose hand felt it; a threshold is a person's", default="")
    step: float = quantity(
        MINUTE, "how far apart the counts are at which it was felt", default=1.0, at_least=0.25, at_most=5
    )
    nut_loose: InState = InState()
    locked: InState = InState()
    clamped: InState = InState()

    @property
    def states(self) -> dict[State, InState]:
        """What was found, by state."""
        return {state: getattr(self, name) for name, state in STATES.items()}


def load_real_hub(path: str | Path) -> RealHubReadings:
    """Read a file of what was found on a real hub.

    Raises:
        InputProblems: what cannot be used, naming file, line, field, value and limit of every mistake.
    """
    return load_part(RealHubReadings, Path(path))
