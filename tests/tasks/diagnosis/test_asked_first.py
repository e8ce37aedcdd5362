"""What is asked before anything is answered: an axle that may be broken, before a thread that may be worn out."""

import pytest

from conemodel.parts.checks import Checks
from conemodel.parts.readings import Play, Readings, Round, Size
from conemodel.tasks.diagnosis.causes import WHOSE_SPOT
from conemodel.tasks.diagnosis.diagnose import Diagnosis, diagnose
from conemodel.tasks.diagnosis.looks import ELSEWHERE


def rocking(**seen: str) -> Diagnosis:
    """Return what is said of a rim that rocks clearly, open and closed, on an axle whose end has no play."""
    checks = Checks(**dict.fromkeys(ELSEWHERE, "no"), **seen)  # type: ignore[arg-type]
    none, clear = Play(hand="none"), Play(hand="clear")
    look = Round(
        rim_open=clear, rim_closed=clear, axle_end_open=none, axle_end_closed=none, turns_closed="free"
    )
    return diagnose(Readings(clamp="quick release", found=look, checks=checks))


def test_the_axle_is_looked_at_before_its_thread_is_blamed() -> None:
    """An axle that lets go drops the wheel; a worn-out thread costs a setting. Common practice, no source."""
    said = rocking().headline
    assert said.answer.words == "Do not ride before the axle is looked at"
    assert said.unsafe == (said.answer.sentence,)
    assert "thread" in said.answer.act
    assert said.sentences.index("looked at") < said.sentences.index("Thread worn out")


@pytest.mark.parametrize(("seen", "first"), [("no", "Thread worn out"), ("yes", "Do not ride: Broken axle")])
def test_an_axle_that_was_looked_at_is_not_asked_for_again(seen: str, first: str) -> None:
    assert rocking(axle_broken=seen).headline.answer.words == first


def test_a_thread_that_was_found_worn_out_is_not_held_up() -> None:
    assert rocking(locknut_never_hard="yes").headline.answer.words == "Locknut will not tighten"


def test_whose_a_tight_spot_is_is_found_by_gestures_each_with_what_it_means() -> None:
    """Mark, open, turn, close, look; then what each of three places says."""
    gestures = (
        "turn the wheel slowly",
        "chalk",
        "Open",
        "turn the axle half a turn",
        "close it",
        "look where",
    )
    places = [WHOSE_SPOT.index(words) for words in gestures]
    assert places == sorted(places)
    for place, whose in (
        ("At the frame", "shell"),
        ("Half a turn away", "axle"),
        ("At another place", "balls"),
    ):
        meaning = WHOSE_SPOT.split(f"{place}", 1)[1].split(".")[0]
        assert f"it goes with the {whose}" in meaning or f"the spot goes with the {whose}" in meaning


def test_no_turn_is_advised_where_what_rocks_besides_hides_the_bearing() -> None:
    """Closing takes a bearing's play: what is clear closed and none open is not its own, and it may be tight."""
    none, clear = Play(hand="none"), Play(hand="clear")
    found = Round(rim_open=none, rim_closed=clear, turns_closed="free")
    said = diagnose(Readings(clamp="quick release", found=found, checks=Checks(freehub_rocks="yes")))
    assert said.move is None
    assert not said.leave
    assert said.headline.answer.words == "Not known yet"
    assert "the freehub" in said.headline.answer.why
    assert said.headline.answer.act.startswith("No turn yet: hold that still")


@pytest.mark.parametrize(("left", "stops"), [(6.95e-3, True), (6.6e-3, False)])
def test_an_end_that_may_stand_proud_as_well_as_it_was_measured_stops_the_ride(
    left: float, stops: bool
) -> None:
    """0.05 mm back, read to 0.1 mm each: proud on 0.36 of such axles by the normal law; 0.4 mm back on 0.002."""
    found = Round(rim_open=Play(hand="clear"), rim_closed=Play(hand="none"), turns_closed="free")
    ends, thick = (Size(size=each, uncertainty=1e-4) for each in (left, 7e-3))
    other = Size(size=5.5e-3, uncertainty=1e-4)
    said = diagnose(
        Readings(
            clamp="quick release",
            found=found,
            protrusion_left=ends,
            protrusion_right=other,
            dropout_thickness=thick,
        )
    ).headline
    assert (said.answer.words == "Do not ride before the axle ends are measured again") is stops
    assert bool(said.unsafe) is stops
