"""What *Check a hub* was told, as answers of a card."""

from collections.abc import Iterator

from conemodel.base.units import MM
from conemodel.parts.felt_play import felt_word
from conemodel.parts.hub import SIDES
from conemodel.parts.readings import Play, Readings
from conemodel.parts.setting import Limits
from conemodel.tasks.job_card.card import Place, Value
from conemodel.tasks.job_card.steps import STEPS


def answers_from(readings: Readings) -> dict[Place, Value]:
    """Return what a card asks as found and *Check a hub* was told; what no step of a card can hold is left out."""
    given = dict(_found(readings))
    return {place: value for place, value in given.items() if not STEPS[place.step].limit(value)}


def _found(readings: Readings) -> Iterator[tuple[Place, str | int | float]]:
    found = readings.found
    words = {
        "found_play_closed": _word(found.rim_closed),
        "found_play_open": _word(found.rim_open),
        "found_turning": found.turns_closed,
        "found_far_locked": {"yes": "no", "no": "yes"}.get(readings.checks.far_side_unlocked or ""),
        "held_by": readings.clamp,
    }
    yield from ((Place(step), word) for step, word in words.items() if word)
    gauged = found.axle_along_closed if found.axle_along_closed.play is not None else found.axle_along_open
    if gauged.play is not None:
        yield Place("found_gauge"), _mm(gauged.play)
    for side in SIDES:
        if (beyond := getattr(readings, f"protrusion_{side}").size) is not None:
            yield Place("found_protrusion", side), _mm(beyond)
    if readings.dropout_thickness.size is not None:
        yield Place("dropout_thickness"), _mm(readings.dropout_thickness.size)


def _word(play: Play) -> str | None:
    """Return what the hand said to a play at the rim, or would have said to what was measured."""
    return play.hand if play.play is None else felt_word(Limits(), "rim", play.play)


def _mm(length: float) -> float:
    return round(MM.from_si(length), 3)
