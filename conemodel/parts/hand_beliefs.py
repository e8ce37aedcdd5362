"""What is believed of the hand that looks at a hub, turns its cone and says what it feels."""

from conemodel.base.units import DEG, MM, ONE
from conemodel.parts import unknowns
from conemodel.parts.distributions import standard_error
from conemodel.parts.schema import Part, quantity


class HandBeliefs(Part):
    """How far a hand can be trusted; its own threshold only where that was found on a real hub."""

    hand_error: float = quantity(
        DEG,
        "standard error of a hand that turns a cone from a mark",
        default=standard_error(unknowns.hands.MARK_ERROR, DEG),
        above=0,
        at_most=30,
    )
    threshold_factor: float = quantity(
        ONE,
        "factor either way that holds two thirds of hands' thresholds",
        default=unknowns.senses.FELT_AT_RIM.factor,
        above=1.01,
        at_most=3,
    )
    own_felt_at_rim: float | None = quantity(
        MM, "play at the rim from which the hand that looked feels it, if found on a real hub", default=None,
        above=0, at_most=5,
    )  # fmt: skip
    own_factor: float = quantity(
        ONE, "factor either way that holds two thirds of looks of that hand",
        default=unknowns.senses.FELT_AT_RIM.factor, above=1.01, at_most=10,
    )  # fmt: skip
    slip: float = quantity(
        ONE, "chance that a word, count or look is simply wrong", default=0.03, above=0, below=0.3
    )
