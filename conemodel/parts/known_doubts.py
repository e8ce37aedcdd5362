"""What is known of a hub that seldom goes together, though it may: said beside every answer, and never refused."""

from collections.abc import Iterator

from conemodel.base.units import MM
from conemodel.parts.hub import SIDES
from conemodel.parts.hub_families import WIDTHS, usual_pitch_diameter
from conemodel.parts.known_hub import KnownHub, Sizes
from conemodel.parts.known_scenario import KnownScenario
from conemodel.parts.scenario import Scenario


def doubts_of(scenario: Scenario) -> tuple[str, ...]:
    """Return what of a hub by known values is to be looked at again, in sentences; usually nothing."""
    if not isinstance(scenario, KnownScenario):
        return ()
    known = scenario.known
    sizes = Sizes(dict(known))
    return (*_of_width(known, sizes), *_of_rows(known), *_of_rings(known, sizes))


def _of_width(known: KnownHub, sizes: Sizes) -> Iterator[str]:
    """Yield a width that hubs at this end of a bicycle do not have."""
    family = known.usual
    least = min(*WIDTHS[family.front], family.over_locknut_width.low)
    most = max(*WIDTHS[family.front], family.over_locknut_width.high)
    width = sizes.over_locknut_width
    if not least <= round(width, 9) <= most:
        yield (
            f"{_mm(width)} mm over the locknuts is unusual for a {family.words}: these have {_mm(least)} to "
            f"{_mm(most)} mm. Measure again, and look which hub it is."
        )


def _of_rows(known: KnownHub) -> Iterator[str]:
    """Yield rows that were said to differ."""
    left, right = known.ball_count_left, known.ball_count_right
    if left and right and left != right:
        yield f"{left} balls left and {right} right: in most hubs both rows are alike. Count again: is one missing?"
    left_ball, right_ball = known.ball_diameter_left, known.ball_diameter_right
    if left_ball and right_ball and left_ball != right_ball:
        sizes = f"{_mm(left_ball)} mm left and {_mm(right_ball)} mm right"
        yield f"Balls of {sizes}: in most hubs both rows are alike. Measure again."


def _of_rings(known: KnownHub, sizes: Sizes) -> Iterator[str]:
    """Yield balls that need a larger cup than hubs of the family have; both sides alike are said once."""
    family = known.usual
    most = usual_pitch_diameter(family.ball_diameter.high, int(family.ball_count.high))
    said = {
        f"{sizes.of_side('ball_count', side)} balls of {_mm(sizes.of_side('ball_diameter', side))} mm run on a circle "
        f"of {MM.from_si(sizes.pitch_diameter(side)):.0f} mm: a {family.words} has room for {MM.from_si(most):.0f} mm "
        "at most. Count again, and measure one."
        for side in SIDES
        if sizes.pitch_diameter(side) > max(most, family.pitch_diameter) * 1.01
    }
    yield from sorted(said)


def _mm(length: float) -> str:
    return f"{MM.from_si(length):g}"
