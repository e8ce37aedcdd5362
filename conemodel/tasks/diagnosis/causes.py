"""What may be the matter with a hub other than its setting: words, advice, and the degrees it comes in."""

from collections.abc import Callable
from dataclasses import dataclass

from conemodel.parts.priors import Beliefs

Degrees = tuple[dict[str, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """One cause. How likely it is before anybody looked is a field of `Beliefs` with its name.

    Attributes:
        label: in words; advice: what to do about it.
        degrees: fields of `Case` that tell it from a sound hub, once for each degree, as likely as one another.
        grows: mean growth of end play in one ride [m].
        unsafe: the wheel can come out.
        inside: it is seen once the hub is stripped.
        needs_ends: it can be only where the wheel is held by the ends of an axle that stands in the dropouts.
    """

    label: str
    advice: str
    degrees: Callable[[Beliefs], Degrees] = lambda _: ({},)
    grows: Callable[[Beliefs], float] = lambda _: 0.0
    unsafe: bool = False
    inside: bool = False
    needs_ends: bool = False


WHOSE_SPOT = (
    "To see whose the spot is, turn the wheel slowly until it binds, and chalk the tyre where it passes the "
    "frame. Open what holds the wheel, keep the wheel still, turn the axle half a turn by its end, and close it "
    "again. Turn the wheel until it binds once more, and look where the chalk is. At the frame again: the spot "
    "goes with the shell, a skew cup. Half a turn away: it goes with the axle, a bent axle or a skew cone. At "
    "another place each turn: it goes with the balls, an odd one."
)
"""The test that tells whose a tight spot is. Follows from the forward model: a cone's tilt stands still with the axle
and needs a cup's to meet, a cup's meets the load once a turn, an odd ball goes round at about half the wheel's pace."""

CAUSES = {
    "bent": Cause(
        label="bent axle",
        advice="A bent axle breaks in the end: renew it, with cones of the same thread. In true cups the shell gives "
        "way to it and the fingers feel nothing, so only rolling it on a flat plate clears it.",
        degrees=lambda beliefs: tuple({"tilt": tilt} for tilt in beliefs.bends),
    ),
    "skew": Cause(
        label="cone and cup out of true",
        advice="A tight spot once a turn takes a cone and a cup that are both askew, or an odd ball. No setting of the "
        f"cone is right all the way round. {WHOSE_SPOT} Then strip it: roll the axle, see whether a track wanders and "
        "whether the cups are fully home; renew what is bent or skew.",
        degrees=lambda beliefs: tuple({"skew": tilt} for tilt in beliefs.skews),
        inside=True,
    ),
    "dented": Cause(
        label="dented (brinelled) or pitted race",
        advice="Look at cones and cups with a ball-point tip. Dented or pitted cones are renewed together with all the "
        "balls; a dented cup is renewed, or the hub.",
        degrees=lambda beliefs: tuple({"dent": depth} for depth in beliefs.dents),
        inside=True,
    ),
    "gritty": Cause(
        label="grit, or dry and dirty grease",
        advice="Strip, clean, look at the races, and put it together with new balls and grease. Adjust after that.",
        inside=True,
    ),
    "wrong_balls": Cause(
        label="wrong number or size of balls",
        advice="Strip and count twice. Renew all balls of both rows together, of the size and in the number the "
        "maker states; room for about 0.7 of a ball is as it should be, and a smaller ball is no cure.",
        degrees=lambda beliefs: tuple({"odd": more} for more in beliefs.odd_balls),
        inside=True,
    ),
    "worn_thread": Cause(
        label="thread worn out",
        advice="A locknut that never comes up hard, or more slack than the thread's class allows, wants a new axle and "
        "cone; a setting on a worn-out thread does not hold. A cone that rocks with its locknut loose is normal.",
        degrees=lambda beliefs: tuple({"rocking": play} for play in beliefs.thread_play),
    ),
    "broken_axle": Cause(
        label="broken axle",
        advice="Renew the axle, with cones and locknuts of the same thread, and ask why it broke: a bent one, or "
        "dropouts out of parallel, breaks the next.",
        degrees=lambda beliefs: tuple({"rocking": play} for play in beliefs.broken_play),
        unsafe=True,
    ),
    "cracked_hub": Cause(
        label="cracked flange or shell",
        advice="The spokes or a cup can let go. Renew the hub; a crack is not repaired.",
        unsafe=True,
    ),
    "rubbing": Cause(
        label="seal or brake that rubs",
        advice="Free it first: bent or askew seals and dust caps are trued or renewed, the brake is set clear. While "
        "something rubs, turning says nothing of the bearing.",
        degrees=lambda beliefs: tuple({"rub": drag} for drag in beliefs.rubs),
    ),
    "not_clamping": Cause(
        label="clamp not clamping",
        advice="Play hardly changes on closing, as if the clamp did not clamp.",
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
        inside=True,
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
        inside=True,
    ),
    "proud": Cause(
        label="axle proud of the dropout",
        advice="Measure both protrusions and the dropouts' thickness before it is ridden: where the axle stands "
        "proud of a dropout, the clamp squeezes the axle and not the frame, and the wheel can come out. Feel never "
        "clears it. An axle of the right length does.",
        unsafe=True,
        needs_ends=True,
    ),
}
"""Every cause but a sound hub, by its name in `Beliefs`."""
