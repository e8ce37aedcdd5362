"""Frame: the wheel in its frame, and what must hold before anybody rides it."""

from conemodel.base.units import NEWTON_METRE
from conemodel.tasks.job_card.card import Card
from conemodel.tasks.job_card.sections.as_found import PLAY, TURNING, YES_NO
from conemodel.tasks.job_card.sections.setting import BY_FEEL, BY_WRENCH
from conemodel.tasks.job_card.sections.who import DISC, FRONT
from conemodel.tasks.job_card.step import Amount, Choice, when

lever = when("held_by", "quick release")
nutted = when("held_by", "nuts", "thru-axle")
disc = when("brake", DISC)


def open_fork(card: Card) -> bool:
    """Return whether the wheel sits in a fork's open slots, which have tabs to keep it there."""
    return card.answer("wheel") == FRONT and card.answer("held_by") in ("quick release", "nuts")


def torque_read(card: Card) -> bool:
    """Return whether nuts or axle were tightened by a wrench that shows a torque."""
    return nutted(card) and card.answer("axle_nuts") == BY_WRENCH


STEPS = (
    Choice(
        name="lever", words="Lever", applies=lever, choices=("firm, marks the palm", "light", "could not be closed"),
    ),
    Choice(name="axle_nuts", words="Axle or axle nuts", applies=nutted, choices=(BY_WRENCH, BY_FEEL)),
    Amount(
        name="axle_torque", words="Their torque", applies=torque_read, unit=NEWTON_METRE, least=1, most=80, step=1,
    ),
    Choice(
        name="tabs", words="Retention tabs in place", applies=open_fork, choices=YES_NO,
    ),
    Choice(name="play_closed", words="Play at the rim, clamp closed", choices=PLAY),
    Choice(
        name="turning", words="Turning", choices=TURNING,
        caution="Fingers and a spinning rotor or spokes do not go together.",
    ),
    Choice(name="rim_central", words="Rim central", choices=YES_NO),
    Choice(name="brake_works", words="Brake connected and working", choices=YES_NO),
    Choice(
        name="rotor", words="Rotor clean and clear", applies=disc, choices=YES_NO,
        caution="A rotor is hot after a ride: let it cool. No grease, no fingers on it.",
    ),
)  # fmt: skip
