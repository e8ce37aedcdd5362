"""What the page Check a hub says largest, and what it asks besides, for the state a hub is in."""

import pytest

from conemodel.parts.library import SCENARIOS
from tests.ui.diagnosis.driving import QUICK, add_round, bring, enter, opened, pick, pills, seen, words


def test_a_proud_axle_is_said_first_and_no_turn_is_advised() -> None:
    path = SCENARIOS / "readings" / "proud-axle.toml"
    said = words(bring(opened(), path.name, path.read_bytes()))
    assert (
        said.index('role="alert"')
        < said.index("Do not ride")
        < said.index("proud of the dropout on the left")
    )
    assert "step by step" not in said


def test_tight_in_one_place_tells_whose_spot_it_is_and_advises_no_turn() -> None:
    """Common practice, no source: a spot that goes round with the axle is the axle's or its cones'."""
    app = opened(play_open="clear", play_closed="clear", turns="tight in one place", held_by="quick release")
    assert "Tight in one place" in words(app)
    assert "turn the axle half a turn by its end" in words(app)
    assert "after this turn" not in words(app)


def test_what_was_found_by_eye_stands_largest_and_hides_the_state() -> None:
    app = opened(**QUICK, check_looks=True)
    assert "Loose" in words(app)
    pick(app, "check:checks.track_dented", "yes")
    said = words(app)
    assert said.index("Dented or pitted race") < said.index("No turn of the cone yet")
    assert "after this turn" not in said
    pick(app, "check:checks.axle_wobbles", "yes")
    assert '<p class="cm-card"><strong>Dented or pitted race.' in words(app)  # a card of its own


@pytest.mark.parametrize(("closed", "asked"), [("none", False), ("clear", True)])
def test_other_places_that_rock_are_asked_for_only_where_the_closed_rim_rocks(
    closed: str, asked: bool
) -> None:
    said = words(opened(play_open="clear", play_closed=closed, turns="free", held_by="quick release"))
    assert ("First see that it is the hub" in said) is asked


def test_play_with_the_clamp_open_is_felt_with_the_wheel_out() -> None:
    question = pills(opened(), "play_open")
    assert "Wheel **out**" in question.label
    assert "tips in the slots" in question.help


def test_hand_words_alone_are_told_without_per_cent_and_a_measurement_with() -> None:
    app = opened(**QUICK, check_play=True)
    assert " %" not in words(app)
    enter(app, "found.rim_open.play", 0.9)
    assert " %" in words(app)


def test_a_ride_between_rounds_is_a_round_of_its_own_with_its_distance() -> None:
    app = opened(**QUICK)
    app.number_input(key="check:next.turned").set_value(None).run()
    pick(app, "check:next.ridden", "yes")
    enter(app, "next.ridden_distance", 30.0)
    add_round(app)
    assert not app.exception
    assert seen(app).round_2.ridden_distance == pytest.approx(30e3)
    assert "30 km" in words(app)
