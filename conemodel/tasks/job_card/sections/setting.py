"""Set: finger contact, and each round of setting the cone with what the program advised beside it."""

from typing import get_args

from conemodel.base.units import MINUTE, NEWTON_METRE
from conemodel.parts.hub_families import FAMILIES
from conemodel.parts.setting import ContactFound
from conemodel.tasks.job_card.measured import MeasuredText
from conemodel.tasks.job_card.sections.as_found import NOT_TRIED, YES_NO
from conemodel.tasks.job_card.step import Amount, Choice, Text, when

BY_FEEL, BY_WRENCH = "by feel", "torque wrench"
LOOSE, RIGHT, TIGHT = "loose", "right", "tight"

LONGEST_ADVICE = 400
"""Longest advice that is kept [characters]."""

STEPS = (
    Choice(name="contact", words="Finger contact found", choices=get_args(ContactFound)),
    Amount(
        name="turn", words="Cone turned", each="round", unit=MINUTE, least=-60, most=60, step=1,
        hint="From outside, in minutes of a clock face.",
    ),
    Text(name="advice", words="What was advised", each="round", optional=True, written=True, longest=LONGEST_ADVICE),
    Choice(
        name="outcome", words="Locked, clamped, rocked and twirled", each="round",
        choices=(LOOSE, RIGHT, TIGHT, NOT_TRIED),
    ),
    Choice(name="locknut", words="Locknut", choices=(BY_FEEL, BY_WRENCH)),
    Amount(
        name="locknut_torque", words="Its torque", applies=when("locknut", BY_WRENCH),
        unit=NEWTON_METRE, least=1, most=80, step=1, usual=FAMILIES["usual rear"].lock_torque,
    ),
    Choice(name="far_locked", words="Far side locked, tried again", choices=YES_NO),
    MeasuredText(name="measured", words="The hub as measured", optional=True, written=True, longest=4000),
)  # fmt: skip
"""`advice` and `measured` are not asked: the program writes them, `measured` as JSON."""
