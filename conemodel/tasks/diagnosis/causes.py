"""What may be the matter with a hub other than its setting: words, advice, and the degrees it comes in."""

from collections.abc import Callable
from dataclasses import dataclass

from conemodel.parts.priors import Beliefs
from conemodel.tasks.headline import DO_NOT_RIDE

Degrees = tuple[dict[str, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """One cause. How likely it is before anybody looked is a field of `Beliefs` with its name.

    Attributes:
        label: in words; advice: what to do about it.
        degrees: fields of `Case` that tell it from a sound hub, once for each degree, as likely as one another.
        grows: mean growth of end play in one ride [m].
        unsafe: the wheel can come out.
        needs_ends: it can be only where the wheel is held by the ends of an axle that stands in the dropouts.
    """

    label: str
    advice: str
    degrees: Callable[[Beliefs], Degrees] = lambda _: ({},)
    grows: Callable[[Beliefs], float] = lambda _: 0.0
    unsafe: bool = False
    needs_ends: bool = False


CAUSES = {
    "bent": Cause(
        label="bent axle or skew cone",
        advice="Tight in one place and loose elsewhere: skew. Roll the axle on a flat plate and see whether the track "
        "on the cones runs off centre; renew what is bent or skew. No setting of the cone is right all the way round.",
        degrees=lambda beliefs: tuple({"tilt": tilt} for tilt in beliefs.bends),
    ),
    "dented": Cause(
        label="dented (brinelled) or pitted race",
        advice="Look at cones and cups with a ball-point tip. Dented or pitted cones are renewed together with all the "
        "balls; a dented cup is renewed, or the hub. Setting the cone does not cure it.",
        degrees=lambda beliefs: tuple({"dent": depth} for depth in beliefs.dents),
    ),
    "gritty": Cause(
        label="grit, or dry and dirty grease",
        advice="Strip, clean, look at the races, and put it together with new balls and grease. Adjust after that.",
    ),
    "wrong_balls": Cause(
        label="wrong number or size of balls",
        advice="Strip and count twice. Renew all balls of both rows together, of the size and in the number the "
        "maker states; room for about 0.7 of a ball is as it should be, and a smaller ball is no cure.",
    ),
    "worn_thread": Cause(
        label="thread worn out",
        advice="Unlock and rock the cone on its thread. A cone that rocks, or a locknut that will not tighten, "
        "wants a new axle and cone; a setting on a worn-out thread does not hold.",
        degrees=lambda beliefs: tuple({"rocking": play} for play in beliefs.thread_play),
    ),
    "not_clamping": Cause(
        label="clamp not clamping",
        advice=f"{DO_NOT_RIDE}: play hardly changes on closing, as if the clamp did not clamp. Look at the "
        "lever, its springs, the adjusting nut and the dropouts, and close it again so that it takes a firm hand.",
        degrees=lambda beliefs: ({"closing": beliefs.idle_clamp_share},),
        unsafe=True,
    ),
    "elsewhere": Cause(
        label="play that is not the hub's",
        advice="Turning the cone does not take it out.",
        degrees=lambda beliefs: tuple({"elsewhere": play} for play in beliefs.play_elsewhere),
    ),
    "skew_dropouts": Cause(
        label="dropouts out of parallel",
        advice="Close the same clamp on spacers of the dropouts' thickness on the bench, then in the frame: play that "
        "goes only in the frame is the frame's, which bows the axle. Have the dropouts made parallel. A frame is bent "
        "straight by a qualified workshop only, by its maker's instructions, and never one of carbon or aluminium.",
        degrees=lambda beliefs: tuple({"lean": lean} for lean in beliefs.leans),
    ),
    "loose_cup": Cause(
        label="cup loose in the shell",
        advice="Play that comes back with every ride. Look whether a cup turns in its shell, or shows a bright edge "
        "where it has crept. A cup that moves has lost its seat; its shell, or the hub, is renewed. Setting the cone "
        "does not last.",
        grows=lambda beliefs: beliefs.growth,
    ),
    "creeping": Cause(
        label="locknut, washer or far side that creeps",
        advice="Play that comes back with riding: a setting that does not hold. See that the keyed washer still has "
        "its tab, that the far side is locked hard, and that locknut and thread are clean and sound; then set it and "
        "lock it harder. The turn was not wrong.",
        grows=lambda beliefs: beliefs.growth,
    ),
    "wearing": Cause(
        label="races that wear in, or out",
        advice="A little play after the first rides is new parts bedding in: set it once more. Play that comes back "
        "again and again is races wearing out: look at the tracks, and renew cones and balls.",
        grows=lambda beliefs: beliefs.wear,
    ),
    "proud": Cause(
        label="axle proud of the dropout",
        advice=f"{DO_NOT_RIDE} before both protrusions and the dropouts' thickness are measured: where the axle stands "
        "proud of a dropout, the clamp squeezes the axle and not the frame, and the wheel can come out. Feel never "
        "clears it. An axle of the right length does.",
        unsafe=True,
        needs_ends=True,
    ),
}
"""Every cause but a sound hub, by its name in `Beliefs`."""
