"""The two close-ups of every ready story: one enlargement all along, nothing past the picture, nothing on a word."""

import re
from collections.abc import Iterator
from itertools import combinations

import numpy as np
import pytest
from matplotlib.font_manager import FontProperties
from matplotlib.textpath import TextPath

from conemodel.show.instrument.paints import PAINTS
from conemodel.show.instrument.still import labels_in, shift_of, turn_of
from conemodel.show.lesson.hub_picture import LETTERS, PUSHES, WIDTH, HubPicture, hub_picture
from conemodel.tasks.lesson.lesson import SideView, view_of
from conemodel.tasks.lesson.position import positions
from tests.show.instrument.drawn import outlines, placed
from tests.show.lesson.told import EVERY, played


def pictures(name: str) -> Iterator[tuple[SideView, HubPicture]]:
    """Yield every picture of a story that a class sees, before and after each reveal, with its side."""
    tale = played(name)
    for at in positions(tale.story):
        view = view_of(tale, at)
        for side in view.sides:
            if side.stage is not None:
                yield side, hub_picture(tale, view, side)


def letters_of(text: str) -> float:
    """Return the width of words over their size, in a face that is wider than the wall's."""
    return float(
        TextPath((0, 0), text, size=1, prop=FontProperties(family="DejaVu Sans")).get_extents().width
    )


def words_of(picture: HubPicture) -> list[tuple[str, float, float, float, float]]:
    """Return the words of a picture, each with its left, right, top and foot [mm]."""
    size = LETTERS * picture.close.view[2] / WIDTH
    found = []
    for label, moved in labels_in(picture.close, picture.state, picture.stage):
        wide = size * letters_of(label.text)
        left = label.at[0] + moved - wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[label.anchor]
        found.append((label.text, left, left + wide, label.at[1] - 0.72 * size, label.at[1]))
    return found


@pytest.mark.parametrize("name", EVERY)
def test_both_sides_have_one_enlargement_at_every_step_at_which_all_is_on_the_rule(name: str) -> None:
    scales = set()
    for side, picture in pictures(name):
        left, _, width, _ = picture.close.view
        scales.add((picture.drawing.factor, round(width, 6)))
        assert side.readings is not None
        rule, now = picture.drawing.rule, 1e3 * side.readings.end_play
        assert rule.tightest <= now <= rule.loosest
        pointer = placed(picture.close, "pointer", picture.state)[0, 0]
        assert pointer == pytest.approx(
            rule.zero + picture.drawing.out * picture.drawing.factor * now, abs=0.02
        )
        for group in picture.close.groups:
            for part in group.parts:
                if part.name in ("bar", "left-over", "assumed", "plate"):
                    x = outlines(part.d)[0][:, 0]
                    assert left <= x.min()
                    assert x.max() <= left + width
    assert len(scales) == 1


def test_a_story_with_a_setting_far_too_tight_is_drawn_smaller_and_the_others_are_not() -> None:
    factors = {name: next(pictures(name))[1].drawing.factor for name in EVERY}
    assert min(factors, key=lambda name: factors[name]) == "held-or-unheld-cone"
    assert factors["snug-or-worn-thread"] > factors["held-or-unheld-cone"]


@pytest.mark.parametrize("name", EVERY)
def test_no_word_lies_on_another_or_is_cut_off(name: str) -> None:
    for _, picture in pictures(name):
        words = words_of(picture)
        for one, other in combinations(words, 2):
            clear = one[2] <= other[1] or other[2] <= one[1] or one[4] <= other[3] or other[4] <= one[3]
            assert clear, (one, other)
        left, top, width, height = picture.close.view
        for text, start, end, high, foot in words:
            assert left <= start, text
            assert end <= left + width, text
            assert top <= high, text
            assert foot <= top + height, text


@pytest.mark.parametrize("name", EVERY)
def test_words_in_the_axle_stand_below_its_teeth(name: str) -> None:
    for _, picture in pictures(name):
        (axle,) = (part for group in picture.close.groups for part in group.parts if part.name == "axle")
        heights = np.unique(outlines(axle.d)[0][:, 1])
        line = PAINTS["axle"]["width"] * picture.close.view[2] / WIDTH  # as thick as its outline
        teeth = heights[:-1].max()  # y down: the lowest is the foot of the axle, next the roots of its teeth
        said = [each for each in words_of(picture) if each[0] in ("axle", *PUSHES)]
        assert said
        for text, _, _, high, _ in said:
            assert high >= teeth - line, text


@pytest.mark.parametrize("name", EVERY)
def test_no_dashed_line_crosses_the_words_of_a_bar(name: str) -> None:
    for _, picture in pictures(name):
        words = [each for each in words_of(picture) if re.search(r"\d\.\d{3}$", each[0])]
        for line in ("plumb", "plumb-zero"):
            for x, y in dashes_of(picture, line):
                across = [
                    each
                    for each in words
                    if each[1] < x < each[2] and each[3] < y.max() and y.min() < each[4]
                ]
                assert across == [], (line, x)


def dashes_of(picture: HubPicture, name: str) -> Iterator[tuple[float, np.ndarray]]:
    """Yield where each upright stroke of a line stands and its two ends, y down [mm]."""
    for group in picture.close.groups:
        for part in group.parts:
            if part.name == name:
                for stroke in outlines(part.d):
                    yield stroke[0, 0] + shift_of(group, picture.state), stroke[:, 1]


@pytest.mark.parametrize("name", EVERY)
def test_nothing_of_the_whole_hub_that_holds_it_is_cut_off(name: str) -> None:
    for _, picture in pictures(name):
        left, top, width, height = picture.whole
        whole = picture.drawing.plates["whole"]
        groups = {group.name: group for group in whole.groups}
        if "lever" not in groups or picture.stage in ("contact", "backed_off"):
            continue
        lever, shift = groups["lever"], shift_of(groups["cam end left"], picture.state)
        turn = np.radians(turn_of(lever, picture.state))
        x, y = (outlines(lever.parts[0].d)[0] - lever.about).T
        across = lever.about[0] + x * np.cos(turn) - y * np.sin(turn) + shift
        down = lever.about[1] + x * np.sin(turn) + y * np.cos(turn)
        assert left <= across.min()
        assert across.max() <= left + width
        assert top <= down.min()
        assert down.max() <= top + height


def test_what_moves_comes_from_the_stage_before_and_rests_where_no_motion_is_wanted() -> None:
    tale = played("snug-or-worn-thread")
    view = view_of(tale, next(at for at in positions(tale.story) if at.step == 1 and at.revealed))
    for side in view.sides:
        prediction = getattr(tale, side.side)
        moving, still = (hub_picture(tale, view, side, moving=m) for m in (True, False))
        svg = moving.close_svg(dark=False)
        came = prediction.stages["backed_off"].end_play - prediction.stages["locked"].end_play
        first = re.findall(r'data-group="cone".*?--from:([-\d.]+)px', svg)[0]
        assert float(first) == pytest.approx(-came * 1e3 * moving.drawing.factor, abs=1e-3)
        assert "prefers-reduced-motion" in svg
        assert "--from" not in still.close_svg(dark=False)


@pytest.mark.parametrize("name", EVERY)
def test_where_the_race_should_stand_is_kept_back_until_the_clamp_is_shown(name: str) -> None:
    for side, picture in pictures(name):
        shown = {group.name for group in picture.close.groups}
        assert ("should stand" in shown) == (side.stage in ("clamped", "ridden"))


def test_the_flank_that_carries_is_told_and_changes_as_the_nut_is_locked() -> None:
    told = [
        (side.stage, [text for text, *_ in words_of(picture) if "pushes" in text])
        for side, picture in pictures("snug-or-worn-thread")
    ]
    assert all(said == ([] if stage == "backed_off" else ["nut pushes in"]) for stage, said in told)


def test_where_else_the_cone_may_stand_is_drawn_on_the_rule_and_a_gauge_narrows_it() -> None:
    """What is drawn lies where four in five of the hubs drawn do, worked out here from the hubs."""
    widths = {}
    for side, picture in pictures("loose-or-right-under-the-rider"):
        if side.stage != "clamped":
            continue
        x = picture.drawing.out * (
            placed(picture.close, "assumed", picture.state)[:, 0] - picture.drawing.rule.zero
        )
        low, high = x.min() / picture.drawing.factor, x.max() / picture.drawing.factor
        told = played("loose-or-right-under-the-rider").told[side.side]
        plays = 1e3 * told.drawn.end_plays["clamped"]
        assert np.mean((low <= plays) & (plays <= high)) == pytest.approx(0.8, abs=0.08)
        widths[side.side] = high - low
    assert widths["right"] < widths["left"]


def test_nothing_is_drawn_where_a_cone_that_runs_in_would_stand_if_it_were_held() -> None:
    for side, picture in pictures("held-or-unheld-cone"):
        drawn = {part.name for group in picture.close.groups for part in group.parts}
        runs_in = side.caption == "Cone let go" and side.stage != "backed_off"
        assert ("assumed" in drawn) != runs_in
