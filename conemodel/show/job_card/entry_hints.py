"""What is usual of a step that asks for an amount: said beside it, and where its entry begins."""

from collections.abc import Sequence

from conemodel.parts.known_scenario import is_front
from conemodel.parts.scenario import Scenario
from conemodel.tasks.job_card.card import Card, Place
from conemodel.tasks.job_card.offers import Offer, usual_length
from conemodel.tasks.job_card.sections.who import FRONT, REAR
from conemodel.tasks.job_card.step import Amount, Step
from conemodel.tasks.job_card.torque_table import MARK, USUAL_TORQUES, UsualTorque, axle_torque


def entry_hint(step: Step, card: Card, hub: Scenario | None) -> str:
    """Return how a step is done in a line, with what is usual where that is known."""
    if torque := usual_torque(step, card):
        return f"Usual: {torque.words}. {MARK}"
    if step.name == "fixed_protrusion" and (usual := usual_length(step.name, card, hub)):
        return f"Usual, not measured: {usual:g} mm. Measure it and enter it."
    return step.hint


def entry_caution(step: Step, card: Card, hub: Scenario | None) -> str:
    """Return what is to be minded at a step: that what was answered is not what the card's own hub is, or as ever."""
    if hub is None:
        return step.caution
    end = FRONT if is_front(hub) else REAR
    differs = {
        "wheel": (end, f"a {end} hub"),
        "held_by": (hub.clamp.kind, f"one with {hub.clamp.traits.words}"),
    }
    stands, (of_hub, words) = card.answer(step.name), differs.get(step.name, (None, ""))
    if not words or stands in (None, of_hub):
        return step.caution
    return f"This says {stands}, the hub on this card is {words}: the two do not agree."


def usual_torque(step: Step, card: Card) -> UsualTorque | None:
    """Return the usual torque where one is asked for; None for any other step."""
    if step.name == "axle_torque":
        return axle_torque(card.text("wheel"), card.text("held_by"))
    return next((one for one in USUAL_TORQUES if one.step == step.name), None)


def entry_start(step: Step, place: Place, card: Card, offers: Sequence[Offer], hub: Scenario | None) -> float:
    """Return where a stepper begins: the first number offered, what is usual, or the least."""
    if not isinstance(step, Amount):
        return 0.0
    offered = (offer.answers.get(place) for offer in offers)
    known = next((value for value in offered if isinstance(value, int | float)), None)
    known = next((value for value in (known, usual_length(step.name, card, hub), step.usual) if value), None)
    usual = usual_torque(step, card)
    if known is None and usual:
        known = usual.low
    return float(max(step.least, 0) if known is None else known)
