"""Fit: what went in, and the fixed side, measured again after it was locked."""

from conemodel.base.units import MM, NEWTON_METRE
from conemodel.tasks.job_card.card import Card
from conemodel.tasks.job_card.sections.setting import BY_FEEL, BY_WRENCH
from conemodel.tasks.job_card.sections.who import FREEHUB
from conemodel.tasks.job_card.step import Amount, Choice, when

freehub = when("drive", FREEHUB)


def bolt_touched(card: Card) -> bool:
    """Return whether the freehub's fixing bolt was undone or checked."""
    return freehub(card) and card.answer("freehub_body") not in (None, "left on")


def bolt_torque_read(card: Card) -> bool:
    """Return whether that bolt was tightened by a wrench that shows a torque."""
    return bolt_touched(card) and card.answer("freehub_bolt") not in (None, BY_FEEL)


STEPS = (
    Choice(
        name="balls", words="Balls", choices=("all new, grade 25", "all new, grade 100", "all new", "old ones again"),
        hint="Both rows together, from one packet.",
    ),
    Choice(name="grease", words="Grease", choices=("bearing grease", "waterproof grease", "other")),
    Choice(name="grease_fill", words="How much", choices=("a bed in each cup", "cups full")),
    Choice(
        name="freehub_body", words="Freehub body", applies=freehub,
        choices=("left on", "taken off and cleaned", "renewed"),
        caution="Anti-seize belongs on the splines, never near the rotor.",
    ),
    Choice(
        name="freehub_bolt", words="Its fixing bolt", applies=bolt_touched,
        choices=(f"{BY_WRENCH}, maker's figure", BY_WRENCH, BY_FEEL),
    ),
    Amount(
        name="freehub_torque", words="The bolt's torque", applies=bolt_torque_read,
        unit=NEWTON_METRE, least=1, most=80, step=1,
    ),
    Amount(
        name="fixed_protrusion", words="Fixed side: axle beyond the locknut, after locking",
        unit=MM, least=0, most=60, step=0.1,
    ),
    Amount(
        name="width", words="Over both locknuts, after locking",
        unit=MM, least=60, most=250, step=0.5,
    ),
)  # fmt: skip
