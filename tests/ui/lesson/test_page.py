"""The pages Demonstrate and Many hubs as flows: nothing shown too early, nothing entered lost, nothing hidden."""

import re
import time
from base64 import b64decode
from html import escape

import pytest
from streamlit.testing.v1 import AppTest

from conemodel.parts.lesson import load_story, stories
from conemodel.parts.toml_files import write_part
from conemodel.show.lesson.rows import rows_told
from conemodel.show.population.wording import ASSUMED
from conemodel.tasks.lesson.lesson import play_story, view_of
from conemodel.tasks.lesson.position import positions
from conemodel.ui.background_job import Kept, Work
from conemodel.ui.lesson.lessons import FIRST_STORY, ready_stories
from conemodel.ui.population import page as many_hubs
from conemodel.ui.population.choose import ready_crowds
from tests.patience import PATIENCE

STORIES = {path.stem: path for path in stories()}


DOES = {"locked": "(nut|cone)", "clamped": "(lever|axle nuts|thru-axle)"}
"""Who takes or gives play in a stage."""


def _demonstrate() -> None:
    from conemodel.ui.lesson import page as demonstrate

    demonstrate.page()


def _many() -> None:
    from conemodel.ui.population import page as many_hubs

    many_hubs.page()


def opened(script=_demonstrate, **address: str) -> AppTest:
    app = AppTest.from_function(script, default_timeout=PATIENCE)
    for name, value in address.items():
        app.query_params[name] = value
    return app.run()


def words(app: AppTest) -> str:
    html = [element.proto.body for element in app.get("html")]
    texts = [element.value for element in (*app.markdown, *app.text, *app.info, *app.caption)]
    return "\n".join([*html, *texts])


def drawn(app: AppTest) -> str:
    """All that the pictures of the page hold."""
    return "\n".join(b64decode(data).decode() for data in re.findall(r'base64,([^"]*)"', words(app)))


def press(app: AppTest, name: str) -> AppTest:
    return app.button(key=f"wall-{name}").click().run()


def whole(app: AppTest) -> tuple[str, str]:
    """What the page says and where it stands, without what only moves; the pictures are compared in the browser."""
    said = re.sub(r'data:image[^"]*', "", words(app))
    return said, str(dict(app.query_params))


def test_a_story_begins_by_its_button() -> None:
    app = opened()
    assert "Two rear hubs" in words(app)
    next(button for button in app.button if button.label == "Show it").click().run()
    assert app.query_params["step"] == "locked"
    assert 'class="cm-close"' in words(app)


@pytest.mark.parametrize("name", STORIES)
def test_a_whole_story_is_told_by_three_keys_and_ends(name: str) -> None:
    staged = load_story(STORIES[name])
    app = opened(story=name, step=staged.story.steps.shown[0])
    for expected in positions(staged.story)[1:]:
        press(app, "reveal" if expected.revealed and not app.button(key="wall-reveal").disabled else "next")
        assert not app.exception
        assert app.query_params["step"] == staged.story.steps.shown[expected.step]
        assert ("shown" in app.query_params) == expected.revealed
    assert app.button(key="wall-next").disabled
    assert app.button(key="wall-reveal").disabled
    assert "have a qualified mechanic check the wheel" in words(app)


@pytest.mark.parametrize("name", STORIES)
def test_before_a_reveal_nothing_of_it_is_on_the_page(name: str) -> None:
    """No sum, word or number that the reveal adds; taken from the story and its prediction, not from the page."""
    staged = load_story(STORIES[name])
    told = play_story(staged)
    for place in positions(staged.story):
        step = staged.story.steps.shown[place.step]
        if place.revealed:
            continue
        app = opened(story=name, step=step)
        said = words(app) + drawn(app)
        assert 'class="cm-answer' not in said
        assert getattr(staged.story.steps, step).reveal.strip() not in said
        after = view_of(told, positions(staged.story)[positions(staged.story).index(place) + 1])
        for side in after.sides:
            for row in rows_told(side):
                if row.stage in side.new and row.kind != "level" and abs(row.length) > 5e-5:
                    assert f">{row.size.split()[0]}<" not in said
            shown = {stage for before in view_of(told, place).sides for stage, _ in before.terms}
            for stage in {"locked", "clamped"} - shown:
                assert not re.search(f"{DOES[stage]} (took|gave)", said)
            if "clamped" not in shown:
                assert "good-zone" not in said
                assert "should-stand" not in said


def test_the_wall_warns_of_a_race_that_would_be_dented() -> None:
    address = {"story": "held-or-unheld-cone", "shown": "yes"}
    assert 'class="cm-dented"' in words(opened(**address, step="locked"))
    assert 'class="cm-dented"' not in words(opened(**address, step="backed_off"))


def test_one_step_back_restores_the_same_page() -> None:
    app = opened(story="snug-or-worn-thread", step="backed_off", shown="yes")
    seen = [whole(app)]
    for key in ("next", "reveal", "next", "reveal"):
        seen.append(whole(press(app, key)))
    assert len(set(seen)) == len(seen)
    for expected in reversed(seen[:-1]):
        assert whole(press(app, "back")) == expected


def test_swapping_swaps_the_captions_and_swapping_again_swaps_them_back() -> None:
    app = opened(step="locked", shown="yes")
    at_first = whole(app)
    before = words(app)
    assert before.index("<h2>Quick release") < before.index("<h2>Axle nuts")
    press(app, "swap")
    assert app.query_params["swapped"] == "yes"
    assert words(app).index("<h2>Axle nuts") < words(app).index("<h2>Quick release")
    assert whole(press(app, "swap")) == at_first


def test_hands_are_counted_and_stand_beside_the_answer() -> None:
    app = opened(step="clamped")
    assert len(app.number_input) == 8
    for label, hands in (("in", 7), ("leave it", 9)):
        next(entry for entry in app.number_input if entry.label == label).set_value(hands).run()
    press(app, "reveal")
    assert "9 of 16 hands" in words(app)
    press(app, "back")
    assert [entry.value for entry in app.number_input[:3]] == [7, 0, 9]


def test_the_hands_of_a_side_move_with_it() -> None:
    app = opened(step="clamped")
    app.number_input[0].set_value(5).run()
    press(app, "swap")
    assert [entry.value for entry in app.number_input] == [0, 0, 0, 0, 5, 0, 0, 0]


def test_the_teachers_note_is_not_on_the_page_until_asked_for() -> None:
    staged = load_story(STORIES[FIRST_STORY])
    app = opened(step="clamped")
    note = staged.story.note.split(".")[0]
    assert note not in words(app)
    app.session_state["wall-more"] = True
    app.run()
    assert note not in words(app)
    app.toggle(key="wall-note").set_value(True).run()
    assert note in words(app)
    assert staged.story.steps.clamped.note.strip() not in words(app)  # that one belongs to the answer


def test_a_proud_axle_must_not_be_ridden() -> None:
    assert "do not ride" not in words(opened(story="proud-axle", step="clamped"))
    assert "do not ride" in words(opened(story="proud-axle", step="clamped", shown="yes"))


@pytest.mark.parametrize("address", [{"step": "x"}, {"step": "ridden"}, {"step": "locked", "shown": "no"}])
def test_an_address_that_makes_no_sense_leads_to_a_step(address: dict[str, str]) -> None:
    app = opened(**address)
    assert not app.exception
    assert 'class="cm-close"' in words(app)


# many hubs


def settled(app: AppTest) -> AppTest:
    """Run the page until its work has ended."""
    for _ in range(200):
        work = app.session_state.get("many_work", None)
        if work is None or work.finished:
            return app.run()
        time.sleep(0.05)
    raise AssertionError("the study did not end")


@pytest.fixture
def few(monkeypatch: pytest.MonkeyPatch) -> Kept[many_hubs.Answer]:
    """Keep results of their own for one test."""
    kept: Kept[many_hubs.Answer] = Kept(4)
    monkeypatch.setattr(many_hubs, "KEPT", kept)
    return kept


def test_a_study_runs_beside_the_page_and_is_kept(few: Kept[many_hubs.Answer]) -> None:
    app = opened(_many, many_hubs="10000")
    assert "of 10,000 hubs" not in words(app)
    settled(app)
    first = words(app)
    assert "of 10,000 hubs land in the good range" in first
    again = opened(_many, many_hubs="10000")
    assert words(again) == first
    other = settled(opened(_many, many_hubs="10000", many_seed="2"))
    assert "of 10,000 hubs land in the good range" in words(other)
    assert words(other) != first


def test_the_last_answer_stays_while_another_is_worked_out(few: Kept[many_hubs.Answer]) -> None:
    app = settled(opened(_many, many_hubs="10000"))
    app.selectbox(key="many_hubs").select("1000000").run()
    assert "of 10,000 hubs land" in words(app)
    assert "the last study that was finished" in words(app)
    app.button(key="many-cancel").click().run()
    settled(app)
    assert any("Stopped" in info.value for info in app.info)
    assert app.selectbox(key="many_hubs").value == "1000000"
    assert "of 10,000 hubs land" in words(app)


def test_the_slack_assumption_moves_the_shares(few: Kept[many_hubs.Answer]) -> None:
    crowd = ready_crowds()["workshop-mix"]
    text = write_part(crowd.population)
    start = text.index("[threads.fit]")
    tight = text[:start] + text[start:].replace("high = 1.0", "high = 0.1", 1)
    assert tight != text
    app = settled(opened(_many, many_hubs="10000"))
    before = next(iter(few._found.values()))[0].all.shares
    app.file_uploader(key="crowd_file").upload("mine.toml", tight.encode()).run()
    settled(app)
    after = list(few._found.values())[-1][0].all.shares
    assert app.selectbox(key="population").value == "own"
    for shares in (before, after):
        assert shares.loose + shares.right + shares.tight == pytest.approx(1, abs=1e-12)
    assert after.loose > before.loose + 0.02  # less slack for the locknut to take up


def test_every_assumption_stands_on_the_page_with_its_reason() -> None:
    crowd = ready_crowds()["workshop-mix"]
    said = words(opened(_many, many_hubs="10000"))
    for where, spread in crowd.population.assumptions:
        assert escape(ASSUMED[where]) in said
        assert where not in said or where in ASSUMED[where]  # the file's own names stay in the file
        assert spread.because.replace("'", "&#x27;") in said


def test_a_broken_population_is_explained_and_nothing_is_lost() -> None:
    app = opened(_many, many_hubs="10000", many_out="45")
    app.file_uploader(key="crowd_file").upload("mine.toml", b'name = "x"\n[hubs]\nfiles = ["a"]').run()
    assert any("because" in code.value and "story" in code.value for code in app.code)
    assert app.slider(key="many_out").value == 45


def test_work_that_fails_says_why_and_work_nobody_watches_stops() -> None:
    def fails(tell, stop):
        raise RuntimeError("no answer")

    work: Work[int] = Work("a", Kept(2))
    work.start(fails)
    while not work.finished:
        time.sleep(0.01)
    assert "no answer" in work.error
    left: Work[int] = Work("b", Kept(2), seen=time.monotonic() - 1000)
    left.start(lambda tell, stop: 1)
    while not left.finished:
        time.sleep(0.01)
    assert left.cancelled
    assert left.kept.get("b") is None


def test_results_that_were_least_used_go_first() -> None:
    kept: Kept[int] = Kept(2)
    kept.put("a", 1)
    kept.put("b", 2)
    assert kept.get("a") == 1
    kept.put("c", 3)
    assert (kept.get("a"), kept.get("b"), kept.get("c")) == (1, None, 3)


def test_after_its_last_step_a_story_leads_on_to_the_next_and_the_last_to_none() -> None:
    names = list(ready_stories())[:-1]  # all but that of one's own hub
    app = opened(story=names[0], step="clamped", shown="yes")
    app.button(key="wall-next-story").click().run()
    assert f"<h1>{ready_stories()[names[1]].story.title.strip()}</h1>" in words(app)
    assert app.button(key="wall-back").disabled
    assert not [button for button in app.button if button.key == "wall-next-story"]
    last = opened(story=names[-1], step=ready_stories()[names[-1]].story.steps.shown[-1], shown="yes")
    assert last.button(key="wall-next").disabled
    assert not [button for button in last.button if button.key == "wall-next-story"]
