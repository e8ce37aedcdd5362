"""Answers offered in one tap: as usual, as on the card before, as the hub says, as on the other side.

An offer is not an answer: nothing stands on a card that was not tapped.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from conemodel.base.units import MM
from conemodel.parts.clamp_kinds import CLAMP_KINDS
from conemodel.parts.hub import SIDES
from conemodel.parts.hub_families import BALLS, FAMILIES, WIDTHS, Family, family_of
from conemodel.parts.known_scenario import KnownScenario
from conemodel.parts.scenario import Scenario
from conemodel.tasks.job_card.card import Card, Place, Value
from conemodel.tasks.job_card.measured import without_turn
from conemodel.tasks.job_card.sections import strip
from conemodel.tasks.job_card.sections.who import FRONT

NEAR = 0.1e-3
"""How near a ball must be to a size to have its name [m]: far closer than one size is to the next."""

TURNS = {"1": (5, 10, 15), "more": (-3, -1, 1, 3)}
"""Turns offered in the first round, from finger contact, and in later ones [min of a clock face]."""

RECHECKS = {
    "in 2 weeks": timedelta(weeks=2),
    "in 1 month": timedelta(days=30),
    "in 3 months": timedelta(days=91),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """What one tap answers: its words, and the answers by their places."""

    words: str
    answers: Mapping[Place, Value]


def offers_at(
    place: Place, card: Card, *, today: date, before: Card | None = None, hub: Scenario | None = None
) -> tuple[Offer, ...]:
    """Return what is offered at a place of a card, the best known first, no two of them alike.

    `before` is the last card of the same wheel, `hub` what is known of the hub.
    """
    known = (*_from_hub(place, hub), *_from_before(place, before))
    offered = (*known, *_usual(place, card, today), *(() if known else _in_use(place, card)))
    alike = {tuple(offer.answers.items()): offer for offer in reversed(offered)}
    return tuple(offer for offer in offered if alike[tuple(offer.answers.items())] is offer)


def as_other_side(card: Card, side: str) -> Offer | None:
    """Return what answers a side as the other one was, where that was answered and this was not; None for nothing."""
    other = next(each for each in SIDES if each != side)
    answers = {
        Place(step.name, side): value
        for step in strip.STEPS
        if (value := card.answer(step.name, other)) is not None and card.answer(step.name, side) is None
    }
    return Offer(words=f"as on the {other}", answers=answers) if answers else None


LASTING = ("held_by", "brake", "drive", "rim_mark", "customer", "hub", "measured")
"""What stays with a wheel from one card to the next, with what is known of its hub."""


def as_last_time(card: Card, before: Card) -> Offer | None:
    """Return what answers who a wheel is as on its last card, with its hub and what was measured; None for nothing."""
    answers: dict[Place, Value] = {
        Place(step): without_turn(str(value)) if step == "measured" else value
        for step in LASTING
        if (value := before.answer(step)) is not None and card.answer(step) is None
    }
    words = [str(answers[Place(step)]) for step in LASTING[:3] if Place(step) in answers]
    named = [
        name for step, name in (("hub", "its hub"), ("measured", "as measured")) if Place(step) in answers
    ]
    return (
        Offer(words=f"as last time: {', '.join((*words, *named)) or 'who it is'}", answers=answers)
        if answers
        else None
    )


def _from_hub(place: Place, hub: Scenario | None) -> Iterator[Offer]:
    """Yield what is known of a hub; a length that nobody measured is none that a tap may put on a card."""
    if hub is None:
        return
    lengths = _lengths(hub)
    if place.step in lengths:
        field, length = lengths[place.step]
        if _is_known(hub, field):
            yield _length(place, length, " as the hub says")
    elif place.step == "ball_count":
        row = getattr(hub.hub, place.where)
        why = "as the hub says" if _is_known(hub, f"ball_count_{place.where}") else "as usual"
        yield _balls(place.where, row.ball_count, size_name(row.ball_diameter), why)


def _lengths(hub: Scenario) -> Mapping[str, tuple[str, float]]:
    """Return by the step that asks for it what a length is called where it is entered, and the length [m]."""
    fixed = next(side for side in SIDES if side != hub.hub.adjustable_side)
    return {
        "fixed_protrusion": (f"protrusion_{fixed}", getattr(hub.stack, fixed).protrusion),
        "width": ("over_locknut_width", hub.hub.over_locknut_width),
        "dropout_thickness": ("dropout_thickness", hub.frame.dropout_thickness),
    }


def _is_known(hub: Scenario, field: str) -> bool:
    """Return whether a size of a hub was described or entered, not assumed for its family."""
    return not isinstance(hub, KnownScenario) or field in hub.known.known


def usual_length(step: str, card: Card, hub: Scenario | None) -> float | None:
    """Return a length as it usually is [mm], None where none is: where an entry begins, and never an answer."""
    if hub and step in _lengths(hub):
        return _tenths(_lengths(hub)[step][1])
    return _tenths(_family(card).protrusion.usual) if step == "fixed_protrusion" else None


def size_name(diameter: float) -> str:
    """Return what a size of ball [m] is called on a card.

    >>> size_name(6.35e-3), size_name(5e-3)
    ('1/4 in', 'other')
    """
    near = (name for name, size in BALLS.items() if abs(size - diameter) < NEAR)
    return next(near, "other")


def _from_before(place: Place, before: Card | None) -> Iterator[Offer]:
    if before is None:
        return
    if place.step == "ball_count":
        count, size = (before.answer(step, place.where) for step in ("ball_count", "ball_size"))
        if isinstance(count, int) and isinstance(size, str):
            yield _balls(place.where, count, size, "as before")
    elif place.step in ("fixed_protrusion", "width", "locknut_torque", "freehub_torque", "axle_torque"):
        value = before.answer(place.step)
        if isinstance(value, int | float):
            yield Offer(words=f"{value:g} as before", answers={place: value})


def _usual(place: Place, card: Card, today: date) -> Iterator[Offer]:
    match place.step:
        case "turn":
            for minutes in TURNS.get(place.where, TURNS["more"]):
                yield Offer(words=turn_letters(minutes), answers={place: minutes})
        case "recheck_on":
            for words, wait in RECHECKS.items():
                yield Offer(words=words, answers={place: (today + wait).isoformat()})
        case "recheck_after":
            for kilometres in (100, 300, 1000):
                yield Offer(words=f"{kilometres} km", answers={place: kilometres})
        case _:
            yield from _of_family(place, _family(card))


def _family(card: Card) -> Family:
    """Return the kind of hub usual at a card's end of what holds it: where not said a rear one, a quick release."""
    held_by = card.text("held_by")
    clamp = held_by if held_by in CLAMP_KINDS else next(iter(CLAMP_KINDS))
    return FAMILIES[family_of(front=card.text("wheel") == FRONT, clamp=clamp)]


def _of_family(place: Place, family: Family) -> Iterator[Offer]:
    """Yield balls and width as usual of a kind of hub."""
    match place.step:
        case "ball_count":
            count, size = family.ball_count.usual, size_name(family.ball_diameter.usual)
            yield _balls(place.where, int(count), size, "as usual")
        case "width":
            yield _length(place, family.over_locknut_width.usual)


def _in_use(place: Place, card: Card) -> Iterator[Offer]:
    """Yield the other widths in use within the range of a card's kind of hub."""
    family = _family(card)
    low, usual, high = family.over_locknut_width
    for width in WIDTHS[family.front]:
        if place.step == "width" and low <= width <= high and width != usual:
            yield _length(place, width)


def _length(place: Place, length: float, why: str = "") -> Offer:
    """Return the offer of a length [m], to the tenth of a millimetre."""
    tenths = _tenths(length)
    return Offer(words=f"{tenths:g}{why}", answers={place: tenths})


def _tenths(length: float) -> float:
    return round(MM.from_si(length), 1)


def turn_letters(minutes: float) -> str:
    """Return a turn of the cone in a few letters.

    >>> turn_letters(10), turn_letters(-3.5)
    ('out 10', 'in 3½')
    """
    whole, half = divmod(round(2 * abs(minutes)), 2)
    return f"{'out' if minutes > 0 else 'in'} {whole or ''}{'½' if half else ''}"


def _balls(side: str, count: int, size: str, why: str) -> Offer:
    answers: dict[Place, Value] = {Place("ball_count", side): count, Place("ball_size", side): size}
    return Offer(words=f"{count} × {size}, {why}", answers=answers)
