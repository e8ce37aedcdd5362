"""What is not measured on a hub: for each such quantity one range, one usual value, one reason and one word.

Whatever assumes one takes it from here: the ranges a turn is advised over (`Assumed`), what is believed before a check
(`Beliefs`), a population's spreads, what an exercise draws from, and the usual values of parts that leave them out.
A file may still give its own; where the program itself departs, `with_range` says why. What only one of these assumes,
the chance of a bent axle for one, stands there.
"""

from conemodel.parts.unknowns import hands, hub, joint, senses
from conemodel.parts.unknowns.unknown import Unknown

UNKNOWNS = tuple(
    unknown
    for module in (joint, hands, hub, senses)
    for unknown in vars(module).values()
    if isinstance(unknown, Unknown)
)
"""Every one of them, in order of its file."""
