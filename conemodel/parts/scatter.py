"""How much what one hand feels and does scatters: every spread, with its reason, in one place."""

from conemodel.base.units import DEG, ONE
from conemodel.parts import unknowns
from conemodel.parts.schema import Part, quantity

PLAY_FACTOR = round(unknowns.senses.FELT_AT_RIM.high / unknowns.senses.FELT_AT_RIM.usual, 2)
"""What two thirds of hands differ by in the play they just feel: as `FELT_AT_RIM` has it."""

RIPPLE_FACTOR = round(unknowns.senses.FELT_RIPPLE.high / unknowns.senses.FELT_RIPPLE.usual, 2)
"""The same of the ripple that fingers just feel: as `FELT_RIPPLE` has it."""

MOST = 3.0
"""Largest factor of a sense [-]."""


class Scatter(Part):
    """How much a hand varies. Two thirds of its acts lie within each factor; 1 leaves the scatter out.

    Half the variance is that of the sitting, the same for every hub felt in it, and half is new with every act: so a
    hand that feels the same thing twenty times errs 0.7 times as much as one that feels it once, and no less.
    That share is an assumption: a hand is warm or cold, practised or not, for as long as one sits.
    """

    play: float = quantity(
        ONE,
        "free play as it is felt: the factor by which hands differ in the play they just feel, an assumption there",
        default=PLAY_FACTOR,
        at_least=1,
        at_most=MOST,
    )
    drag: float = quantity(
        ONE,
        "how hard it turns, as it is felt; fingers that compare two torques miss a difference of 13 % (Jandura and "
        "Srinivasan 1994); with nothing beside it to compare, twice that: an assumption",
        default=1.25,
        at_least=1,
        at_most=MOST,
    )
    ripple: float = quantity(
        ONE,
        "unevenness as it is felt: the factor by which fingers differ in a ripple they just feel, an assumption there",
        default=RIPPLE_FACTOR,
        at_least=1,
        at_most=MOST,
    )
    pinch: float = quantity(
        ONE,
        "torque of the fingers that screw a cone in, from one time to the next; an assumption: half what hands differ "
        "by among themselves, on a scale of ratios",
        default=1.4,
        at_least=1,
        at_most=MOST,
    )
    pull: float = quantity(
        ONE,
        "torque of a hand that tightens a locknut without measuring it; an assumption: one light, firm or hard hand is "
        "still told from the next",
        default=1.12,
        at_least=1,
        at_most=2,
    )
    undo_drag: tuple[float, float] = quantity(
        DEG,
        "how far a cone that nobody holds goes out with the locknut as it is undone; an assumption: from a trace to "
        "where the hand would see it",
        default=(4.0, 40.0),
    )
