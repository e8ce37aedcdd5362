"""What a card keeps of a hub that was measured: read back from the JSON that the program wrote, and said in words."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from math import isfinite
from typing import Any

from conemodel.base.units import MINUTE, MM
from conemodel.parts.unknowns.hands import SEEN_TURN
from conemodel.tasks.hand.estimate import Interval
from conemodel.tasks.headline import shares_of_ten
from conemodel.tasks.job_card.card import Value
from conemodel.tasks.job_card.step import Text

UNREADABLE = "kept as this version of the program cannot read it"


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """A hub as it was measured.

    Attributes:
        slack: of the cone's thread [m]; clamp_give: what the clamp takes off end play [m], None where not read.
        turn: that was advised, out positive [rad], 0 to leave the cone, None for none yet; right, tight: the chances
            after it [-].
        turned_to: where the cone was turned to since it was read, out from finger contact [rad]; None where it was not.
    """

    slack: Interval
    clamp_give: Interval | None = None
    turn: float | None = None
    right: float = 0.0
    tight: float = 0.0
    turned_to: float | None = None

    @property
    def words(self) -> str:
        """What lasts of it in a line: slack and clamp are the hub's, the turn is told by where the cone stands now."""
        said = [f"thread slack {_span(self.slack)}"]
        if self.clamp_give:
            said.append(f"the clamp takes {_span(self.clamp_give)}")
        return ", ".join(said)

    @property
    def chances(self) -> str:
        """How likely the turn ends right or too tight, in words; empty where there is none to make."""
        return shares_of_ten({"right": self.right, "too tight": self.tight}) if self.turn else ""


@dataclass(frozen=True, kw_only=True)
class MeasuredText(Text):
    """What was measured, as JSON."""

    def said(self, value: Value) -> str:
        """Return it in a line."""
        if value is None:
            return ""
        measured = read_measured(str(value))
        return measured.words if measured else UNREADABLE


def read_measured(text: str) -> Measured | None:
    """Return what was measured; None for a text that does not say it."""
    try:
        kept = json.loads(text)
        slack = _interval(kept, "slack")
        give = _interval(kept, "clamp_give") if kept["clamp_read"] is True else None
        turn, turned_to = kept["turn_minutes"], kept.get("turned_to_minutes")
        if turned_to is not None:
            return Measured(slack=slack, clamp_give=give, turned_to=MINUTE.to_si(_number(turned_to)))
        if turn is None:
            return Measured(slack=slack, clamp_give=give)
        chances = {name: _number(kept[f"chance_{name}"]) for name in ("right", "tight")}
        if min(chances.values()) < 0 or sum(chances.values()) > 1 + 1e-9:
            return None
        angle = MINUTE.to_si(_number(turn))
        leave = kept.get("next") == "leave" or abs(angle) < SEEN_TURN.unit.to_si(SEEN_TURN.usual)
        return Measured(slack=slack, clamp_give=give, turn=0.0 if leave else angle, **chances)
    except (ValueError, TypeError, KeyError, RecursionError):
        return None


def readings_kept(text: str) -> str:
    """Return the readings of a measurement as their file, to go on from; empty where the cone stands as read no more.

    What was carried from the last job keeps them too, but a cone that came off since stands at none of their marks.
    """
    measured = read_measured(text)
    if measured is None or (measured.turn is None and measured.turned_to is None):
        return ""
    readings = json.loads(text).get("readings")
    return readings if isinstance(readings, str) else ""


def without_turn(text: str) -> str:
    """Return what was measured as far as it lasts: a cone that was taken off stands nowhere that a turn counts from."""
    if read_measured(text) is None:
        return text
    return json.dumps(json.loads(text) | {"turn_minutes": None, "turned_to_minutes": None})


def _interval(kept: Mapping[str, Any], name: str) -> Interval:
    value, low, high = (MM.to_si(_number(kept[f"{name}_{end}"])) for end in ("mm", "low80_mm", "high80_mm"))
    if not 0 <= low <= value <= high or not value:
        raise ValueError(name)
    return Interval(value=value, low=low, high=high)


def _number(value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not isfinite(value):
        raise ValueError(value)
    return float(value)


def _span(span: Interval) -> str:
    value, low, high = (f"{MM.from_si(end):.3f}" for end in (span.value, span.low, span.high))
    return f"{value} mm ({low} to {high})"
