"""The verdict says what was computed, and when not to ride, whatever the bearing feels like."""

import re
from typing import Any

import numpy as np
import pytest

import conemodel as cm
from conemodel.base.units import MM
from conemodel.parts import library
from conemodel.parts.scenario import Scenario
from conemodel.solve.stages.terms import setting_terms
from conemodel.tasks.setting.outlook import Spread, moved_out, outlook_of
from conemodel.tasks.setting.turn import turn_of

FOLDER = library.SCENARIOS


def hub(name: str, **setting: object) -> Scenario:
    return cm.load_scenario(FOLDER / f"{name}.toml").with_setting(**setting)


def with_force(scenario: Scenario, force: float) -> Scenario:
    return scenario.replace(clamp=scenario.clamp.replace(force=force, torque=None))


def at(scenario: Scenario, end_play: float) -> Scenario:
    """Return the scenario with its cone turned to where the clamped end play is as given [m]."""
    short = end_play - cm.predict(scenario).stages["clamped"].end_play
    return scenario.with_setting(back_off=scenario.setting.back_off + short / scenario.axle.lead_per_radian)


@pytest.mark.parametrize(
    "seat", ["dropouts", "spacers on locknuts", "spacer on axle end", "one side in frame"]
)
def test_a_proud_axle_is_not_to_be_ridden_whatever_the_bench_clamps_on(seat: str) -> None:
    """The bench can hide a proud axle, the frame cannot: protrusion against dropout thickness decides."""
    verdict = cm.predict(hub("proud-axle", clamp_seat=seat)).verdict
    assert verdict.sentence.startswith("Do not ride")
    assert verdict.turn is None
    assert not any("enters by the locknut" in note for note in verdict.notes)


@pytest.mark.parametrize("name", ["touring-rear", "city-nutted"])
def test_a_clamp_too_weak_for_the_standards_pull_is_not_to_be_ridden(name: str) -> None:
    """2300 N (EN 14766:2005, 4.10.4, page seen) over four faces at a friction of 0.30: 1917 N, closed form."""
    for force, unsafe in ((0.0, True), (1900.0, True), (1930.0, False)):
        verdict = cm.predict(with_force(hub(name), force)).verdict
        assert bool(verdict.unsafe) is unsafe
        assert verdict.sentence.startswith("Do not ride") is unsafe
    # on the bench nothing has to hold the wheel; a thru-axle holds it by its shape
    assert not cm.predict(with_force(hub(name, clamp_seat="spacers on locknuts"), 0.0)).verdict.unsafe
    assert not cm.predict(with_force(hub("thru-axle"), 0.0)).verdict.unsafe


def test_right_is_said_with_the_play_and_the_preload_that_were_computed() -> None:
    rear = hub("touring-rear")
    edge = cm.predict(rear).window
    tight, loose = cm.predict(at(rear, edge.tight_edge + 1e-6)), cm.predict(at(rear, edge.loose_edge - 1e-6))
    assert tight.verdict.state == loose.verdict.state == "right"
    said = float(re.findall(r"pinched with (\d+) N", tight.verdict.sentence)[0])
    assert said == pytest.approx(tight.stages["clamped"].preload, rel=0.05)
    assert said > 300  # not "hardly" pinched
    assert "no play is felt" in tight.verdict.sentence
    assert 0 < loose.stages["clamped"].rim_play < rear.limits.rim_play
    assert "no play is felt" in loose.verdict.sentence
    assert "the balls are not pinched" in loose.verdict.sentence


def test_right_for_want_of_limits_does_not_say_that_there_is_no_play() -> None:
    rear = hub("touring-rear", back_off=np.pi / 2)
    rear = rear.replace(limits=rear.limits.replace(off=("rim_play",)))
    prediction = cm.predict(rear)
    assert prediction.verdict.state == "right"
    assert prediction.stages["clamped"].rim_play > 0.3e-3
    said = f"it rocks {MM.from_si(prediction.stages['clamped'].rim_play):.1f} mm at the rim"
    assert said in prediction.verdict.sentence


def test_the_range_of_the_turn_adds_independent_spreads_by_their_squares() -> None:
    """3² + 4² = 5² inward, 5² + 12² = 13² outward, in units of a hundredth of a millimetre."""
    prediction = cm.predict(hub("touring-rear"))
    middle = prediction.verdict.turn
    assert middle is not None
    named: dict[str, Any] = {"span": "", "states": ("right", "right")}
    spreads = tuple(
        Spread(name=name, label=name, low=middle.needed - low, high=middle.needed + high, **named)
        for name, low, high in (("one", 3e-5, 5e-5), ("other", 4e-5, 12e-5))
    )
    scenario, aim = prediction.scenario, outlook_of(prediction.scenario).aim
    turn = turn_of(
        scenario, setting_terms(scenario), prediction.window, spreads, aim, moved=moved_out(scenario)
    )
    assert turn.needed == middle.needed
    assert turn.low == pytest.approx(turn.needed - 5e-5, rel=1e-12)
    assert turn.high == pytest.approx(turn.needed + 13e-5, rel=1e-12)
    low, high = turn.angle_range
    assert low == pytest.approx(turn.low / (1e-3 / (2 * np.pi)))  # M10 × 1: one millimetre a turn
    assert high == pytest.approx(turn.high / (1e-3 / (2 * np.pi)))


def test_a_hub_that_is_right_until_its_cups_creep_is_judged_as_it_rides() -> None:
    rear = hub("touring-rear")
    right = at(rear, cm.predict(rear).window.target)
    crept = right.replace(condition=right.condition.replace(cup_moved_left=-200e-6))
    prediction = cm.predict(crept)
    assert cm.predict(right).verdict.state == "right"
    assert prediction.verdict.state == "tight"
    assert "Ridden with its cups crept, it is too tight" in prediction.verdict.sentence
    assert "Clamped, as it was set, it is right." in prediction.verdict.sentence
    assert prediction.verdict.turn is not None
    # one to one: what the cup took the cone has to give back
    assert prediction.verdict.turn.needed == pytest.approx(200e-6, abs=1e-9)
    assert "Leave it" not in prediction.verdict.sentence


def test_a_warm_hub_is_told_the_turn_for_warm_riding() -> None:
    rear = hub("touring-rear")
    right = at(rear, cm.predict(rear).window.target)
    warm = cm.predict(right.replace(heat=right.heat.replace(shell_warming=80.0)))
    heat = {term.key: term.length for term in warm.stages["ridden"].terms}["heat"]
    assert warm.verdict.turn is not None
    assert warm.verdict.turn.needed == pytest.approx(-heat, abs=1e-9)


def test_of_a_free_axle_sentence_and_note_say_the_same() -> None:
    verdict = cm.predict(hub("touring-rear", axle_held="nothing")).verdict
    assert (
        "what locking did cannot be told. If the nut pushed the cone in, then clamped, it is"
        in verdict.sentence
    )
    assert any("cannot be predicted" in note for note in verdict.notes)
    assert verdict.turn is None
