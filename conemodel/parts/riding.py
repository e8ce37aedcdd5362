"""What riding puts on the wheel beside the rider: a chain that pulls, a brake that holds, and how often each comes."""

from typing import Literal

from conemodel.base.units import DEG, MM, NEWTON, ONE
from conemodel.parts.hub import Side
from conemodel.parts.schema import Part, quantity

DriveKind = Literal["none", "screw-on freewheel", "cassette", "fixed sprocket"]
BrakeKind = Literal["none", "rim", "disc"]

USUAL_CHAIN_OFFSET = {"screw-on freewheel": 25e-3, "cassette": -12e-3, "fixed sprocket": 5e-3}
"""Where the chain runs, outboard of the balls on the drive side [m]. Common practice, no source.

A screw-on freewheel hangs outboard of its row; a cassette sits on a body inboard of the row that carries it.
"""


class Drive(Part):
    """The chain on a driven wheel. How hard it pulls is an assumption: riders differ more than hubs."""

    kind: DriveKind = quantity(ONE, "what the chain runs on", default="none")
    side: Side = quantity(ONE, "side of the sprockets", default="right")
    chain_offset: float | None = quantity(
        MM,
        "where the chain runs, outboard of the plane of the balls on its side; inboard is below 0",
        default=None,
        at_least=-60,
        at_most=60,
    )
    pedal_force: float = quantity(
        NEWTON,
        "push on the pedal while pedalling, its mean; assumed",
        default=300.0,
        at_least=0,
        at_most=3000,
    )
    crank_length: float = quantity(MM, "length of the crank", default=170.0, at_least=50, at_most=250)
    chainring_teeth: int = quantity(ONE, "teeth of the chainring", default=42, at_least=9, at_most=80)
    sprocket_teeth: int = quantity(ONE, "teeth of the sprocket", default=18, at_least=9, at_most=60)

    @property
    def offset(self) -> float:
        """Where the chain runs, outboard of the balls on its side [m], as given or as is usual for its kind."""
        return USUAL_CHAIN_OFFSET.get(self.kind, 0.0) if self.chain_offset is None else self.chain_offset


class Brake(Part):
    """The brake on this wheel."""

    kind: BrakeKind = quantity(ONE, "what brakes the wheel", default="none")
    road_force: float = quantity(
        NEWTON,
        "what the road holds the braked wheel back with; assumed",
        default=200.0,
        at_least=0,
        at_most=2000,
    )
    rotor_radius: float = quantity(
        MM, "radius at which pads rub a rotor", default=70.0, above=20, at_most=200
    )
    rotor_offset: float = quantity(
        MM, "plane of the rotor, outboard of the balls on its side", default=15.0, at_least=-60, at_most=60
    )
    rotor_side: Side = quantity(ONE, "side of the rotor", default="left")
    angle: float = quantity(
        DEG,
        "where the pads stand, from straight up towards the rear",
        default=60.0,
        at_least=-180,
        at_most=180,
    )


class LoadMix(Part):
    """How much of the wheel's turning is done under each load; the rest is straight riding. Nobody has counted it."""

    pedalling: float = quantity(
        ONE,
        "share of the turns under the chain's pull, where there is a chain",
        default=0.33,
        at_least=0,
        at_most=1,
    )
    braking: float = quantity(
        ONE, "share of the turns braked, where there is a brake", default=0.02, at_least=0, at_most=1
    )
