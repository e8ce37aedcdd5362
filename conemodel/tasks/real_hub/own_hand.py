"""What a hand's threshold, found on a real hub, is worth where play is judged by that hand again."""

from math import exp, log
from statistics import NormalDist

from conemodel.parts.priors import Beliefs
from conemodel.parts.unknowns.senses import FELT_AT_RIM
from conemodel.tasks.hand.estimate import HELD, Interval
from conemodel.tasks.real_hub.fit import Fitted
from conemodel.tasks.real_hub.readings import NEW_WITH_EACH_LOOK
from conemodel.tasks.real_hub.told import what_is_told


def own_threshold(fitted: Fitted) -> Interval | None:
    """Return the least play at the rim that the hand feels [m], None where its readings do not tell it."""
    told = None if fitted.clash else what_is_told(fitted)["felt_play"]
    return told.now if told is not None and told.told else None


def beliefs_of_hand(threshold: Interval) -> Beliefs:
    """Return what is believed of a hub that a hand of this threshold [m] looks at.

    A look errs by what is not known of the threshold, and by what is new with every look (squares add up).
    """
    reach = NormalDist().inv_cdf((1 + HELD) / 2)
    unknown = log(threshold.high / threshold.low) / (2 * reach)
    look = NEW_WITH_EACH_LOOK * log(FELT_AT_RIM.factor)
    return Beliefs(own_felt_at_rim=threshold.value, own_factor=exp((unknown**2 + look**2) ** 0.5))
