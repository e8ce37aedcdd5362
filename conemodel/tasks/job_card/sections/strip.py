"""Strip: what came off, left and right, in the order it came off; and how it looked once it was clean."""

from conemodel.parts.hub_families import BALLS
from conemodel.tasks.job_card.sections.as_found import NOT_LOOKED
from conemodel.tasks.job_card.step import Amount, Choice

GOOD, PALE, PITTED, DAMAGED, RENEWED = "good", "pale track", "pitted", "damaged", "renewed"

LOOKED = (GOOD, PALE, PITTED, RENEWED, NOT_LOOKED)
WORN = (GOOD, "worn", DAMAGED, RENEWED, NOT_LOOKED)
"""Of parts without a track."""

BALL_SIZES = (*BALLS, "other")

STEPS = (
    Amount(name="ball_count", words="Balls counted", each="side", least=0, most=40, step=1),
    Choice(name="ball_size", words="Ball size", each="side", choices=BALL_SIZES),
    Choice(
        name="cone", words="Cone", each="side", choices=LOOKED,
        hint="Follow the track with the tip of a ball-point pen.",
    ),
    Choice(
        name="cup", words="Cup", each="side", choices=LOOKED,
        caution="Solvent: gloves, air, no flame. It must not reach tyre, rotor or pads.",
    ),
    Choice(
        name="seal", words="Seal or cap", each="side", choices=WORN,
        caution="Eyes: a cap that is prised off can fly.",
    ),
    Choice(name="washer", words="Washer's tab", each="side", choices=WORN),
    Choice(
        name="axle_thread", words="Axle's thread", each="side", choices=WORN,
        hint="Roll the axle on a flat plate: a bent one wanders.",
    ),
)  # fmt: skip
