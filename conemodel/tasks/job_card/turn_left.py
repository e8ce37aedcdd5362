"""What is left to turn of a measured turn, by what the cone of a card was turned since it was measured."""

from collections.abc import Mapping
from dataclasses import dataclass

from conemodel.base.units import DEG, MINUTE
from conemodel.tasks.job_card.card import Card, Place, Value
from conemodel.tasks.job_card.measured import Measured, read_measured
from conemodel.tasks.job_card.sections.setting import LOOSE, RIGHT, TIGHT
from conemodel.tasks.job_card.step import MOST_ROUNDS
from conemodel.tasks.job_card.steps import STEPS
from conemodel.tasks.wording import clock_minutes, direction

AGAINST = {LOOSE: 1, TIGHT: -1}
"""Way of a turn that makes an outcome worse: a measurement that asks for it holds no longer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnAdvice:
    """A turn advised for a round: in words, and in minutes of a clock face, out positive; None where none is named."""

    words: str
    minutes: float | None = None


def measured_turn(card: Card) -> TurnAdvice | None:
    """Return the turn that a measurement leaves to make from where the cone stands; None where it tells none.

    Where it came out otherwise than measured no turn is named: either the reading or the outcome is wrong.
    """
    measured = read_measured(card.text("measured"))
    if measured and measured.turned_to is not None:
        return TurnAdvice(words=_made(measured.turned_to))
    if measured is None or measured.turn is None:
        return None
    asked = round(2 * MINUTE.from_si(measured.turn)) / 2
    moved = _moved_since(card, asked)
    left = asked - sum(moved.values())
    tried = _last_outcome(card)
    if tried == RIGHT and moved:
        return TurnAdvice(words="No turn: it came out right.")
    way = (left > 0) - (left < 0)
    if tried in AGAINST and (way == AGAINST[tried] or (moved and not way)):
        return TurnAdvice(
            words=f"It came out {tried}, which does not agree with what was measured: measure it again."
        )
    return _left(left, measured, begun=bool(moved))


def turn_words(minutes: float) -> str:
    """Return a turn of the cone in minutes of a clock face, out positive, with its degrees.

    >>> turn_words(-3.5), turn_words(6)
    ('3½ minutes (21°) in (clockwise)', '6 minutes (36°) out (anticlockwise)')
    """
    return f"{turn_size(minutes)} {direction(minutes)}"


def turn_size(minutes: float) -> str:
    """Return the same without its way.

    >>> turn_size(-0.5)
    'half a minute (3°)'
    """
    angle = MINUTE.to_si(minutes)
    return f"{clock_minutes(angle, to_half=True)} ({abs(DEG.from_si(angle)):.0f}°)"


def measured_words(card: Card) -> str:
    """Return what was measured in a line, with the turn that is left of it; empty where nothing was."""
    said, turn = STEPS["measured"].said(card.answer("measured")), measured_turn(card)
    return f"{said}. {turn.words}" if turn else said


def coming_round(card: Card) -> str | None:
    """Return the first round whose turn was not answered, None where a card has no more rounds."""
    rounds = (str(number + 1) for number in range(MOST_ROUNDS))
    return next((where for where in rounds if card.answer("turn", where) is None), None)


def _left(left: float, measured: Measured, *, begun: bool) -> TurnAdvice:
    if not left:
        words = (
            "the measured turn is made: lock, clamp, rock and twirl it."
            if begun
            else "leave the cone where it is."
        )
        return TurnAdvice(words=f"As measured, {words}")
    if begun:
        return TurnAdvice(words=f"Left of the measured turn: {turn_words(left)}.", minutes=left)
    words = f"As measured, turn it {turn_words(left)} from the pen line: {measured.chances}."
    return TurnAdvice(words=words, minutes=left)


def _made(turned_to: float) -> str:
    """Return that the measured turn was made and not read after it, where the cone was `turned_to` [rad]."""
    way = "out of" if turned_to >= 0 else "in from"
    there = f"{clock_minutes(turned_to, to_half=True)} {way} finger contact"
    return f"As measured, the turn is made, to {there}: not read there yet."


def _moved_since(card: Card, measured: float) -> Mapping[str, float]:
    """Return the turns that stand and were made after a measurement [min of a clock face], by their rounds.

    A turn that stood before it and was corrected after it was made before it. In the first round only the `measured`
    turn or a part of it counts: any other says how far from finger contact the cone was already.
    """
    place = Place("measured")
    last = max(number for number, entry in enumerate(card.entries) if entry.place == place)
    before: dict[Place, Value] = {entry.place: entry.value for entry in card.entries[:last]}
    turned = {
        at.where: value for at, value in card.answers.items() if at.step == "turn" and before.get(at) is None
    }
    made = {where: value for where, value in turned.items() if isinstance(value, int | float)}
    return {
        where: value for where, value in made.items() if where != "1" or 0 < value * measured <= measured**2
    }


def _last_outcome(card: Card) -> str:
    """Return how the cone came out where it stands, empty where that was not tried yet."""
    coming = coming_round(card)
    last = int(coming) - 1 if coming else MOST_ROUNDS
    return card.text("outcome", str(last)) if last else ""
