"""Four widgets for the hand: rock the wheel, twirl the axle, turn the cone, spin the wheel.

They run in the browser, driven by curves computed in Python, which hears of a gesture once it is over.
"""

from conemodel.ui.widgets.contract import (
    AXLE_FINGERS,
    Grip,
    Grit,
    RockCurve,
    Rocked,
    RockFelt,
    RockHand,
    Tool,
    TwirlCurve,
    Twirled,
    TwirlFelt,
    TwirlHand,
)
from conemodel.ui.widgets.contract_turning import (
    SpinCurve,
    SpinFelt,
    Spun,
    Turned,
    TurnResist,
    TurnZone,
)
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
