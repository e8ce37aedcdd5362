"""Words for what fingers find when they turn a hub, each with the numbers it rests on."""

from collections.abc import Iterator

from conemodel.parts.unknowns.senses import FELT_RIPPLE, PRELOAD_TORQUE
from conemodel.solve.wheel.hub_drag import HubDrag
from conemodel.tasks.setting.defects import THICK

FELT_CHANGE = FELT_RIPPLE.usual
"""Share of the level by which a torque must change to be felt (seen as a quotation). Source: [JanduraSrinivasan1994]"""

FELT_TORQUE = 1e-3
"""Least change of torque that fingers on an axle feel, however freely it turns [N·m]. Assumption."""

STIFF_LOAD = PRELOAD_TORQUE.unit.to_si(PRELOAD_TORQUE.usual)
"""Torque from the ball loads alone from which an axle feels stiff and stops dead [N·m]. Assumption: what a hand calls
stiff is what is no longer good."""

ONE_PLACE = 1.5
"""Detents a ball spacing up to which a ripple feels notchy and not gritty [-]. Assumption."""

UNEVEN_PLAY = 0.05e-3
"""Difference of rim play over the turning wheel from which rocking tells it [m]. Assumption."""


def words_for_turning(
    drag: HubDrag, *, level: float, once_per_turn: float, with_the_balls: float, ripple: float, detents: float
) -> Iterator[tuple[str, str]]:
    """Yield each word for what the fingers find, with the numbers it rests on."""
    felt = max(FELT_CHANGE * level, FELT_TORQUE)
    against = f"against {felt * 1e3:.1f} N·mm that can be felt"
    varies = False
    slow = max(once_per_turn, with_the_balls)
    if slow > felt:
        varies = True
        with_what = "the wheel" if once_per_turn >= with_the_balls else "the balls, at half the wheel's pace"
        yield (
            "tight in one place",
            f"the torque rises by {slow * 1e3:.1f} N·mm once round with {with_what}, {against}",
        )
    if ripple > felt:
        varies = True
        word = "notchy" if detents <= ONE_PLACE else "gritty"
        yield word, f"a ripple of ±{ripple * 1e3:.1f} N·mm, {detents:.1f} to a ball spacing, {against}"
    if not varies:
        yield "smooth", f"the torque changes by {(slow + 2 * ripple) * 1e3:.1f} N·mm, {against}"
    load, even = float(drag.load), float(drag.grease + drag.seals)
    if load > STIFF_LOAD:
        yield "stiff", f"the balls alone make {load * 1e3:.0f} N·mm: it stops dead when let go"
    if even > THICK:
        yield "thick", f"grease and seals make an even {even * 1e3:.0f} N·mm, whatever the cone does"


def words_for_play(play: tuple[float, float], felt: float) -> Iterator[tuple[str, str]]:
    """Yield a word where rocking finds another play in another place; `felt` is the least felt [m]."""
    low, high = play
    if high > felt and high - low > UNEVEN_PLAY:
        yield (
            "uneven play",
            f"the rim has {low * 1e3:.2f} to {high * 1e3:.2f} mm of play as the wheel is turned",
        )
