"""What both sides of a story share: how much larger movement is drawn, and what is seen of the bearing.

Both are chosen once for a story, from all its steps, so that nothing changes size over a reveal. They tell a class
before an answer no more than that some step of the story is far too tight or loose, and not which.
"""

from conemodel.base.units import MM
from conemodel.show.instrument.close_up import REACH, SHAPE, shortened
from conemodel.show.instrument.drawing_of import FACTORS, drawing_of, factor_of, rule_ends
from conemodel.show.instrument.measures import half_of
from conemodel.show.instrument.rule import WIDE
from conemodel.solve.stages.terms import STAGES
from conemodel.tasks.lesson.lesson import Played
from conemodel.tasks.setting.predict import Prediction

FORCE_ROOM = 2.2
"""Length of the arrow of the clamp's force and of what parts it from the locknut [mm]."""


def common_factor(played: Played) -> int:
    """Return by how much movement is drawn larger: the largest at which every step of both sides is on its rule."""
    sides = (played.left, played.right)
    most = min(factor_of(side.scenario) for side in sides)
    fit = (
        factor for factor in FACTORS if factor <= most and all(_fits(played, side, factor) for side in sides)
    )
    return next(fit, FACTORS[-1])


def _fits(played: Played, side: Prediction, factor: int) -> bool:
    """Return whether all that a side comes to lies on the rule of its bearing."""
    loosest, tightest = rule_ends(half_of(side.scenario, side.scenario.hub.adjustable_side), factor)
    plays = [MM.from_si(side.stages[name].end_play) for name in _told(played)]
    return tightest <= min(plays) and max(plays) <= loosest


def _told(played: Played) -> tuple[str, ...]:
    """Return the stages that a story comes to."""
    return STAGES[: STAGES.index(played.story.steps.shown[-1]) + 1]


def common_size(played: Played, factor: int, *, letters: float) -> tuple[float, float]:
    """Return width and height of what is seen of either bearing [mm], wide enough for the words of the clamp's force.

    `letters`: height of a word over the width of the picture.
    """
    widths = [_width(played, side, factor, letters) for side in (played.left, played.right)]
    return max(widths), max(widths) / SHAPE


def _width(played: Played, side: Prediction, factor: int, letters: float) -> float:
    plate = drawing_of(side.scenario, factor=factor).plates["close"]
    _, _, width, height = plate.view
    own = max(width, SHAPE * height)
    plays = [
        MM.from_si(side.stages[name].end_play) for name in _told(played) if name in ("clamped", "ridden")
    ]
    if not plays:
        return own
    half = shortened(half_of(side.scenario, side.scenario.hub.adjustable_side))
    words = next(label.text for label in plate.labels if label.group == "clamp force")
    bare = REACH * half.ball + half.nut[1] + factor * max(plays) + FORCE_ROOM
    return max(own, bare / (1 - WIDE * letters * len(words)))
