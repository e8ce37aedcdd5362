"""What can hold a wheel in its frame: one object for each kind of clamp, and everything that depends on the kind."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, get_args

from conemodel.parts import unknowns
from conemodel.parts.setting import ClampSeat
from conemodel.parts.unknowns.unknown import Unknown

ON_LOCKNUTS: tuple[ClampSeat, ...] = ("dropouts", "spacers on locknuts")
"""Seats on which a clamp presses on both locknuts."""
NUT_STATES = ("loose", "part tight", "tight")
"""What anything on a thread is called untightened, part of the way, and tightened."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ClampKind:
    """One kind of clamp.

    Attributes:
        words: what it is called in a sentence.
        part: what it is called on a drawing.
        handle: what the hand closes.
        control: what the hand holds, as a label; states: what it is called open, part of the way, and closed.
        taker: what takes end play when it is closed, in a word.
        closed: what the hand finds when it has closed it.
        see_to: what to look at where it does not clamp, and how to close it again. Common practice, no source.
        force: clamp force assumed where nothing was given [N].
        given_by: the field of a clamp, beside its force, that may say how hard it holds.
        through_axle: a rod through a hollow axle, whose tension squeezes the axle; else the axle carries the tension
            itself, its nuts turn on the axle's own thread and press on the locknuts only.
        open_dropouts: the wheel sits in open slots, so that the clamp's friction alone keeps it there.
        held_by_ends: an axle that stands proud of its dropouts takes the clamp's force in their place.
    """

    words: str
    part: str
    handle: str
    control: str
    states: tuple[str, str, str]
    taker: str
    closed: str
    see_to: str
    force: Unknown
    given_by: str
    through_axle: bool
    open_dropouts: bool
    held_by_ends: bool

    @property
    def seats(self) -> tuple[ClampSeat, ...]:
        """What it can press on."""
        return get_args(ClampSeat) if self.through_axle else ON_LOCKNUTS


CLAMP_KINDS = {
    "quick release": ClampKind(
        words="quick release",
        part="quick release",
        handle="lever",
        control="Quick-release lever",
        states=("open", "part closed", "shut"),
        taker="lever",
        closed="The lever closes firmly.",
        see_to="Look at the lever, its springs, the adjusting nut and the dropouts, and close it again so that it "
        "takes a firm hand.",
        force=unknowns.joint.CLAMP_FORCE,
        given_by="pick_up",
        through_axle=True,
        open_dropouts=True,
        held_by_ends=True,
    ),
    "nuts": ClampKind(
        words="axle nuts",
        part="axle nut",
        handle="axle nuts",
        control="Axle nuts",
        states=NUT_STATES,
        taker="axle nuts",
        closed="The nuts are tight.",
        see_to="Look at the axle nuts, their washers, the axle's thread and the dropouts, and tighten them again as "
        "hard as the maker states.",
        force=unknowns.joint.NUT_FORCE,
        given_by="torque",
        through_axle=False,
        open_dropouts=True,
        held_by_ends=False,
    ),
    "thru-axle": ClampKind(
        words="thru-axle",
        part="thru-axle",
        handle="clamp",
        control="Thru-axle handle",
        states=NUT_STATES,
        taker="thru-axle",
        closed="The axle is tight.",
        see_to="Look at the thru-axle, its thread and the faces it pulls together, and tighten it again as hard as the "
        "maker states.",
        force=unknowns.joint.THRU_AXLE_FORCE,
        given_by="torque",
        through_axle=True,
        open_dropouts=False,
        held_by_ends=False,
    ),
}
"""Every kind of clamp by its name in a file."""

SEE_TO_ANY = (
    "Look at what holds the wheel, its thread and the dropouts, and close it as hard as the maker states."
)
"""What to look at where a clamp does not clamp and nobody said which it is. Common practice, no source."""


def key_of(name: str) -> str:
    """Return the name of a kind of clamp as a key in a file.

    >>> key_of("thru-axle")
    'thru_axle'
    """
    return name.replace(" ", "_").replace("-", "_")


if TYPE_CHECKING:
    ClampName = str
else:
    ClampName = Literal[tuple(CLAMP_KINDS)]
