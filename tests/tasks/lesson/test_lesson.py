"""Telling a story: nothing hidden is in a view, four keys lead through it, and every answer is predicted."""

from dataclasses import fields, is_dataclass, replace
from functools import cache

import pytest

import conemodel as cm
from conemodel.parts.lesson import STORIES, Staged, load_story, stories
from conemodel.solve.stages.terms import STAGES
from conemodel.tasks.lesson.answers import CANNOT, NONE_OF_THESE, OPTIONS
from conemodel.tasks.lesson.lesson import Played, play_story, view_of
from conemodel.tasks.lesson.position import KEYS, Position, positions, press, start

PROUD, BACKED = "Axle proud of the dropouts", "Cone turned out, nut held"
SIXTH, TWELFTH, NUT = "A sixth of a turn out", "A twelfth of a turn out", "Nut turned, cone held"
EVERY = [path.stem for path in stories()]


@cache
def played(name: str) -> Played:
    return play_story(load_story(STORIES / f"{name}.toml"))


def hidden(story):
    return [at for at in positions(story) if not at.revealed]


def numbers_in(thing):
    """Yield every number and word anywhere in a view."""
    if is_dataclass(thing):
        for field in fields(thing):
            yield from numbers_in(getattr(thing, field.name))
    elif isinstance(thing, tuple):
        for item in thing:
            yield from numbers_in(item)
    elif thing is not None:
        yield thing


@pytest.mark.parametrize("name", EVERY)
def test_no_number_and_no_word_of_a_hidden_step_is_in_its_view(name):
    """Every number of a stage not yet shown is looked for in everything the view holds."""
    tale = played(name)
    for at in hidden(tale.story):
        view = view_of(tale, at)
        found = list(numbers_in(view))
        assert view.reveal is None
        assert view.note is None
        for side, prediction in (("left", tale.left), ("right", tale.right)):
            seen = next(s for s in view.sides if s.side == side)
            shown = STAGES[: STAGES.index(seen.stage) + 1] if seen.stage else ()
            assert view.stage not in shown
            assert seen.answer is None
            later = [stage for stage in prediction.stages.values() if stage.name not in shown]
            known = {stage.end_play for stage in prediction.stages.values() if stage.name in shown}
            for stage in later:
                secret = {
                    stage.preload,
                    stage.rim_play,
                    stage.peak_pressure,
                    stage.torque,
                    stage.end_play,
                } - {0.0}
                secret -= known | {
                    getattr(prediction.stages[n], f)
                    for n in shown
                    for f in ("preload", "rim_play", "peak_pressure", "torque")
                }
                assert not secret & {number for number in found if isinstance(number, float)}
                labels = {term.label for term in stage.terms} - {
                    t.label for _, terms in seen.terms for t in terms
                }
                assert not labels & {word for word in found if isinstance(word, str)}
            if not {"clamped", "ridden"} & set(shown):
                assert seen.good is None
                assert seen.unsafe == ()


def test_a_view_cannot_tell_two_hubs_apart_that_differ_only_in_what_is_hidden():
    """Whatever the clamp will do, the view before it is the same to the last bit."""
    staged = load_story(STORIES / "steel-or-light-axle.toml")
    other = Staged(
        story=staged.story,
        left=staged.left.replace(axle=staged.left.axle.replace(thread_bridging=0.0)),
        right=staged.right.replace(axle=staged.right.axle.replace(thread_bridging=1.0)),
    )
    first, second = play_story(staged), play_story(other)
    before = next(at for at in hidden(staged.story) if staged.story.steps.shown[at.step] == "clamped")
    assert view_of(first, before) == view_of(second, before)
    after = replace(before, revealed=True)
    assert view_of(first, after) != view_of(second, after)


@pytest.mark.parametrize("name", EVERY)
def test_four_keys_lead_through_a_story_and_one_step_back_restores_the_same_view(name):
    story, at = played(name).story, start(played(name).story)
    assert len(KEYS) == 4
    seen = [at]
    while not view_of(played(name), at).at_end:
        following = press(story, at, "next") if at.revealed else press(story, at, "reveal")
        assert following != at
        assert view_of(played(name), press(story, following, "back")) == view_of(played(name), at)
        at = following
        seen.append(at)
    assert tuple(seen) == positions(story)
    assert press(story, at, "next") == at
    for _ in seen:
        at = press(story, at, "back")
    assert at == start(story)
    assert press(story, at, "back") == at


def test_next_never_reveals_and_reveal_never_goes_on():
    story = played("snug-or-worn-thread").story
    asked = hidden(story)[0]
    assert press(story, asked, "next") == asked
    shown = press(story, asked, "reveal")
    assert shown == replace(asked, revealed=True)
    assert press(story, shown, "reveal") == shown


@pytest.mark.parametrize("name", EVERY)
def test_swapping_swaps_captions_numbers_and_answers_and_twice_restores(name):
    tale = played(name)
    for at in positions(tale.story):
        swapped = press(tale.story, at, "swap")
        there, back = view_of(tale, at), view_of(tale, swapped)
        assert back.sides == there.sides[::-1]
        assert back.about == there.about[::-1]
        assert press(tale.story, swapped, "swap") == at
        forward = press(tale.story, swapped, "next")
        assert forward.swapped


@pytest.mark.parametrize("name", EVERY)
def test_every_answer_is_one_of_the_options_or_none_and_is_the_verdicts(name):
    """The answer follows the sign of the turn the prediction itself advises, or of the change of end play."""
    tale = played(name)
    for at in positions(tale.story):
        view = view_of(tale, at)
        for side in view.sides:
            if side.answer is None:
                continue
            prediction = getattr(tale, side.side)
            assert side.answer.words in (*view.options, NONE_OF_THESE)
            if view.options == OPTIONS["turn"]:
                state = prediction.verdict.state
                allowed = {"right": "leave it", "loose": "in (clockwise)", "tight": "out (anticlockwise)"}
                assert side.answer.words in (allowed[state], NONE_OF_THESE, CANNOT)


def answers(name: str, stage: str) -> dict[str, str | None]:
    tale = played(name)
    for at in positions(tale.story):
        view = view_of(tale, at)
        if at.revealed and view.stage == stage:
            return {side.caption: side.answer.words if side.answer else None for side in view.sides}
    raise AssertionError(stage)


@pytest.mark.parametrize(
    ("name", "stage", "wanted"),
    [
        ("quick-release-or-nuts", "clamped", {"Quick release": "leave it", "Axle nuts": "in (clockwise)"}),
        ("steel-or-light-axle", "clamped", {"Steel axle": "leave it", "Light alloy axle": "out (anticlockwise)"}),
        ("snug-or-worn-thread", "locked", {"Snug thread": "tighter", "Worn thread": "tighter"}),
        ("snug-or-worn-thread", "clamped", {"Snug thread": "in (clockwise)", "Worn thread": "leave it"}),
        ("held-or-unheld-cone", "clamped", {"Cone held": "leave it", "Cone let go": NONE_OF_THESE}),
        ("loose-or-right-under-the-rider", "clamped", {"A quarter turn out": "in (clockwise)", SIXTH: "leave it"}),
        ("loose-or-right-under-the-rider", "ridden", {"A quarter turn out": "neither", SIXTH: "neither"}),
        ("right-or-tight-under-the-rider", "clamped", {SIXTH: "leave it", TWELFTH: "out (anticlockwise)"}),
        ("proud-axle", "clamped", {"Axle short of the dropouts": "leave it", PROUD: NONE_OF_THESE}),
        ("clamped-bench-or-frame", "clamped", {"Clamped on the bench": None, "Clamped in the frame": "alike"}),
        ("nut-turned-or-cone-turned-out", "locked", {NUT: "tighter", BACKED: "looser"}),
        ("nut-turned-or-cone-turned-out", "clamped", {NUT: "out (anticlockwise)", BACKED: "leave it"}),
        ("axle-end-or-rim", "clamped", {"Felt at the axle end": CANNOT, "Felt at the rim": CANNOT}),
    ],
)  # fmt: skip
def test_a_ready_story_shows_what_its_title_says(name, stage, wanted):
    """What each story is for: common practice, no source; the answers themselves are predicted."""
    assert answers(name, stage) == wanted


def test_the_rider_is_carried_by_fewer_balls_in_a_loose_hub():
    """Load distribution theory: the loaded zone shrinks with clearance."""
    view = view_of(
        played("loose-or-right-under-the-rider"),
        positions(played("loose-or-right-under-the-rider").story)[-1],
    )
    loose, right = (side.readings for side in view.sides)
    assert loose is not None
    assert right is not None
    assert loose.carrying < right.carrying
    assert loose.heaviest_ball > right.heaviest_ball


def test_the_same_play_is_plainer_at_the_rim_than_at_the_axle_end():
    tale = played("axle-end-or-rim")
    view = view_of(tale, positions(tale.story)[-1])
    end, rim = (side.readings for side in view.sides)
    assert end is not None
    assert rim is not None
    assert (end.felt, rim.felt) == ("none", "slight")
    assert end.end_play == rim.end_play


def test_a_hand_at_the_rim_cannot_tell_the_two_ways_to_clamp_before_the_clamp():
    """The two rims move alike, to a fifth of what a trained hand just feels."""
    tale = played("quick-release-or-nuts")
    left, right = (side.stages["locked"].rim_play for side in (tale.left, tale.right))
    assert left == pytest.approx(right, abs=0.02e-3)


def test_a_proud_axle_says_do_not_ride_only_after_the_reveal():
    tale = played("proud-axle")
    order = positions(tale.story)
    assert view_of(tale, order[-2]).sides[1].unsafe == ()
    assert "proud" in view_of(tale, order[-1]).sides[1].unsafe[0]
    assert cm.predict(load_story(STORIES / "proud-axle.toml").right).verdict.unsafe
    with pytest.raises(IndexError):
        view_of(tale, Position(step=9))
