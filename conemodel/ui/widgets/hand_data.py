"""What a hand is given that rocks, twirls or pulls at a spanner, as plain data."""

from dataclasses import asdict
from typing import Any

from conemodel.ui.widgets.contract_rock import Grip, RockCurve, RockFelt, RockHand
from conemodel.ui.widgets.contract_turning import TurnResist, TurnZone
from conemodel.ui.widgets.contract_twirl import TwirlCurve, TwirlFelt, TwirlHand


def rock_data(
    *, curve: RockCurve, felt: RockFelt, grip: Grip, hand: RockHand, magnification: float
) -> dict[str, Any]:
    """Return what the hand needs that rocks, as plain data."""
    data = {**asdict(hand), "hand": hand.stiffness, "grip": grip, "felt": asdict(felt)}
    data |= {"movement": list(curve.movement), "force": list(curve.force)}
    return data | {"magnification": magnification}


def twirl_data(*, curve: TwirlCurve, felt: TwirlFelt, hand: TwirlHand) -> dict[str, Any]:
    """Return what the fingers need that twirl, as plain data."""
    data = {**asdict(curve), **asdict(hand), "felt": asdict(felt)}
    return data | {"friction": list(curve.friction), "dents": list(curve.dents)}


def resist_data(resist: TurnResist, zones: tuple[TurnZone, ...] = ()) -> dict[str, Any]:
    """Return what a spanner meets, and the words for it, as plain data."""
    return {
        "resist": {**asdict(resist), "angle": list(resist.angle), "effort": list(resist.effort)},
        "zones": [{"from": zone.start, "text": zone.text} for zone in sorted(zones, key=lambda z: z.start)],
    }
