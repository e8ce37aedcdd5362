"""A job card as the browser draws it: sections, rows and cells with what stands there and what is offered."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from conemodel.base.plain_text import one_line
from conemodel.parts.hub import SIDES
from conemodel.parts.scenario import Scenario
from conemodel.show.headline import SIGNS
from conemodel.show.job_card.entry_hints import entry_caution, entry_hint, entry_start
from conemodel.show.job_card.rows_besides import measured_row, plain_row
from conemodel.tasks.job_card.card import Card, Place, Value
from conemodel.tasks.job_card.offers import Offer, as_other_side, offers_at, turn_letters
from conemodel.tasks.job_card.same_wheel import is_same_wheel
from conemodel.tasks.job_card.sections.setting import LOOSE, TIGHT
from conemodel.tasks.job_card.step import MOST_ROUNDS, Amount, Choice, Day, Step, Text
from conemodel.tasks.job_card.steps import SECTIONS, Section, open_places, rounds_of
from conemodel.tasks.job_card.stops import headline_of_card
from conemodel.tasks.job_card.this_wheel import came_back, side_by_side
from conemodel.tasks.job_card.torque_table import MARK, USUAL_TORQUES
from conemodel.tasks.job_card.turn_left import TurnAdvice

PICTURED = ("cone", "cup")
"""Steps with pictures to judge by, which have their names."""

WHO = tuple(step.name for step in SECTIONS[0].steps)
"""Steps that say which wheel it is: they are as they were, and that need not be said."""

TORQUES = ("freehub_bolt", "locknut", "axle_nuts")
"""Steps below which the table of usual torques lies folded."""

KINDS: Mapping[type[Step], str] = {Choice: "choice", Amount: "amount", Text: "text", Day: "day"}


@dataclass(frozen=True, kw_only=True)
class Beside:
    """What is known besides a card and offered on it.

    Attributes:
        today: the day it is filled in; before: the last card of this wheel; hub: what is known of the hub.
        offers: more of them, by the section at whose head they stand.
        advice: the turn that the program advises now, by round.
    """

    today: date
    before: Card | None = None
    hub: Scenario | None = None
    offers: Mapping[str, Sequence[Offer]] = field(default_factory=dict)
    advice: Mapping[str, TurnAdvice] = field(default_factory=dict)


def card_on_page(card: Card, beside: Beside) -> dict[str, Any]:
    """Return a card for the widget: plain values only."""
    left = open_places(card)
    return {
        "id": card.id,
        "who": who_words(card) + (f" · hub: {one_line(beside.hub.name)}" if beside.hub else ""),
        "head": _head(card),
        "before": _before(card, beside.before),
        "sections": [_section(section, card, beside, left) for section in SECTIONS],
        "besides": [[*place, value] for place, value in card.answers.items()],
        "torques": {"mark": MARK, "rows": [[one.part, one.words] for one in USUAL_TORQUES]},
    }


def who_words(card: Card) -> str:
    """Return which wheel a card is of, in a line.

    >>> who_words(Card(id="c", begun_at="2026-03-31T10:00:00+00:00"))
    'No tag yet · begun 2026-03-31'
    """
    names = [entry.by for entry in card.entries if entry.by]
    said = [
        f"Tag {card.text('tag')}" if card.answer("tag") else "No tag yet",
        *(card.text(step) for step in ("wheel", "rim_mark", "customer")),
        f"begun {card.begun_at[:10]}",
        *dict.fromkeys(names),
    ]
    return " · ".join(one_line(part) for part in said if part)


def _head(card: Card) -> dict[str, Any]:
    """Return the largest words, and what stands below them."""
    headline = headline_of_card(card)
    answer = headline.answer
    words, _, about = answer.words.partition(": ")
    return {
        "sign": SIGNS.get(headline.question, ""),
        "question": headline.question,
        "words": words,
        "about": about,
        "rest": answer.rest,
        "below": [[one.head, one.rest] for one in headline.below],
    }


def _before(card: Card, before: Card | None) -> dict[str, Any] | None:
    """Return the last card of the wheel beside this one; None where there is none."""
    if before is None:
        return None
    same = is_same_wheel(card, before)
    whose = "Last card of this wheel" if same else f"Last {before.text('wheel')} wheel of this customer"
    return {
        "id": before.id,
        "day": before.begun_at[:10],
        "title": f"{whose}: {before.begun_at[:10]}",
        "back": list(came_back(card, before)),
        "rows": [[row.asked, one_line(row.then), one_line(row.now)] for row in side_by_side(card, before)],
    }


def _section(section: Section, card: Card, beside: Beside, left: Sequence[Place]) -> dict[str, Any]:
    rows = list(_rows(section, card, beside))
    names = {step.name for step in section.steps}
    return {
        "name": section.name,
        "open": sum(place.step in names for place in left),
        "offers": [_offer(offer) for offer in beside.offers.get(section.name, ())],
        "rows": [row for row in rows if not row["optional"]],
        "more": [row for row in rows if row["optional"]],
    }


def _rows(section: Section, card: Card, beside: Beside) -> Iterator[dict[str, Any]]:
    """Yield the rows of a section: each step that applies, the rounds of setting one after the other."""
    asked = [step for step in section.steps if step.applies(card) and not step.written]
    in_rounds = [step for step in asked if step.each == "round"]
    for step in asked:
        if step.each != "round":
            wheres = SIDES if step.each == "side" else ("",)
            yield _row(step, wheres, card, beside)
        elif step is in_rounds[0]:
            for number in range(1, rounds_shown(card) + 1):
                yield from (_row(each, (str(number),), card, beside) for each in in_rounds)
    if any(step.each == "side" for step in asked if not step.optional):
        yield from _other_side(card)
    if any(step.name == "measured" for step in section.steps):
        yield measured_row(card)


def rounds_shown(card: Card) -> int:
    """Return how many rounds are shown: one more than there are after one that did not come right."""
    rounds = rounds_of(card)
    again = card.answer("outcome", str(rounds)) in (LOOSE, TIGHT)
    return min(rounds + again, MOST_ROUNDS)


def _row(step: Step, wheres: Sequence[str], card: Card, beside: Beside) -> dict[str, Any]:
    return {
        "id": "/".join((step.name, *wheres)),
        "step": step.name,
        "words": step.words,
        "hint": entry_hint(step, card, beside.hub),
        "caution": entry_caution(step, card, beside.hub),
        "kind": KINDS[type(step)],
        "optional": step.optional,
        "pictured": step.name if step.name in PICTURED else "",
        "torques": step.name in TORQUES,
        "limits": _limits(step),
        "cells": [_cell(step, Place(step.name, where), card, beside) for where in wheres],
    }


def _limits(step: Step) -> dict[str, Any]:
    match step:
        case Choice():
            return {"choices": list(step.choices)}
        case Amount():
            sign = step.unit.symbol
            return {
                "unit": sign,
                "least": step.least,
                "most": step.most,
                "step": step.step,
                "whole": step.whole,
            }
        case Text():
            return {"longest": step.longest}
    return {}


def _cell(step: Step, place: Place, card: Card, beside: Beside) -> dict[str, Any]:
    value = card.answer(*place)
    advised = beside.advice.get(place.where) if step.name == "turn" and value is None else None
    offers = offers_at(place, card, today=beside.today, before=beside.before, hub=beside.hub)
    if advised and advised.minutes:
        offers = (
            Offer(words=f"as advised: {turn_letters(advised.minutes)}", answers={place: advised.minutes}),
            *offers,
        )
    given = [entry.value for entry in card.corrected(*place)]
    known_again = beside.before and isinstance(step, Choice) and step.name not in WHO
    earlier = beside.before.answer(*place) if beside.before and known_again else None
    return {
        "place": list(place),
        "label": {"side": place.where, "round": f"Round {place.where}", "card": ""}[step.each],
        "value": value,
        "was": next((_shown(value) for value in reversed(given[:-1]) if value is not None), ""),
        "before": _shown(earlier),
        "start": entry_start(step, place, card, offers, beside.hub),
        "offers": [_offer(offer) for offer in offers],
        "advice": advised.words if advised else card.text("advice", place.where) if value is not None else "",
    }


def _other_side(card: Card) -> Iterator[dict[str, Any]]:
    """Yield what answers one side as the other was, where there is anything to take over."""
    for side in SIDES:
        if offer := as_other_side(card, side):
            words = f"{side}: all that is open {offer.words}".capitalize()
            yield plain_row(f"other/{side}", "offers") | {"offers": [{**_offer(offer), "words": words}]}


def _offer(offer: Offer) -> dict[str, Any]:
    return {
        "words": offer.words,
        "answers": [[*place, value] for place, value in offer.answers.items()],
    }


def _shown(value: Value) -> str:
    return f"{value:g}" if isinstance(value, float) else "" if value is None else one_line(str(value))
