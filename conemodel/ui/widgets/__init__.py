"""Four widgets for the hand: rock the wheel, twirl the axle, turn the cone, spin the wheel.

They run in the browser, driven by curves computed in Python, which hears of a gesture once it is over. What a
contract holds goes to the reader's browser as it stands: the curves must be there to be felt. Hidden numbers of an
exercise that no hand, ear or eye needs (target, window, thread fit, clamp force) stay out of them.
"""

from conemodel.ui.widgets.contract_rock import AXLE_FINGERS, Grip, RockCurve, Rocked, RockFelt, RockHand
from conemodel.ui.widgets.contract_turning import (
    SpinCurve,
    SpinFelt,
    Spun,
    Tool,
    Turned,
    TurnResist,
    TurnZone,
)
from conemodel.ui.widgets.contract_twirl import Grit, TwirlCurve, Twirled, TwirlFelt, TwirlHand
from conemodel.ui.widgets.mount import rock_wheel, spin_wheel, turn_cone, twirl_axle

__all__ = [
    "AXLE_FINGERS",
    "Grip",
    "Grit",
    "RockCurve",
    "RockFelt",
    "RockHand",
    "Rocked",
    "SpinCurve",
    "SpinFelt",
    "Spun",
    "Tool",
    "TurnResist",
    "TurnZone",
    "Turned",
    "TwirlCurve",
    "TwirlFelt",
    "TwirlHand",
    "Twirled",
    "rock_wheel",
    "spin_wheel",
    "turn_cone",
    "twirl_axle",
]
