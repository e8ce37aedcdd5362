"""Stories: read strictly, all mistakes at once; changes laid over a scenario as if they stood in its file."""

import pytest

import conemodel as cm
from conemodel.base.errors import InputProblems
from conemodel.parts.changes import ScenarioChanges
from conemodel.parts.lesson import STEPS, STORIES, Story, load_story, stories
from conemodel.parts.toml_files import read_part, write_part

OWN = """
title = "Mine"
opening = "Two hubs."
[left]
scenario = "touring-rear"
caption = "One"
[right]
scenario = "road-front"
caption = "Other"
[right.setting]
back_off_turns = 0.2
[steps.clamped]
ask = "turn"
question = "In, out, or leave it?"
"""


@pytest.fixture
def shelf(root, tmp_path):
    for name in ("touring-rear", "road-front"):
        (tmp_path / f"{name}.toml").write_text((root / "scenarios" / f"{name}.toml").read_text())
    return tmp_path


def said(shelf, *changes):
    text = OWN
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    (shelf / "mine.toml").write_text(text)
    with pytest.raises(InputProblems) as caught:
        load_story(shelf / "mine.toml")
    return [str(problem) for problem in caught.value.problems]


def test_the_ready_stories_are_those_that_were_promised():
    assert {path.stem for path in stories()} == {
        "quick-release-or-nuts",
        "steel-or-light-axle",
        "snug-or-worn-thread",
        "held-or-unheld-cone",
        "loose-or-right-under-the-rider",
        "right-or-tight-under-the-rider",
        "proud-axle",
        "clamped-bench-or-frame",
        "nut-turned-or-cone-turned-out",
        "axle-end-or-rim",
    }


@pytest.mark.parametrize("path", stories(), ids=lambda path: path.stem)
def test_a_ready_story_loads_says_enough_and_reads_back_the_same(path):
    story = load_story(path).story
    assert len(story.note.split()) >= 20
    assert len(story.own_hub) >= 1
    assert story.steps.shown[-1] == [name for name in STEPS if not getattr(story.steps, name).left_out][-1]
    assert read_part(Story, write_part(story), name="again") == story


def test_an_instructors_own_story_stands_beside_its_scenarios(shelf):
    (shelf / "mine.toml").write_text(OWN)
    staged = load_story(shelf / "mine.toml")
    assert staged.left == cm.load_scenario(shelf / "touring-rear.toml")
    assert staged.right == cm.load_scenario(shelf / "road-front.toml").with_setting(
        back_off=0.2 * 2 * 3.141592653589793
    )


def test_every_mistake_is_said_with_its_line(shelf):
    found = said(
        shelf,
        ('title = "Mine"', f'title = "{"long " * 20}"'),
        ('caption = "One"', 'captoin = "One"'),
        ("back_off_turns = 0.2", "back_off_turns = 20"),
        ('ask = "turn"', 'ask = "shout"'),
    )
    assert len(found) == 4
    assert "title = 99 characters: must not be longer than 60 characters" in found[3]
    assert "mine.toml:6: left.captoin = One: is not a known key (did you mean caption?)" in found[0]
    assert "mine.toml:11: right.setting.back_off_turns = 20: must be at most 3 turn" in found[1]
    assert "mine.toml:13: steps.clamped.ask = shout: must be one of" in found[2]


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('question = "In, out, or leave it?"', "", "say what the class commits to"),
        (
            'ask = "turn"',
            'ask = "nothing"',
            "must be 'turn', 'change' or 'compare' where there is a question",
        ),
        ('"Two hubs."', '"The right one is tight."', "must name a side by its caption"),
        ('caption = "One"', 'caption = "The loose one"', "must not hold an answer"),
        ('ask = "turn"', 'left_out = true\nask = "turn"', "must be false for a step that asks"),
        ("[steps.clamped]", '[steps.clamped]\nreveal = "' + "x" * 300 + '"', "must not be longer than 260"),
        ('opening = "Two', 'own_hub = ["a", "a", "a", "a", "a", "a"]\nopening = "Two', "more than 5 lines"),
        ('"road-front"', '"gravel-front"', "known here: road-front, touring-rear"),
        ("back_off_turns = 0.2", "back_off_deg = 70", "did you mean back_off_turns?"),
    ],
)
def test_a_story_that_cannot_be_told_is_refused(shelf, old, new, words):
    assert any(words in problem for problem in said(shelf, (old, new)))


def test_too_many_questions_are_refused(shelf):
    more = "".join(f'[steps.{name}]\nask = "change"\nquestion = "And now?"\n' for name in STEPS[:3])
    assert any(
        "at most 3 steps of a story do" in p
        for p in said(shelf, ("[steps.clamped]", more + "[steps.clamped]"))
    )


def test_a_story_that_asks_nothing_is_refused(shelf):
    found = said(shelf, ('ask = "turn"\nquestion = "In, out, or leave it?"', 'reveal = "Look."'))
    assert found == [
        "mine.toml:12: steps.clamped: must ask something, or another step must: a class commits somewhere"
    ]


def test_changes_that_do_not_go_together_are_named_under_their_side(shelf):
    found = said(shelf, ("[right.setting]\nback_off_turns = 0.2", "[right.axle]\nbore_mm = 4"))
    assert found == ["mine.toml: right.clamp.rod_diameter_mm = 5: must be smaller than the axle's bore, 4 mm"]


def test_a_clamp_force_takes_the_place_of_what_gave_it_before(root):
    nutted = cm.load_scenario(root / "scenarios/city-nutted.toml")
    assert nutted.clamp.torque is not None
    changes = read_part(ScenarioChanges, "[clamp]\nforce_n = 9000\n", name="x")
    changed = changes.apply_to(nutted)
    assert (changed.clamp.force, changed.clamp.torque) == (9000.0, None)
    assert changed.replace(clamp=nutted.clamp) == nutted


def test_a_story_named_like_its_scenario_finds_the_scenario():
    assert load_story(STORIES / "proud-axle.toml").right.axle.length > 0
