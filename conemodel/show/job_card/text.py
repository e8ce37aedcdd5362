"""A job card in words for a terminal, in the order of the bench; a list of cards; and both as JSON."""

import json
import textwrap
from collections.abc import Iterable, Iterator

from conemodel.base.plain_text import one_line
from conemodel.show.headline import SIGNS, stop_words
from conemodel.show.setting.text import CAUTION, WIDTH
from conemodel.tasks.job_card.card import Card, Entry, Place, Value
from conemodel.tasks.job_card.memory import Recheck
from conemodel.tasks.job_card.steps import SECTIONS, STEPS, Section, open_places, places_of
from conemodel.tasks.job_card.stops import headline_of_card
from conemodel.tasks.job_card.turn_left import measured_words

NOT_SIGNED = "A card that is complete says that everything was answered, not that the wheel is safe."


def card_text(card: Card) -> str:
    """Return a card as text: what keeps the wheel from being ridden, what was answered, corrected, and is open."""
    places = places_of(card)
    sections = (_section_text(section, card, places) for section in SECTIONS)
    left = open_places(card)
    state = f"Open: {len(left)} of {len(places)} places." if left else "Complete: every step was answered."
    feet = (textwrap.fill(words, WIDTH) for words in (state, NOT_SIGNED, CAUTION))
    head = f"Job card {card.id}, begun {card.begun_at}"
    headline = headline_of_card(card)
    sign = SIGNS.get(headline.question, "")
    sentences = (
        f"{sign} {headline.answer.sentence}".strip(),
        *(answer.sentence for answer in headline.below),
    )
    said = (textwrap.fill(sentence, WIDTH) for sentence in sentences)
    return "\n\n".join((head, *said, *filter(None, sections), *feet))


def card_json(card: Card) -> str:
    """Return the same as one JSON object: the answers that stand, every answer given, and what is open."""
    found = {
        "id": card.id,
        "begun_at": card.begun_at,
        "answers": [_at(place) | {"value": value} for place, value in card.answers.items()],
        "entries": [
            {"at": each.at, "by": each.by, **_at(each.place), "value": each.value} for each in card.entries
        ],
        "open": [_at(place) for place in open_places(card)],
    }
    return json.dumps(found, indent=2, ensure_ascii=False)


def list_text(cards: Iterable[Card]) -> str:
    """Return a line for each card."""
    return "\n".join(map(_line, cards)) or "No job cards."


def rechecks_text(rechecks: Iterable[Recheck]) -> str:
    """Return a line for each wheel that is to be looked at again."""
    lines = (f"{_due(each):24} {_line(each.card)}" for each in rechecks)
    return "\n".join(lines) or "No wheel has a day to be looked at again."


def list_json(cards: Iterable[Card]) -> str:
    """Return cards as a JSON list of what they are known by."""
    return json.dumps(list(map(_known_by, cards)), indent=2, ensure_ascii=False)


def _known_by(card: Card) -> dict[str, object]:
    known = {step: card.answer(step) for step in ("tag", "wheel", "customer", "recheck_on")}
    return {"id": card.id, "begun_at": card.begun_at, **known, "open": len(open_places(card))}


def _section_text(section: Section, card: Card, places: Iterable[Place]) -> str:
    """Return a section with a line for each place that applies or was answered, empty where there is none."""
    names = {step.name for step in section.steps}
    shown = dict.fromkeys(place for place in (*places, *card.answers) if place.step in names)
    lines = [line for place in shown for line in _place_lines(place, card)]
    return "\n".join((section.name, *lines)) if lines else ""


def _place_lines(place: Place, card: Card) -> Iterator[str]:
    """Yield what stands at a place, and below it what stood there before."""
    step = STEPS[place.step]
    if step.optional and place not in card.answers and not card.corrected(*place):
        return
    side = {"side": f", {place.where}", "round": f", round {place.where}", "card": ""}[step.each]
    stands = (
        one_line(measured_words(card)) if step.name == "measured" else _answer(place, card.answer(*place))
    )
    yield f"  {step.words}{side}: {stands}"
    for entry in card.corrected(*place)[:-1]:
        yield f"      before: {_entry(entry)}"


def _entry(entry: Entry) -> str:
    by = f" by {one_line(entry.by)}" if entry.by else ""
    return f"{_answer(entry.place, entry.value)}, {entry.at}{by}"


def _answer(place: Place, value: Value) -> str:
    """Return an answer with its unit."""
    return one_line(STEPS[place.step].said(value)) or "not answered"


def _line(card: Card) -> str:
    """Return which wheel a card is of."""
    known = [
        f"tag {card.text('tag')}" if card.answer("tag") else "no tag",
        card.text("wheel"),
        card.text("customer"),
    ]
    stop = stop_words(headline_of_card(card))
    left = len(open_places(card))
    parts = (card.id[:8], card.begun_at[:10], *known, stop, f"{left} open" if left else "complete")
    return one_line(", ".join(filter(None, parts)))


def _due(recheck: Recheck) -> str:
    day = recheck.card.text("recheck_on")
    if recheck.overdue > 0:
        return f"{day} overdue {recheck.overdue} d"
    return f"{day} today" if recheck.overdue == 0 else f"{day} in {-recheck.overdue} d"


def _at(place: Place) -> dict[str, object]:
    return {"step": place.step, "where": place.where}
