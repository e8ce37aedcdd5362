"""What can be done at the bench. Angles in rad, outward positive, as they stand on the clock."""

from dataclasses import dataclass
from typing import Literal

from conemodel.parts.setting import AxleHeld, ClampSeat, Technique

Effort = Literal["light", "firm", "hard"]
Grip = Literal["rim", "axle end"]


@dataclass(frozen=True, slots=True)
class Take:
    """Put the hub of this number on the bench."""

    hub: int


@dataclass(frozen=True, slots=True)
class ScrewIn:
    """Screw the cone in by finger until the balls are pinched."""


@dataclass(frozen=True, slots=True)
class TurnCone:
    """Turn the cone with the spanner to `angle` on the clock [rad], outward positive."""

    angle: float


@dataclass(frozen=True, slots=True)
class Mark:
    """Draw a line over axle, cone and locknut."""


@dataclass(frozen=True, slots=True)
class HoldAxle:
    """Hold the axle in a vice, by spanners on the far side, or let go of it."""

    by: AxleHeld


@dataclass(frozen=True, slots=True)
class HoldCone:
    """Put a spanner on the cone, or take it off."""

    held: bool = True


@dataclass(frozen=True, slots=True)
class Tighten:
    """Tighten the locknut against the cone, or further if it is tight."""

    effort: Effort = "firm"
    technique: Technique = "nut turned"


@dataclass(frozen=True, slots=True)
class Undo:
    """Undo the locknut, holding the cone."""


@dataclass(frozen=True, slots=True)
class Trim:
    """Turn cone and locknut together, two spanners the same way, by `angle` [rad], outward positive."""

    angle: float


@dataclass(frozen=True, slots=True)
class TurnWheel:
    """Turn the wheel on by a quarter."""


@dataclass(frozen=True, slots=True)
class TurnAxle:
    """Turn the axle on by a quarter."""


@dataclass(frozen=True, slots=True)
class Rock:
    """Rock the wheel, gripped at the rim or at the axle end; briskly enough to knock, or slowly."""

    grip: Grip = "rim"
    brisk: bool = True


@dataclass(frozen=True, slots=True)
class Twirl:
    """Twirl the axle in the fingers, through a full turn or less."""

    full_turn: bool = True


@dataclass(frozen=True, slots=True)
class Spin:
    """Spin the wheel and let it coast."""


@dataclass(frozen=True, slots=True)
class Wiggle:
    """Wiggle the loose cone on its thread."""


@dataclass(frozen=True, slots=True)
class FitClamp:
    """Fit the clamp on a seat; None takes it off."""

    seat: ClampSeat | None


@dataclass(frozen=True, slots=True)
class CloseClamp:
    """Close the clamp."""


@dataclass(frozen=True, slots=True)
class OpenClamp:
    """Open the clamp."""


@dataclass(frozen=True, slots=True)
class Look:
    """Look at something: how far the axle stands out, how many balls there are, lever, brake."""

    at: Literal["protrusion", "balls", "lever", "brake"]


@dataclass(frozen=True, slots=True)
class PutRight:
    """Fit an axle of the right length, make up the balls, or connect the brake."""

    what: Literal["axle", "balls", "brake"]


@dataclass(frozen=True, slots=True)
class Answer:
    """Answer a question of the exercise."""

    question: str
    word: str


@dataclass(frozen=True, slots=True)
class Finish:
    """Say that the hub is done; or refuse it, as not fit to be adjusted."""

    refuse: bool = False


@dataclass(frozen=True, slots=True)
class TakeBack:
    """Take the last move back; free practice only."""


Action = (
    Take
    | ScrewIn
    | TurnCone
    | Mark
    | HoldAxle
    | HoldCone
    | Tighten
    | Undo
    | Trim
    | TurnWheel
    | TurnAxle
    | Rock
    | Twirl
    | Spin
    | Wiggle
    | FitClamp
    | CloseClamp
    | OpenClamp
    | Look
    | PutRight
    | Answer
    | Finish
    | TakeBack
)
