"""What is known of a hub and seldom goes together: named beside every answer, and predicted all the same.

Widths over the locknuts in use are common practice, no source; the circle of touching balls is geometry.
"""

import pytest

from conemodel.base.units import MM
from conemodel.parts.hub_families import FAMILIES
from conemodel.parts.known_doubts import doubts_of
from conemodel.parts.known_hub import KnownHub
from conemodel.parts.known_scenario import KnownScenario
from conemodel.tasks.setting.predict import predict

BALL = MM.to_si(6.35)


@pytest.mark.parametrize(
    ("family", "known", "said"),
    [
        ("usual front", {"over_locknut_width": 0.135}, "135 mm over the locknuts is unusual for a front hub"),
        ("usual rear", {"over_locknut_width": 0.100}, "100 mm over the locknuts is unusual for a rear hub"),
        ("usual rear", {"ball_count_left": 9, "ball_count_right": 8}, "9 balls left and 8 right"),
        # round eleven touching balls of 6.35 mm the circle is at least 6.35 / sin(180°/11) = 22.5 mm
        ("usual front", {"ball_count_left": 11, "ball_diameter_left": BALL}, "11 balls of 6.35 mm run on"),
    ],
)
def test_what_does_not_go_together_is_said_and_predicted(family, known, said):
    hub = KnownScenario.of(KnownHub(family=family, **known))
    doubts = doubts_of(hub)
    assert len(doubts) == 1
    assert doubts[0].startswith(said)
    notes = predict(hub).verdict.notes
    assert doubts[0] in notes


@pytest.mark.parametrize("family", FAMILIES)
def test_a_usual_hub_and_every_usual_size_of_it_is_left_alone(family):
    usual = FAMILIES[family]
    assert doubts_of(KnownScenario.of(KnownHub(family=family))) == ()
    for width in (usual.over_locknut_width.low, usual.over_locknut_width.high):
        assert doubts_of(KnownScenario.of(KnownHub(family=family, over_locknut_width=width))) == ()
    for count in (int(usual.ball_count.low), int(usual.ball_count.high)):
        assert doubts_of(KnownScenario.of(KnownHub(family=family, ball_count_left=count))) == ()
