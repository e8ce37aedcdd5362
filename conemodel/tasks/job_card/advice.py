"""What the program advises for a round of setting the cone, and what a card tells it of the rounds before."""

from collections.abc import Mapping
from dataclasses import dataclass

from conemodel.base.units import MINUTE
from conemodel.parts.known_scenario import KnownScenario
from conemodel.parts.readings import MOST_ROUNDS, ROUNDS, Play, Readings, Round
from conemodel.parts.scenario import Scenario
from conemodel.tasks.job_card.card import Card, Place, Value
from conemodel.tasks.job_card.sections.setting import LONGEST_ADVICE, LOOSE, TIGHT
from conemodel.tasks.job_card.step import MOST_ROUNDS as MOST_ON_CARD
from conemodel.tasks.job_card.steps import rounds_of
from conemodel.tasks.setting.middle import set_in_middle, spread_of_assumed_sizes
from conemodel.tasks.setting.predict import predict
from conemodel.tasks.wording import CLOCK_MINUTE, clock_minutes, direction

FELT = {LOOSE: Round(rim_closed=Play(hand="slight")), TIGHT: Round(turns_closed="tight")}
"""What *Check a hub* is told of an outcome: loose is play that is felt clamped, tight a tight turn."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnAdvice:
    """A turn advised for a round: in words, and in minutes of a clock face, out positive; None where none is named."""

    words: str
    minutes: int | None = None


def advise_first(hub: Scenario) -> TurnAdvice:
    """Return how far the cone of a hub is backed off from finger contact, were everything as assumed.

    Raises:
        NotConverged: no balance of forces was found.
    """
    middle = set_in_middle(hub)
    minutes = round(MINUTE.from_si(middle.setting.back_off))
    sure = predict(middle).verdict.headline.answer.certainty
    words = (
        f"{clock_minutes(middle.setting.back_off)} {direction(middle.setting.back_off)} from finger contact"
    )
    words = f"{words}{f', {sure}' if sure else ''}{_of_assumed_sizes(hub)}"
    return TurnAdvice(words=words[:LONGEST_ADVICE], minutes=minutes or None)


def _of_assumed_sizes(hub: Scenario) -> str:
    """Return what the sizes that nobody measured may do to the turn, empty where all are known or described."""
    spread = spread_of_assumed_sizes(hub) if isinstance(hub, KnownScenario) else 0.0
    if not spread:
        return ""
    least = CLOCK_MINUTE / 2
    about = "about" if spread >= least else "less than"
    return f"; sizes only assumed move this by {about} {clock_minutes(max(spread, least), to_half=True)}"


def rounds_told(card: Card) -> Readings | None:
    """Return the rounds of a card as readings for *Check a hub*, None before one came out loose or tight."""
    looks: list[Round] = []
    for number in range(1, min(rounds_of(card), MOST_ROUNDS) + 1):
        outcome, turned = card.answer("outcome", str(number)), card.answer("turn", str(number))
        if outcome not in FELT or not isinstance(turned, int):
            break
        # as found, the first round has no turn: where the cone stood then is said by its place
        way = "turned_out" if turned > 0 else "turned_in"
        turn = {way: abs(MINUTE.to_si(turned))} if looks else {}
        looks.append(FELT[str(outcome)].replace(**turn))
    first = card.answer("turn", "1")
    if not looks or not isinstance(first, int):
        return None
    rounds = dict(zip(ROUNDS, looks, strict=False))
    told = Readings(clamp=card.text("held_by") or None, cone_out=MINUTE.to_si(first))
    return told.replace(**rounds)


def answers_of_measured(card: Card, measured: str, advised: str) -> Mapping[Place, Value]:
    """Return what a hub that was measured answers on a card: it, and the turn `advised` for the round to come.

    `advised` is empty where no turn is to be made; after a round that came out right none is to come.
    """
    answers: dict[Place, Value] = {Place("measured"): measured}
    rounds = [str(number + 1) for number in range(MOST_ON_CARD)]
    coming = next((where for where in rounds if card.answer("turn", where) is None), None)
    before = rounds[rounds.index(coming) - 1] if coming and coming != "1" else None
    if advised and coming and (before is None or card.answer("outcome", before) in FELT):
        answers[Place("advice", coming)] = advised[:LONGEST_ADVICE]
    return answers
