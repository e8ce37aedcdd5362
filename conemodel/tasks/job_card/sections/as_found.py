"""As found: felt in the frame, clamped, before anything is touched: the only evidence of what was wrong."""

from typing import get_args

from conemodel.base.units import MM
from conemodel.parts.felt_play import PLAY_WORDS
from conemodel.parts.readings import TurningWord
from conemodel.tasks.job_card.step import Amount, Choice

NOT_TRIED, NOT_LOOKED = "not tried", "not looked"

PLAY = (*PLAY_WORDS, NOT_TRIED)
TURNING = (*get_args(TurningWord), NOT_TRIED)
YES_NO = ("yes", "no", NOT_LOOKED)

STEPS = (
    Choice(name="found_play_closed", words="Play at the rim, clamp closed", choices=PLAY),
    Choice(name="found_play_open", words="Play at the rim, wheel out, clamp open", choices=PLAY),
    Choice(name="found_turning", words="Turning", choices=TURNING),
    Choice(name="found_far_locked", words="Far side locked", choices=YES_NO),
    Amount(name="found_gauge", words="Play by gauge", unit=MM, least=0, most=3, step=0.01, optional=True),
    Amount(
        name="found_protrusion", words="Axle beyond the locknut", each="side",
        unit=MM, least=0, most=60, step=0.1, optional=True,
    ),
    Amount(
        name="dropout_thickness", words="Dropout's thickness, at the slot", unit=MM, least=1, most=40, step=0.1,
        optional=True, hint="A quick release's axle must end below its outer face, on both sides.",
    ),
)  # fmt: skip
