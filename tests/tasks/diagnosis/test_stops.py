"""What is found by eye or by measuring decides, whatever is felt. Facts of the trade: common practice, no source."""

from typing import Any

import numpy as np
import pytest

from conemodel.parts.checks import Checks
from conemodel.parts.library import SCENARIOS
from conemodel.parts.readings import Balls, Play, Readings, Round, Size
from conemodel.parts.toml_files import load_scenario
from conemodel.solve.stages.terms import pair_of
from conemodel.solve.wheel.turning import turn_wheel
from conemodel.tasks.diagnosis.assumed_hub import usual_hub
from conemodel.tasks.diagnosis.diagnose import Diagnosis, diagnose
from conemodel.tasks.diagnosis.looks import LOOKS
from conemodel.tasks.diagnosis.lookup_curves import HAND_LOAD, torque_swing, untrue_pair
from conemodel.tasks.diagnosis.procedure import say_chance

RIGHT = Round(rim_open=Play(play=0.6e-3), rim_closed=Play(play=0.05e-3), turns_closed="free")
"""A hub that is right by all that is felt and measured on it."""

UNSAFE = {"axle_broken", "hub_cracked"}


def found(felt: Round = RIGHT, **more: Any) -> Diagnosis:
    return diagnose(Readings(**{"clamp": "quick release", "found": felt, **more}))


def mm(value: float, uncertainty: float = 0.02) -> Size:
    return Size(size=value * 1e-3, uncertainty=uncertainty * 1e-3)


def heads(diagnosis: Diagnosis) -> list[str]:
    return [answer.words for answer in diagnosis.headline.answers]


@pytest.fixture(scope="module", autouse=True)
def _right_without_a_find() -> None:
    assert found().headline.answer.words == "Right"


@pytest.mark.parametrize("name", [name for name, look in LOOKS.items() if look.stop])
def test_what_was_found_by_eye_is_the_headline_and_no_turn_is_advised(name):
    checks: dict[str, Any] = {name: "yes"}
    diagnosis = found(checks=Checks(**checks))
    assert LOOKS[name].stop.lower() in diagnosis.headline.answer.words.lower()
    assert diagnosis.headline.question == ("safe" if name in UNSAFE else "sound")
    assert diagnosis.headline.answer.certainty == ""
    assert diagnosis.move is None
    assert not diagnosis.leave


def test_three_finds_are_three_cards_and_none_hides_another():
    checks = Checks(track_dented="yes", axle_wobbles="yes", locknut_never_hard="yes")
    said = heads(found(checks=checks))
    assert {"Dented or pitted race", "Bent axle", "Locknut will not tighten"} <= set(said)
    assert not {"Right", "Loose"} & set(said)


def test_after_a_find_the_next_step_is_a_look_and_no_gauge():
    steps = [step.key for step in found(checks=Checks(axle_wobbles="yes")).next_steps]
    assert steps[0] in LOOKS
    assert set(steps) <= {*LOOKS, "balls", "protrusion"}


def test_a_find_is_said_beside_readings_that_contradict_each_other():
    odd = Round(axle_end_open=Play(play=0.05e-3), axle_end_closed=Play(play=0.3e-3))
    diagnosis = found(odd, checks=Checks(axle_broken="yes"))
    assert diagnosis.contradictions
    assert diagnosis.headline.answer.words.startswith("Do not ride")


def test_a_bent_axle_that_was_rolled_is_likelier_and_a_free_hub_does_not_clear_it():
    def bent(**checks: Any) -> float:
        faults = found(checks=Checks(**checks)).faults
        return next(fault.chance for fault in faults if fault.key == "bent")

    assert bent(axle_wobbles="yes") > 0.9
    assert bent() > 0.5 * 0.03  # what a bent axle in true cups is believed to be, before anybody felt


@pytest.mark.parametrize(
    "balls",
    [
        {"balls_left": Balls(count=9), "balls_right": Balls(count=8)},
        {"balls_right": Balls(count=10)},
        {"balls_left": Balls(diameter=mm(6.35)), "balls_right": Balls(diameter=mm(4.76))},
        {"balls_left": Balls(diameter=mm(6.35, 0.005)), "balls_right": Balls(diameter=mm(6.20, 0.005))},
    ],
    ids=["counts from side to side", "count that belongs", "sizes from side to side", "size by 0.15 mm"],
)
def test_balls_that_differ_stop_the_work(balls):
    diagnosis = found(**balls)
    assert "ball" in diagnosis.headline.answer.words.lower()
    assert diagnosis.headline.answer.certainty == ""  # measured, and not merely likely
    assert diagnosis.move is None
    assert not diagnosis.leave


def test_slack_beyond_the_threads_class_is_renewed_first_and_within_it_is_normal():
    """6g in 6H on M10 x 1 allows 0.166 mm along the axle [ISO 965-1]: 0.242 mm is beyond, 0.12 mm within."""
    worn = found(thread_slack=mm(0.242))
    assert worn.headline.answer.words == "Thread worn out"
    assert "0.166 mm" in worn.headline.answer.why
    assert found(thread_slack=mm(0.12)).headline.question == "adjustment"
    described = diagnose(Readings(found=RIGHT), load_scenario(SCENARIOS / "worn-thread.toml"))
    assert "Renew axle and cone" in described.headline.answer.why
    assert described.move is None


def test_a_cone_that_rocks_on_its_thread_changes_nothing():
    assert found(checks=Checks(cone_rocks_on_thread="yes")).headline == found().headline


def test_an_axle_off_centre_is_not_called_too_long_and_not_ridden():
    """7.4 and 3.5 mm in dropouts of 7: centred, 5.45 mm each."""
    sizes: dict[str, Any] = {
        "dropout_thickness": mm(7),
        "protrusion_left": mm(7.4),
        "protrusion_right": mm(3.5),
    }
    off = found(**sizes)
    assert off.headline.answer.words == "Do not ride: axle off centre"
    assert "right length" not in off.sentence
    assert "5.5 mm" in off.sentence or "5.4 mm" in off.sentence
    long = found(**{**sizes, "protrusion_right": mm(7.3)})
    assert long.headline.answer.words.startswith("Do not ride")
    assert "axle of the right length" in long.sentence


def test_an_axle_that_stands_out_as_for_nuts_asks_what_holds_it_first():
    ends: dict[str, Any] = {"protrusion_left": mm(18), "protrusion_right": mm(18), "dropout_thickness": mm(7)}
    asked = found(clamp=None, **ends)
    assert heads(asked) == ["Say first what holds the wheel"]
    assert heads(found(clamp=None, **{**ends, "dropout_thickness": Size()})) == heads(asked)
    assert "proud" not in asked.sentence
    assert asked.move is None
    assert "Do not ride" not in found(clamp="nuts", **ends).sentence
    assert found(**ends).headline.answer.words.startswith("Do not ride")


@pytest.mark.parametrize("word", ["notchy", "tight in one place", "gritty"])
def test_what_is_felt_of_the_races_means_strip_and_look_not_hang_weights(word):
    diagnosis = found(RIGHT.replace(turns_closed=word))
    assert diagnosis.headline.question == "sound"
    assert "Strip it and look" in diagnosis.headline.answer.act
    assert diagnosis.next_steps[0].key in {*LOOKS, "balls"}
    assert "starting_weight" not in {step.key for step in diagnosis.next_steps}


def test_hand_words_alone_give_no_per_cent():
    by_hand = found(Round(rim_open=Play(hand="clear"), rim_closed=Play(hand="clear"), turns_closed="free"))
    assert "%" not in by_hand.sentence
    assert by_hand.headline.answer.certainty in ("likely", "not to be told from these readings")
    assert "%" in found().sentence
    assert [say_chance(chance, measured=False) for chance in (0.7, 0.5, 0.3)] == [
        "likely", "a toss-up", "unlikely",
    ]  # fmt: skip


def test_a_freehub_that_rocks_alone_does_not_stop_the_job():
    loose = Round(rim_open=Play(hand="clear"), rim_closed=Play(hand="clear"))
    assert found(loose, checks=Checks(freehub_rocks="yes")).headline.question == "adjustment"
    assert found(loose, checks=Checks(spokes_loose="yes")).headline.question == "sound"


def test_a_hub_described_with_a_fault_is_not_called_right():
    dented = load_scenario(SCENARIOS / "dented-cone.toml")
    diagnosis = diagnose(Readings(found=RIGHT.replace(turns_closed=None)), dented)
    assert "left cone dented" in diagnosis.sentence or "right cone dented" in diagnosis.sentence
    assert not diagnosis.leave


def swing(**untrue: float) -> float:
    """Return the greatest swing of a usual hub's torque under the hand [N·m]."""
    return float(torque_swing(untrue_pair(pair_of(usual_hub("rear")), **untrue))[1].max())


def test_which_defects_swing_over_a_turn_is_the_forward_models_word():
    """Tilted cones stand still with the axle (symmetry about it): no swing. A cup's or a ball's go round."""
    assert swing(tilt=5e-3) == 0.0
    assert swing(skew=5e-3) > 5 * swing(skew=1.5e-3) > 0.0
    assert swing(odd=0.1e-3) > 0.0


def spot(untrue: dict[str, tuple[float, float]], load: Any) -> float:
    """Return the wheel's angle of greatest torque, smoothed over the turn [rad]."""
    pair = pair_of(usual_hub("rear"))
    pair = pair.replace(left=pair.left.replace(**untrue))
    angle = 2 * np.pi * np.arange(36) / 36
    torque = turn_wheel(pair, end_play=-15e-6, angle=angle, load=load).torque
    return float(np.angle(np.sum(torque * np.exp(1j * angle))))


def test_turning_the_axle_half_round_tells_whose_the_tight_spot_is():
    """A cone's tilt turned half round with its axle takes the spot half round the rim; a cup's alone stays."""
    half = {}
    for way in (1, -1):
        half[way] = spot({"cone_tilt": (way * 6e-3, 0.0), "cup_tilt": (3e-3, 0.0)}, np.zeros(5))
    assert abs(np.angle(np.exp(1j * (half[1] - half[-1])))) == pytest.approx(np.pi, abs=0.2)
    cup = spot({"cup_tilt": (6e-3, 0.0)}, HAND_LOAD)  # the axle is true: turning it changes nothing
    up = spot({"cup_tilt": (-6e-3, 0.0)}, HAND_LOAD)
    assert abs(np.angle(np.exp(1j * (cup - up)))) == pytest.approx(np.pi, abs=0.2)  # it goes with the shell


@pytest.mark.parametrize(("left", "right"), [(7.5, 4.0), (8.5, 8.5), (6.0, None)])
def test_an_end_that_may_stand_proud_of_a_dropout_nobody_measured_is_not_ridden(left, right):
    sizes: dict[str, Any] = {"protrusion_left": mm(left)} | (
        {} if right is None else {"protrusion_right": mm(right)}
    )
    diagnosis = found(**sizes)
    assert diagnosis.headline.question == "safe"
    assert diagnosis.headline.answer.words == "Do not ride before the dropouts are measured"
    assert diagnosis.move is None
    assert not diagnosis.leave
    measured = found(**sizes, dropout_thickness=mm(9.5))
    assert measured.headline.question != "safe"
    assert found(protrusion_left=mm(4.5), protrusion_right=mm(4.5)).headline.question != "safe"


@pytest.mark.parametrize(("opened", "closed"), [("none", "slight"), ("none", "clear"), ("slight", "clear")])
def test_play_a_hand_finds_gained_on_closing_is_questioned_and_no_turn_advised(opened, closed):
    felt = Round(rim_open=Play(hand=opened), rim_closed=Play(hand=closed), turns_closed="free")
    diagnosis = found(felt)
    assert "no bearing gains play from its clamp" in " ".join(diagnosis.contradictions)
    assert diagnosis.move is None
    assert not diagnosis.leave


def test_a_single_reading_is_never_held_against_others_that_are_not_there():
    alone = found(Round(rim_closed=Play(play=0.25e-3, push=20.0)))
    assert "the others" not in " ".join(alone.contradictions)
    assert "check the push" in " ".join(alone.contradictions)


def test_a_worn_out_thread_is_said_once_whether_it_was_measured_or_described() -> None:
    """A hub described with more slack than its class allows is renewed, in one answer."""
    hub = load_scenario(SCENARIOS / "worn-thread.toml")
    measured: dict[str, Any] = {"thread_slack": Size(size=0.242e-3, uncertainty=0.01e-3)}
    for told in ({}, measured):
        answers = diagnose(Readings(clamp="quick release", **told), hub).headline.answers
        assert [one.words.lower().count("thread") for one in answers].count(1) == 1
