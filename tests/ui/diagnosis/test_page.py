"""The page Check a hub as a flow: what is entered survives, the answer is the library's, mistakes are all said."""

import re
from html import escape
from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from conemodel.parts import library, unknowns
from conemodel.parts.priors import BELIEVED, Beliefs
from conemodel.parts.readings import MOST_ROUNDS, Readings, load_readings
from conemodel.parts.scenario import Scenario
from conemodel.tasks.diagnosis.diagnose import Diagnosis, diagnose
from conemodel.ui import cache
from tests.tasks.diagnosis.simulated import quick_readings
from tests.ui.diagnosis.driving import QUICK, add_round, bring, enter, opened, pick, pills, says, seen, words

FILES = sorted((library.SCENARIOS / "readings").glob("*.toml"))
READ_QUICKLY = quick_readings(play_open="clear", play_closed="slight", turns="free", clamp="quick release")
DIAL = next(path for path in FILES if path.stem == "dial-gauge")


def test_three_answers_give_the_librarys_result() -> None:
    app = opened()
    assert "Not looked at yet" in words(app)
    for key, answer in QUICK.items():
        pick(app, key, answer)
    assert not app.exception
    expected = diagnose(READ_QUICKLY)
    assert says(app, expected)
    assert "in (clockwise) about" in words(app)
    assert {key: app.query_params[key] for key in QUICK} == QUICK


def test_a_link_with_an_earlier_word_for_play_is_understood() -> None:
    app = opened(**{**QUICK, "play_closed": "just felt"})
    assert app.session_state.play_closed == "slight"
    assert app.query_params["play_closed"] in ("slight", ["slight"])


def test_a_link_carries_the_quick_answers_and_nonsense_in_it_does_no_harm() -> None:
    said = words(opened(**QUICK, freehub="no"))
    assert "Loose" in said
    assert "the spokes;" in said
    assert "the freehub;" not in said
    assert "Not looked at yet" in words(opened(play_open="lots", held_by="<script>"))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_file_opens_with_the_librarys_sentence_and_comes_back_as_it_was(path: Path) -> None:
    app = bring(opened(), path.name, path.read_bytes())
    assert not app.exception
    assert says(app, diagnose(load_readings(path)))
    assert seen(app) == load_readings(path)


def test_a_bad_file_is_explained_and_everything_entered_stays() -> None:
    app = opened(**QUICK, check_sizes=True)
    enter(app, "dropout_thickness.size", 7.0)
    before = seen(app)
    bring(app, "bad.toml", b"[found]\nrim_open = { play_mm = 99 }\ncolour = 'red'\n")
    assert "What you entered is as it was" in words(app)
    assert "at most 10 mm" in words(app)
    assert "colour" in words(app)
    assert seen(app) == before
    assert "Loose" in words(app)


def test_what_cannot_be_is_all_said_at_once_in_the_words_of_the_screen_and_kept() -> None:
    app = opened(**QUICK, check_play=True, check_sizes=True)
    enter(app, "found.rim_open.play", 12.0)
    enter(app, "axle_length.size", 120.0)
    enter(app, "over_locknut_width.size", 130.0)
    said = words(app)
    assert "Play at the rim, clamp open = 12 mm: must be at most 10 mm" in said
    assert "Axle length = 120 mm: must not be below the width over the locknuts, 130 mm" in said
    assert "Loose" not in said
    assert app.number_input(key="check:found.rim_open.play").value == 12.0
    enter(app, "found.rim_open.play", 0.8)
    enter(app, "axle_length.size", 141.0)
    assert "Loose" in words(app)


def test_readings_that_contradict_each_other_get_a_sentence_and_no_turn() -> None:
    """Closing a clamp never adds play of the hub's own (statics: it shortens the axle), and all else is cleared."""
    cleared = dict.fromkeys(("freehub", "headset", "spokes", "dropouts"), "no")
    app = opened(held_by="quick release", check_play=True, **cleared)
    for place, play in (("open", 0.2), ("closed", 1.5)):
        enter(app, f"found.rim_{place}.play", play)
    said = words(app)
    assert "Readings do not go together" in said
    assert "so no turn is advised" in said
    assert "after this turn" not in said


def test_what_is_folded_away_keeps_what_was_entered() -> None:
    app = opened(**QUICK, check_balls=True)
    enter(app, "balls_left.count", 9)
    app.session_state["check_balls"] = False
    app.run()
    assert not [field for field in app.number_input if field.key == "check:balls_left.count"]
    assert seen(app).balls_left.count == 9
    app.session_state["check_balls"] = True
    app.run()
    assert app.number_input(key="check:balls_left.count").value == 9


def test_a_measured_play_counts_instead_of_the_word() -> None:
    app = opened(**QUICK, check_play=True)
    enter(app, "found.rim_open.play", 1.25)
    assert "1.25 mm measured: that counts, not the word" in words(app)
    assert pills(app, "play_open").disabled
    assert not pills(app, "play_closed").disabled
    enter(app, "found.rim_open.uncertainty", 0.05)
    assert seen(app).found.rim_open.play == pytest.approx(1.25e-3)
    assert seen(app).found.rim_open.uncertainty == pytest.approx(0.05e-3)
    assert seen(app).found.rim_open.hand is None
    for field in ("uncertainty", "play"):
        app.number_input(key=f"check:found.rim_open.{field}").set_value(None).run()
    assert "that counts" not in words(app)
    assert not pills(app, "play_open").disabled
    assert seen(app).found.rim_open.hand == "clear"


def test_in_a_round_too_a_measured_play_counts_instead_of_the_word() -> None:
    app = opened(**QUICK, check_next=True)
    enter(app, "next.rim_closed.play", 0.4)
    assert "0.4 mm measured: that counts" in words(app)
    assert pills(app, "check:next.rim_closed.hand").disabled
    assert not pills(app, "check:next.rim_open.hand").disabled


def test_the_way_the_cone_was_turned_can_be_changed_but_not_unsaid() -> None:
    assert pills(opened(**QUICK), "check:next.way").proto.required


def test_every_uncertainty_left_alone_is_the_readings_own() -> None:
    app = opened(
        **QUICK, **{f"check_{name}": True for name in ("sizes", "balls", "marked", "turning", "looks")}
    )
    enter(app, "axle_length.size", 141.0)
    assert seen(app).axle_length.uncertainty == Readings().axle_length.uncertainty
    assert seen(app).replace(axle_length=Readings().axle_length) == READ_QUICKLY


def test_a_round_follows_the_advice_updates_the_same_hub_and_can_be_taken_back() -> None:
    app = opened(**QUICK)
    first = words(app)
    advised = app.number_input(key="check:next.turned").value
    assert advised is not None
    assert f"about {advised}°" in first
    pick(app, "check:next.rim_open.hand", "slight")
    pick(app, "check:next.rim_closed.hand", "none")
    pick(app, "check:next.turns_closed", "free")
    add_round(app)
    assert not app.exception
    assert len(seen(app).rounds) == 2
    assert seen(app).round_2.turned == pytest.approx(-advised * 3.141592653589793 / 180)
    assert says(app, diagnose(seen(app)))
    assert "Right" in words(app)
    app.button(key="take_back").click().run()
    assert len(seen(app).rounds) == 1
    assert says(app, diagnose(seen(app)))


def test_a_turn_of_ones_own_stays_when_the_advice_changes() -> None:
    app = opened(**QUICK)
    enter(app, "next.turned", 31)
    pick(app, "play_closed", "clear")
    assert app.number_input(key="check:next.turned").value == 31
    other = opened(**QUICK)
    before = other.number_input(key="check:next.turned").value
    pick(other, "play_closed", "clear")
    assert other.number_input(key="check:next.turned").value != before


def test_an_empty_round_is_refused_and_six_are_the_most() -> None:
    app = opened(**QUICK)
    app.number_input(key="check:next.turned").set_value(None).run()
    add_round(app)
    assert "there is no round to add" in words(app)
    for _ in range(MOST_ROUNDS - 1):
        app.number_input(key="check:next.turned").set_value(1).run()
        pick(app, "check:next.way", "in")
        add_round(app)
    assert len(seen(app).rounds) == MOST_ROUNDS
    assert not [button for button in app.button if button.key == "add_round"]


def test_a_clean_sheet_takes_everything_out() -> None:
    app = bring(opened(), DIAL.name, DIAL.read_bytes())
    next(button for button in app.button if button.label == "Clear everything").click().run()
    assert seen(app) == Readings()
    assert "Not looked at yet" in words(app)


def test_only_an_answer_not_seen_before_is_worked_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each once, and one that was there not at all: that is what keeps the page quick on any machine."""
    asked: list[Readings] = []

    def counted(readings: Readings, hub: Scenario | None, *, beliefs: Beliefs | None) -> Diagnosis:
        asked.append(readings)
        return diagnose(readings, hub, beliefs=beliefs)

    monkeypatch.setattr(cache, "diagnose", counted)
    cache.cached_diagnosis.clear()
    app = opened(**QUICK)
    assert len(asked) == 1
    for answer, worked_out in (("none", 2), ("clear", 3), ("none", 3), ("slight", 3)):
        pick(app, "play_closed", answer)
        assert len(asked) == worked_out


def test_ranges_changed_for_the_hub_travel_with_it() -> None:
    """Another range of the clamp force is another hub to weigh against, and the explanation tells where it is from."""
    same = {**QUICK, "checked_as": "same", "check_why": True}
    usual, own = opened(**same), opened(**same, clamp_force_high="3200", drift_high="40")
    assert not own.exception
    assert "3000 to 3200 N" in words(own)
    assert "as given for this hub" in words(own)
    assert "as given for this hub" not in words(usual)
    assert unknowns.hands.DRIFT.because in words(usual)
    assert own.query_params["drift_high"] in ("40", ["40"])
    assert row(usual, "Clamp force") != row(own, "Clamp force")


def row(app: AppTest, name: str) -> str:
    """Return the line of the table of numbers that tells one of them."""
    found = re.search(rf"<tr><th scope=\"row\">{name}</th>(?:(?!N</td></tr>).)*N</td></tr>", words(app))
    assert found
    return found[0]


def test_a_belief_shows_the_reason_of_the_unknown_it_rests_on() -> None:
    app = opened(**QUICK, check_why=True)
    for unknown in BELIEVED.values():
        assert escape(unknown.because) in words(app)
