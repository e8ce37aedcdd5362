"""A story brought as a file: taken with all its mistakes named, told, and carried whole in the address."""

import pytest
from streamlit.testing.v1 import AppTest

from conemodel.parts.lesson import load_story
from conemodel.parts.toml_files import write_part
from conemodel.ui.packed_text import pack
from tests.ui.lesson.test_page import STORIES, opened, press, whole, words


def test_an_own_story_is_taken_and_told() -> None:
    text = write_part(load_story(STORIES["steel-or-light-axle"]).story).replace(
        "Steel axle, light axle", "My own"
    )
    app = opened()
    app.file_uploader(key="story_file").upload("../../x<b>.toml", text.encode()).run()
    assert app.selectbox(key="story").value == "own"
    next(button for button in app.button if button.label == "Show it").click().run()
    assert "<h1>My own</h1>" in words(app)


def own_story(note: str = "") -> str:
    story = load_story(STORIES["steel-or-light-axle"]).story
    return write_part(story.replace(title="My own", note=note))


def address(app: AppTest) -> dict[str, str]:
    found = dict(app.query_params)
    return {name: text if isinstance(text, str) else text[-1] for name, text in found.items()}


def test_an_own_story_comes_back_with_its_address_step_and_all() -> None:
    app = opened()
    app.file_uploader(key="story_file").upload("mine.toml", own_story().encode()).run()
    assert "own_story" in app.query_params
    next(button for button in app.button if button.label == "Show it").click().run()
    press(app, "next")
    again = opened(**address(app))
    assert "<h1>My own</h1>" in words(again)
    assert whole(again) == whole(app)
    chosen = opened(story="own", own_story=address(app)["own_story"])
    assert chosen.selectbox(key="story").value == "own"
    chosen.selectbox(key="story").select("proud-axle").run()
    assert "own_story" not in chosen.query_params


def test_an_own_story_too_long_for_the_address_is_said_to_be() -> None:
    note = "".join(chr(0x4E00 + 7919 * n % 20000) for n in range(4000))
    app = opened()
    app.file_uploader(key="story_file").upload("mine.toml", own_story(note).encode()).run()
    assert "Your own story is too long for the address" in app.warning[0].value
    assert "own_story" not in app.query_params


@pytest.mark.parametrize("packed", ["x", "", pack("title = 1"), pack(own_story())[:-9]])
def test_an_own_story_that_is_not_whole_is_said(packed: str) -> None:
    app = opened(story="own", own_story=packed, step="locked")
    assert not app.exception
    assert "could not be read" in app.error[0].value


def test_every_mistake_of_an_own_story_is_named_and_nothing_is_lost() -> None:
    app = opened(story="proud-axle")
    text = write_part(load_story(STORIES["proud-axle"]).story)
    text = text.replace('scenario = "proud-axle"', 'scenario = "no-such-hub"').replace("title =", "tittle =")
    text = text.replace('ask = "turn"', 'ask = "pray"')
    app.file_uploader(key="story_file").upload("mine.toml", text.encode()).run()
    said = "\n".join(code.value for code in app.code)
    assert "tittle" in said
    assert "pray" in said
    assert app.selectbox(key="story").value == "proud-axle"
    text = text.replace("tittle", "title").replace("pray", "turn")
    app.file_uploader(key="story_file").upload("mine.toml", text.encode()).run()
    assert any("no-such-hub" in code.value and "touring-rear" in code.value for code in app.code)


def test_a_link_to_a_story_that_is_not_here_says_so() -> None:
    app = opened(story="own", step="clamped")
    assert not app.exception
    assert "could not be read" in app.error[0].value
    app.selectbox(key="story").select("proud-axle").run()
    assert not app.error
