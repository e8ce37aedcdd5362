"""What the program advises for a round of setting the cone, and what a card tells it of the rounds before."""

from collections.abc import Mapping

from conemodel.base.units import MINUTE
from conemodel.parts.known_scenario import KnownScenario
from conemodel.parts.readings import MOST_ROUNDS, ROUNDS, Play, Readings, Round
from conemodel.parts.scenario import Scenario
from conemodel.tasks.job_card.card import Card, Entry, Place, Value
from conemodel.tasks.job_card.sections.setting import LONGEST_ADVICE, LOOSE, TIGHT
from conemodel.tasks.job_card.steps import rounds_of
from conemodel.tasks.job_card.turn_left import TurnAdvice, coming_round, measured_turn, turn_words
from conemodel.tasks.setting.middle import set_in_middle, spread_of_assumed_sizes
from conemodel.tasks.setting.predict import predict
from conemodel.tasks.wording import CLOCK_MINUTE, clock_minutes

FELT = {LOOSE: Round(rim_closed=Play(hand="slight")), TIGHT: Round(turns_closed="tight")}
"""What *Check a hub* is told of an outcome: loose is play that is felt clamped, tight a tight turn."""


def advise_first(hub: Scenario) -> TurnAdvice:
    """Return how far the cone of a hub is backed off from finger contact, were everything as assumed.

    Raises:
        NotConverged: no balance of forces was found.
    """
    middle = set_in_middle(hub)
    minutes = round(MINUTE.from_si(middle.setting.back_off))
    sure = predict(middle).verdict.headline.answer.certainty
    words = f"{turn_words(minutes)} from finger contact{f', {sure}' if sure else ''}{_of_assumed_sizes(hub)}"
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
        if outcome not in FELT or not isinstance(turned, int | float):
            break
        # as found, the first round has no turn: where the cone stood then is said by its place
        way = "turned_out" if turned > 0 else "turned_in"
        turn = {way: abs(MINUTE.to_si(turned))} if looks else {}
        looks.append(FELT[str(outcome)].replace(**turn))
    first = card.answer("turn", "1")
    if not looks or not isinstance(first, int | float):
        return None
    rounds = dict(zip(ROUNDS, looks, strict=False))
    told = Readings(clamp=card.text("held_by") or None, cone_out=MINUTE.to_si(first))
    return told.replace(**rounds)


def answers_of_measured(card: Card, measured: str) -> Mapping[Place, Value]:
    """Return what a hub that was measured answers on a card: it, and the turn advised for the round to come."""
    told = card.with_entry(Entry(at="", by=None, place=Place("measured"), value=measured))
    advised = advise_measured(told) or {}
    turns = {Place("advice", where): turn.words[:LONGEST_ADVICE] for where, turn in advised.items()}
    return {Place("measured"): measured, **turns}


def advise_measured(card: Card) -> Mapping[str, TurnAdvice] | None:
    """Return the turn that is left of a measured one, by the round to come; None where nothing measured tells one.

    After a round that came out right no round is to come, and nothing is advised.
    """
    turn, coming = measured_turn(card), coming_round(card)
    if turn is None:
        return None
    tried = coming is None or coming == "1" or card.answer("outcome", str(int(coming) - 1)) in FELT
    return {coming: turn} if coming and tried else {}
