"""Look closer as a flow: each part opens, follows what is entered, and says its assumptions; the page Method."""

import re
from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from conemodel.parts import library
from tests.patience import PATIENCE
from tests.ui.setting.test_page import answer, opened, words

SCENARIOS = sorted((library.SCENARIOS).glob("*.toml"))
PARTS = ("rider", "turning", "rocking", "life", "binds")


def said(app: AppTest) -> str:
    return "\n".join(
        [words(app), *(each.value for each in app.caption), *(each.value for each in app.subheader)]
    )


@pytest.mark.parametrize("part", PARTS)
def test_every_part_opens_from_its_address(part: str) -> None:
    app = opened(closer=part)
    assert not app.exception
    assert not app.error
    assert app.get("segmented_control") or app.get("button_group")
    assert "assum" in said(app) or part == "binds"


@pytest.mark.parametrize("path", SCENARIOS, ids=lambda path: path.stem)
def test_every_ready_hub_can_be_turned(path: Path) -> None:
    app = opened(hub=path.stem, closer="turning")
    assert not app.exception
    assert "Fingers say" in said(app)


def test_closed_by_default_and_nonsense_in_the_address_does_no_harm() -> None:
    for app in (opened(), opened(closer="sesame")):
        assert not app.exception
        assert app.session_state.closer == "off"
        assert "Fingers say" not in said(app)


def test_the_load_chosen_is_the_load_shown() -> None:
    straight, impact = (said(opened(closer="rider", case=case)) for case in ("straight", "impact"))
    first, second = (
        float(re.search(r"### ([\d.]+) N on one ball", text)[1])  # type: ignore[index]
        for text in (straight, impact)
    )
    assert second > 2 * first


def test_a_heavier_rider_presses_harder_and_the_address_keeps_it() -> None:
    app = opened(closer="rider")
    before = said(app)
    app.number_input(key="load").set_value(1200.0).run()
    assert not app.exception
    assert said(app) != before
    assert app.query_params["load"] in ("1200", ["1200"])


def test_a_kerb_too_high_leaves_a_dent_in_words() -> None:
    app = opened(closer="rider", case="impact", impact=12000.0)
    assert "A dent stays that can be felt" in said(app)


def test_wheel_flex_is_told_apart_from_play() -> None:
    """A good setting: the rim moves, none of it is play; a softer wheel moves more and has no more play."""
    moved = []
    for flex in (60.0, 30.0):
        app = opened(closer="rocking", turn=61.0, flex=flex)
        text = said(app)
        assert "none of it is play" in text
        moved.append(float(re.search(r"rim moves ([\d.]+) mm", text)[1]))  # type: ignore[index]
    assert moved[1] > 1.5 * moved[0]


def test_spin_time_is_said_to_prove_nothing_and_the_factor_is_printed() -> None:
    text = said(opened(closer="turning"))
    assert "That proves nothing" in text
    assert re.search(r"[\d.]+ times the quoted drag", text)
    assert "Heavy spot" in text


def test_a_stiff_hub_does_not_swing() -> None:
    """The moment m g r of 10 g at 310 mm is 30.4 N·mm: worked out by hand."""
    text = said(opened(closer="turning", turn=30.0))
    assert "never moves the wheel" in text
    assert "30 N·mm" in text


def test_life_says_what_it_does_not_say_and_follows_the_mix() -> None:
    app = opened(closer="life")
    assert "punishes tightness far more than play" in said(app)
    assert "80% of the turns" in said(app)
    app.slider(key="share").set_value(60.0).run()
    assert "40% of the turns" in said(app)


def test_a_limit_switched_off_lets_the_next_one_bind_and_leaves_the_verdict() -> None:
    app = opened(closer="binds")
    before = said(app)
    verdict = answer(app)
    assert "Tight side: fatigue life against its best" in before
    app.toggle(key="use_life_ratio").set_value(False).run()
    after = said(app)
    assert "Tight side: fatigue life against its best" not in after
    assert "Tight side: turning torque from preload" in after
    assert "Loose side: no play felt at the rim" in after
    assert answer(app) == verdict


FAULTY = {
    "bent-axle": "flat plate",
    "big-ball": "one packet",
    "dented-cone": "Replace the cone",
    "pitted-cup": "pits",
    "dragging-seal": "rubs",
    "dry-grease": "dried",
}


@pytest.mark.parametrize("name", FAULTY)
def test_a_hub_that_the_cone_cannot_cure_says_so_in_the_largest_words(name: str) -> None:
    text = words(opened(hub=name))
    large = text.index("Will not come right by the cone alone")
    assert all(
        text.find(words_) == -1 or text.find(words_) > large for words_ in ("Turn the cone", "Leave it")
    )
    assert FAULTY[name] in text
    assert "Turned by hand, set and clamped like this" in text


@pytest.mark.parametrize("name", ["touring-rear", "light-axle", "proud-axle"])
def test_a_sound_hub_says_nothing_of_the_kind(name: str) -> None:
    assert "cone alone" not in words(opened(hub=name))


def test_a_missing_ball_and_unlike_rows_are_asked_about() -> None:
    text = words(opened(hub="mixed-rows"))
    assert "Count the balls first" in text
    assert "number, which decides" in text
    assert text.index("Ask first") < text.index("The two rows are not alike")


def _method() -> None:
    from conemodel.ui.validation import page as method

    method.page()


def test_method_shows_checks_equations_sources_and_what_is_left_out() -> None:
    app = AppTest.from_function(_method, default_timeout=PATIENCE).run()
    assert not app.exception
    text = said(app)
    count, of = re.search(r"(\d+) of (\d+) hold", text).groups()  # type: ignore[union-attr]
    assert count == of
    assert int(of) > 60
    for part in (
        "218 bearing",
        "from memory",
        "HarrisKotzalas2007",
        "bending of the axle",
        "times** the quoted",
    ):
        assert part in text
    assert len(app.latex) > 10
