"""Causes and looks are one entry each, and a look moves the odds of its cause the way it should."""

from math import radians

import pytest

from conemodel.parts import priors
from conemodel.parts.checks import Checks
from conemodel.parts.clamp_kinds import CLAMP_KINDS, SEE_TO_ANY
from conemodel.parts.library import SCENARIOS
from conemodel.parts.priors import Beliefs
from conemodel.parts.readings import Play, Readings, Round
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.diagnosis.assumed_hub import usual_hub
from conemodel.tasks.diagnosis.cases import cases_of
from conemodel.tasks.diagnosis.causes import CAUSES
from conemodel.tasks.diagnosis.diagnose import diagnose
from conemodel.tasks.diagnosis.looks import ASKED_FIRST, ELSEWHERE, FOUND, LOOKS, MARKS, PARTS
from conemodel.tasks.diagnosis.lookup_curves import lean_dropouts


def chance(cause: str, **answers: str) -> float:
    """Return the chance of a cause on a usual hub held by a quick release, given answers to looks."""
    readings = Readings(clamp="quick release", checks=Checks(**answers))  # type: ignore[arg-type]
    cases = cases_of(readings, usual_hub("front"), Beliefs(), described=True)
    return sum(case.weight for case in cases if case.cause == cause)


def odds(cause: str, **answers: str) -> float:
    found = chance(cause, **answers)
    return found / (1 - found)


def test_every_cause_and_every_look_has_its_entry():
    assert {"sound", *CAUSES} == set(priors.CAUSES)
    assert set(LOOKS) == set(Checks.model_fields)
    assert {look.shows for look in LOOKS.values()} <= {None, *CAUSES}
    assert {**ASKED_FIRST, **PARTS} == LOOKS
    assert all(look.instruction and look.stop for look in MARKS.values())


SHOWN = {
    "axle_wobbles": "bent",
    "track_dented": "dented",
    "axle_broken": "broken_axle",
    "hub_cracked": "cracked_hub",
    "locknut_never_hard": "worn_thread",
    "washer_tab_lost": "creeping",
    "far_side_unlocked": "creeping",
    "seal_or_brake_rubs": "rubbing",
    "cup_moves_in_shell": "loose_cup",
}
"""What each look at a part shows. Common practice, no source."""


@pytest.mark.parametrize(("name", "cause"), SHOWN.items())
def test_a_look_at_a_part_multiplies_the_odds_of_its_cause_by_its_likelihood_ratio(name, cause):
    slip = Beliefs().slip
    before = odds(cause)
    assert odds(cause, **{name: "yes"}) / before == pytest.approx(FOUND / slip)  # Bayes
    assert odds(cause, **{name: "no"}) / before == pytest.approx((1 - FOUND) / (1 - slip))


@pytest.mark.parametrize("name", ELSEWHERE)
def test_another_place_that_rocks_speaks_for_play_elsewhere(name):
    assert odds("elsewhere", **{name: "yes"}) > odds("elsewhere") > odds("elsewhere", **{name: "no"})


def test_slack_with_the_locknut_loose_is_normal_and_speaks_for_no_cause():
    for cause in CAUSES:
        assert chance(cause, cone_rocks_on_thread="yes") == chance(cause)


def test_a_freehub_that_rocks_is_usual_and_hardly_speaks_for_play_elsewhere():
    assert odds("elsewhere", freehub_rocks="yes") < 1.3 * odds("elsewhere")
    assert odds("elsewhere", spokes_loose="yes") > 3 * odds("elsewhere")


def test_a_clamp_that_takes_more_than_a_parallel_frame_lets_it_speaks_for_the_dropouts():
    """The same play closed, and more of it open, at a force that was given."""
    rear = load_scenario(SCENARIOS / "touring-rear.toml")
    rear = rear.replace(clamp=rear.clamp.replace(force=5e3))

    def found(opened: float) -> float:
        plays = Round(axle_end_open=Play(play=opened), axle_end_closed=Play(play=0.05e-3))
        faults = diagnose(Readings(clamp="quick release", found=plays), rear).faults
        return next(fault.chance for fault in faults if fault.key == "skew_dropouts")

    assert found(0.26e-3) > 1.5 * found(0.17e-3)


def test_a_frame_leans_no_further_than_a_wheel_goes_in():
    rear = load_scenario(SCENARIOS / "touring-rear.toml")
    skew = lean_dropouts(lean_dropouts(rear, radians(1.5)), radians(1.5)).frame
    assert skew.left_dropout_angle == skew.right_dropout_angle == pytest.approx(radians(2))


def test_only_a_wheel_held_by_the_axle_ends_can_have_a_proud_axle():
    nuts = cases_of(Readings(clamp="nuts"), usual_hub("front"), Beliefs(), described=True)
    assert "proud" not in {case.cause for case in nuts}
    assert chance("proud") > 0.0


@pytest.mark.parametrize("kind", CLAMP_KINDS)
def test_a_clamp_that_does_not_clamp_is_called_by_its_own_name(kind):
    """No nut and no thru-axle has a lever to look at."""
    rocks = Round(rim_open=Play(play=0.9e-3, push=2.0), rim_closed=Play(play=0.9e-3, push=2.0))
    faults = diagnose(Readings(clamp=kind, found=rocks)).faults
    (advice,) = (fault.advice for fault in faults if fault.key == "not_clamping")
    assert CLAMP_KINDS[kind].see_to in advice
    assert ("lever" in advice) is (kind == "quick release")


def test_what_nobody_said_is_not_told_to_be_undone_or_looked_at():
    """A lever is closed, nuts are tightened: who said neither is told neither, whichever is likelier."""
    rocks = Round(rim_open=Play(play=0.9e-3, push=2.0), rim_closed=Play(play=0.9e-3, push=2.0))
    faults = diagnose(Readings(found=rocks)).faults
    (advice,) = (fault.advice for fault in faults if fault.key == "not_clamping")
    assert SEE_TO_ANY in advice
    (axle,) = (fault.advice for fault in faults if fault.key == "solid_axle")
    assert axle.startswith("Say first what holds the wheel.")
