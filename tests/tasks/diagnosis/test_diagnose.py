"""What is made of readings: faults with their evidence, contradictions, what to measure next.

Facts of the trade are common practice, no source.
"""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from conemodel.base.errors import InputProblems
from conemodel.parts.checks import Answer, Checks
from conemodel.parts.readings import Balls, Play, Readings, Round, Size
from conemodel.parts.toml_files import load_scenario, read_part
from conemodel.tasks.diagnosis.assumed_hub import usual_hub
from conemodel.tasks.diagnosis.diagnose import Diagnosis, diagnose
from tests.tasks.diagnosis.simulated import quick_readings, readings_of

PLAY = Play(play=0.9e-3)
NO: Answer = "no"
YES: Answer = "yes"


def fault(diagnosis: Diagnosis, key: str) -> Any:
    return next(found for found in diagnosis.faults if found.key == key)


@pytest.mark.parametrize("open_play", [Play(hand="clear"), Play(play=0.6e-3)], ids=["hand", "dial"])
def test_play_that_goes_on_closing_does_not_clear_a_proud_axle(open_play):
    closed = Play(hand="none") if open_play.hand else Play(play=0.0)
    diagnosis = diagnose(readings_of({"rim_open": open_play, "rim_closed": closed, "turns_closed": "free"}))
    proud = fault(diagnosis, "proud")
    assert proud.chance >= proud.before
    assert diagnosis.next_steps[0].key == "protrusion"


def test_a_measured_proud_axle_is_not_to_be_ridden_whatever_is_felt():
    sizes = {
        "protrusion_left": Size(size=7.4e-3), "protrusion_right": Size(size=5.5e-3),
        "dropout_thickness": Size(size=7e-3),
    }  # fmt: skip
    for look in ({"rim_closed": Play(hand="none"), "turns_closed": "free"}, {"rim_closed": PLAY}, {}):
        diagnosis = diagnose(readings_of(look, **sizes))
        assert diagnosis.sentence.startswith("Do not ride")
        assert diagnosis.move is None
    sizes["protrusion_left"] = Size(size=5.5e-3)
    safe = diagnose(readings_of({"rim_closed": PLAY, "rim_open": Play(play=1.4e-3)}, **sizes))
    assert fault(safe, "proud").chance < 1e-3
    assert safe.move is not None


def test_play_that_stays_on_closing_is_told_apart_by_the_clamp():
    same = Round(rim_open=PLAY, rim_closed=PLAY)
    released = diagnose(Readings(clamp="quick release", found=same))
    assert released.faults[0].key == "not_clamping"
    assert released.faults[0].unsafe
    assert len(released.faults[0].evidence) == 2
    assert released.move is None
    nutted = diagnose(Readings(clamp="nuts", found=same))
    assert fault(nutted, "solid_axle").chance == pytest.approx(1.0)
    assert fault(nutted, "not_clamping").chance < 2 * fault(nutted, "not_clamping").before
    assert "Adjust with no play" in fault(nutted, "solid_axle").advice
    assert nutted.move is not None
    assert nutted.move.length < 0
    unknown = diagnose(Readings(found=same))
    assert fault(unknown, "solid_axle").chance > 2 * fault(unknown, "solid_axle").before
    assert fault(unknown, "not_clamping").chance > 2 * fault(unknown, "not_clamping").before


def test_a_worn_thread_is_likelier_where_the_locknut_never_comes_up_hard():
    same = {"rim_open": Play(play=0.5e-3), "rim_closed": Play(play=0.5e-3)}
    soft = Checks(locknut_never_hard=YES, axle_moves_in_dropouts=NO, headset_or_pivots_rock=NO)
    stripped = diagnose(readings_of(same, checks=soft))
    firm = diagnose(readings_of(same, checks=soft.replace(locknut_never_hard=NO)))
    assert fault(stripped, "worn_thread").chance > 4 * fault(firm, "worn_thread").chance
    assert "locknut never hard" in fault(stripped, "worn_thread").evidence


def test_play_at_the_rim_and_none_at_the_axle_is_not_turned_out():
    look = {"rim_closed": Play(hand="clear"), "axle_end_closed": Play(hand="none")}
    diagnosis = diagnose(readings_of(look))
    assert diagnosis.move is None
    assert not diagnosis.leave
    elsewhere = fault(diagnosis, "elsewhere")
    assert elsewhere.blocks
    assert elsewhere.evidence
    found = diagnose(readings_of(look, checks=Checks(freehub_rocks=YES)))
    assert "the freehub" in fault(found, "elsewhere").advice
    assert fault(found, "elsewhere").chance > elsewhere.chance


def test_tight_in_one_place_and_loose_elsewhere_is_skew():
    look = {"rim_closed": Play(hand="clear"), "turns_closed": "tight in one place"}
    diagnosis = diagnose(readings_of(look))
    assert diagnosis.move is None
    assert diagnosis.faults[0].key == "skew"
    assert "skew" in diagnosis.sentence


@pytest.mark.parametrize(("word", "key"), [("notchy", "dented"), ("gritty", "gritty")])
def test_how_it_turns_names_the_fault(word, key):
    diagnosis = diagnose(readings_of({"turns_closed": word, "rim_closed": Play(hand="none")}))
    assert diagnosis.faults[0].key == key
    assert any(word in line for line in diagnosis.faults[0].evidence)
    assert diagnosis.move is None


def test_a_wrong_count_is_a_fault_and_nobody_is_told_to_add_a_ball():
    eight = Balls(count=8)
    diagnosis = diagnose(readings_of({"rim_closed": PLAY}, balls_left=eight, balls_right=Balls(count=9)))
    wrong = fault(diagnosis, "wrong_balls")
    assert wrong.chance > 10 * wrong.before
    assert "8 balls counted on the left" in wrong.evidence
    assert "number the maker states" in wrong.advice.replace("\n", " ")


def test_the_far_side_is_locked_first():
    look = {"rim_open": Play(play=1.4e-3), "rim_closed": PLAY}
    diagnosis = diagnose(readings_of(look, checks=Checks(far_side_unlocked=YES)))
    assert diagnosis.move is None
    assert diagnosis.headline.answer.words == "Far side unlocked"


def test_what_cannot_be_gets_a_sentence_and_no_number():
    more = {"axle_end_open": Play(play=0.05e-3), "axle_end_closed": Play(play=0.3e-3)}
    cleared = Checks(freehub_rocks=NO, headset_or_pivots_rock=NO, spokes_loose=NO, axle_moves_in_dropouts=NO)
    for diagnosis in (
        diagnose(readings_of(more)),
        diagnose(
            readings_of({"rim_open": Play(play=0.1e-3), "rim_closed": Play(play=0.6e-3)}, checks=cleared)
        ),
        diagnose(readings_of({"rim_open": Play(play=2e-3), "axle_end_open": Play(play=0.0)})),
        diagnose(readings_of({"rim_open": Play(play=0.4e-3)}, cone_out=6.0)),
    ):
        assert diagnosis.contradictions
        assert "contradict" in diagnosis.sentence
        assert "again" in diagnosis.sentence  # what would settle it
        assert diagnosis.move is None
        assert diagnosis.closed is None
        assert diagnosis.states is None
        assert not diagnosis.faults


def test_readings_that_go_together_are_not_called_contradictory():
    for look in (
        {"rim_open": Play(play=0.9e-3), "rim_closed": Play(play=0.3e-3), "axle_end_open": Play(play=0.3e-3)},
        {"rim_open": Play(hand="slight"), "rim_closed": Play(hand="none"), "turns_closed": "tight"},
        {"rim_closed": Play(play=0.0), "turns_closed": "free"},
    ):
        assert diagnose(readings_of(look)).contradictions == ()


def test_three_answers_are_enough_for_a_first_result():
    loose = diagnose(
        quick_readings(play_open="clear", play_closed="clear", turns="free", clamp="quick release")
    )
    assert loose.states is not None
    assert loose.states["loose"] > 0.8
    tight = diagnose(
        quick_readings(play_open="none", play_closed="none", turns="tight", clamp="quick release")
    )
    assert tight.states is not None
    assert tight.states["tight"] > 0.8
    assert tight.move is not None
    assert tight.move.length > 0
    assert tight.move.chance < 0.9  # three words do not place a cone


def test_nothing_read_leads_to_a_measurement_and_no_turn():
    diagnosis = diagnose(Readings())
    assert diagnosis.move is None
    assert "Too little is known" in diagnosis.sentence
    assert diagnosis.next_steps[0].bits > 0.5


def test_a_measurement_already_taken_is_not_asked_for_again():
    sizes = {
        "protrusion_left": Size(size=5.5e-3), "protrusion_right": Size(size=5.5e-3),
        "dropout_thickness": Size(size=7e-3),
    }  # fmt: skip
    diagnosis = diagnose(readings_of({"rim_closed": PLAY, "turns_closed": "free"}, **sizes))
    asked = {step.key for step in diagnosis.next_steps}
    assert not asked & {"rim_closed", "turns_closed", "protrusion"}
    assert "rim_open" in asked


def test_a_described_hub_is_used_and_counted_balls_do_not_change_it():
    front = usual_hub("front")
    diagnosis = diagnose(readings_of({}, balls_left=Balls(count=9)), front)
    assert diagnosis.scenario.hub.left.ball_count == 10
    assert diagnose(readings_of({}, over_locknut_width=Size(size=0.1))).scenario.name == front.name
    swapped = diagnose(Readings(clamp="nuts", thread="3/8 x 26"))
    assert swapped.scenario.axle.bore == 0.0
    assert swapped.scenario.axle.thread_pitch == pytest.approx(25.4e-3 / 26)


def test_a_proud_axle_is_looked_for_only_where_it_can_fool_the_clamp():
    look = Round(rim_open=Play(play=0.9e-3), rim_closed=Play(play=0.0))
    for kind, there in (("quick release", True), ("thru-axle", False), ("nuts", False)):
        diagnosis = diagnose(read_part(Readings, f"clamp = '{kind}'", name="x").replace(found=look))
        assert any(found.key == "proud" for found in diagnosis.faults) == there
        assert any(step.key == "protrusion" for step in diagnosis.next_steps) == there


PLAYS = st.one_of(
    st.builds(Play),
    st.builds(Play, hand=st.sampled_from(["none", "slight", "clear"])),
    st.builds(
        Play,
        play=st.floats(0, 10e-3),
        by=st.sampled_from(["dial gauge", "ruler"]),
        uncertainty=st.none() | st.floats(1e-6, 3e-3),
    ),
)
LOOKS = st.builds(
    Round,
    turned_in=st.sampled_from([0.0, 0.3, 12.0]),
    rim_open=PLAYS,
    rim_closed=PLAYS,
    axle_end_open=PLAYS,
    axle_end_closed=PLAYS,
    turns_open=st.none() | st.sampled_from(["free", "gritty"]),
    turns_closed=st.none() | st.sampled_from(["tight", "notchy", "tight in one place"]),
    starting_weight=st.none() | st.floats(0, 2.0),
)


@settings(max_examples=25)
@given(
    found=LOOKS,
    then=LOOKS,
    clamp=st.none() | st.sampled_from(["quick release", "nuts", "thru-axle"]),
    cone_out=st.none() | st.floats(-6.0, 18.0),
)
def test_whatever_is_read_gets_an_answer_or_a_sentence(found, then, clamp, cone_out):
    """No reading a file allows may end in an error; without contradictions the chances are chances."""
    readings = Readings(clamp=clamp, found=found.replace(turned_in=0.0), round_2=then, cone_out=cone_out)
    diagnosis = diagnose(readings)
    assert diagnosis.sentence
    if diagnosis.contradictions:
        assert diagnosis.move is None
        assert diagnosis.closed is None
    else:
        assert diagnosis.states is not None
        assert sum(diagnosis.states.values()) == pytest.approx(1.0)
        assert all(-1e-9 <= fault.chance <= 1 + 1e-9 for fault in diagnosis.faults)


@pytest.mark.parametrize(
    "name", ["bent-axle", "big-ball", "city-nutted", "light-axle", "thru-axle", "road-front"]
)
def test_a_described_hub_of_any_kind_is_answered(root, name):
    hub = load_scenario(root / "scenarios" / f"{name}.toml")
    diagnosis = diagnose(Readings(found=Round(rim_open=Play(play=0.5e-3), rim_closed=Play(play=0.2e-3))), hub)
    assert diagnosis.sentence
    assert diagnosis.scenario.clamp.kind == hub.clamp.kind


def test_sizes_that_cannot_go_together_are_refused():
    with pytest.raises(InputProblems, match="over_locknut_width"):
        diagnose(readings_of({}, over_locknut_width=Size(size=0.2e-3 + 0.03)))
