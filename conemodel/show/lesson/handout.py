"""A story on one sheet of A4 for the class, readable in grey, with a box to carry it to one's own hub."""

import textwrap
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from conemodel.base.plain_text import for_picture
from conemodel.show.formatting import STAGE_WORDS
from conemodel.show.instrument.paints import GREYS
from conemodel.show.instrument.paper import name_on, paint_on
from conemodel.show.lesson.guess_frame import draw_frame
from conemodel.show.lesson.hub_picture import hub_picture
from conemodel.show.lesson.own_hub_box import A4, LEFT, WIDE, draw_own_hub_box
from conemodel.show.lesson.rows import reach, rows_told
from conemodel.show.lesson.wording import (
    SHORT_OPTIONS,
    bar_words,
    certainty_words,
    known_words,
    reading_words,
)
from conemodel.show.setting.text import CAUTION
from conemodel.show.waterfall.paper import draw_on_handout
from conemodel.tasks.headline import DO_NOT_RIDE
from conemodel.tasks.lesson.lesson import Played, View, view_of
from conemodel.tasks.lesson.position import positions

if TYPE_CHECKING:
    from matplotlib.figure import Figure

CHARACTERS = 98
"""Characters of small type in a line."""

TIGHTER = (1.0, 0.92, 0.85, 0.78, 0.72)
"""How closely a sheet is set, the first that it fits at: type of questions, bars and lines to write on, shares of the
usual."""

SMALLEST = 7.0
"""Type that is never set smaller [pt]."""

APART = 0.01
"""Least room above the box at the foot, as a share of the sheet's height."""

HALF_LINE = 54
"""Characters of small type in half a line."""

CHOICES_AT = (0.24, 0.37, 0.54, 0.63, 0.76)
"""Where the boxes of a question stand, from the left margin; the second is the widest."""

LEAST = 0.06
"""A picture of the bearing that would be lower is left out, as a share of the sheet's height."""

KEY = "Grey band: good range. Line: no play. White hatched opens, grey closes, black is the sum. ≈, dashed: assumed."
"""What is drawn beside the bars."""


def handout_figure(played: Played, *, answers: bool) -> "Figure":
    """Return a story on one sheet.

    With `answers` it holds the waterfalls, the right answers and what was said; without, room to guess instead, what
    was measured before the first question, and no number of what is still hidden then.
    """
    for tight in TIGHTER:
        figure, spare = _sheet(played, answers, tight)
        if spare >= APART:
            break
    return figure


def _sheet(played: Played, answers: bool, tight: float) -> "tuple[Figure, float]":
    """Return the sheet set so tight, and what room is left above the box at its foot, as a share of its height."""
    from matplotlib.figure import Figure

    views = [view_of(played, at) for at in positions(played.story)]
    asked = [
        (view_of(played, replace(at, revealed=False)), view)
        for at, view in zip(positions(played.story), views, strict=True)
        if view.revealed and view.options
    ]
    figure = Figure(figsize=A4, facecolor="white")
    top = _write(figure, 0.955, views[0].title, size=17, weight="bold", characters=60)
    top = _write(figure, top - 0.008, views[0].opening)
    box = draw_own_hub_box(figure, played.story.own_hub, tight)
    told = views[-1] if answers else views[0]
    given = views[-1] if answers or not asked else asked[0][0]
    top = _captions(figure, top - 0.015, told)
    trial = Figure(figsize=A4)
    room = _questions(
        trial, _pictures(trial, top, told, given, tight, answers=answers), asked, answers, tight
    )
    top = _hubs(figure, top, played, told, room=room - box - 2 * APART)
    foot = _questions(
        figure, _pictures(figure, top, told, given, tight, answers=answers), asked, answers, tight
    )
    figure.text(LEFT, 0.03, textwrap.fill(CAUTION, 120), fontsize=7.5, va="bottom")
    return figure, foot - box


def _write(
    figure: "Figure", top: float, words: str, *, size: float = 9.5, characters: int = CHARACTERS, **more: Any
) -> float:
    """Write a paragraph below `top` and return where the next may begin; shares of the sheet's height."""
    lines = textwrap.wrap(" ".join(words.split()), characters)
    figure.text(LEFT, top, for_picture("\n".join(lines)), fontsize=size, va="top", linespacing=1.3, **more)
    return top - len(lines) * size * 1.36 / 72 / A4[1]


def _captions(figure: "Figure", top: float, view: View) -> float:
    """Write what either side is called, and return where the next thing may begin."""
    for place, side in enumerate(view.sides):
        left = LEFT + place * (WIDE / 2 + 0.01)
        figure.text(left, top, for_picture(side.caption), fontsize=11, fontweight="bold", va="top")
    return top - 0.02


def _hubs(figure: "Figure", top: float, played: Played, view: View, *, room: float) -> float:
    """Paint the bearing of both sides as it stands, at finger contact before the first step, where there is room."""
    width = WIDE / 2 - 0.01
    sides = [side if side.stage else replace(side, stage="contact") for side in view.sides]
    pictures = [hub_picture(played, view, side) for side in sides]
    _, _, wide, high = pictures[0].bare.view
    height = min(width * A4[0] * high / wide / A4[1], room)
    if height < LEAST:
        return top
    for place, picture in enumerate(pictures):
        axes = figure.add_axes((LEFT + place * (WIDE / 2 + 0.01), top - height, width, height))
        paint_on(axes, picture.bare, picture.state, stage=picture.stage, colours=GREYS)
        name_on(axes, picture.bare, picture.state, stage=picture.stage, size=7.5, colours=GREYS)
        words = f"{STAGE_WORDS[picture.stage]}. Movement is drawn {picture.drawing.factor} times larger than the parts."
        figure.text(LEFT + place * (WIDE / 2 + 0.01), top - height - 0.004, words, fontsize=7.5, va="top")
    return top - height - 0.026


def _questions(
    figure: "Figure", top: float, asked: list[tuple[View, View]], answers: bool, tight: float
) -> float:
    """Write every question, as seen before and after its answer, and return where the next thing may begin."""
    for number, (before, view) in enumerate(asked, start=1):
        top = _question(figure, top - 0.012 * tight, number, view, tight, answers=answers)
        if not answers:
            top = _to_note(figure, top, asked[0][0], before)
    return top


def _to_note(figure: "Figure", top: float, first: View, now: View) -> float:
    """Leave room to write what the wall tells of a side before this question and not before the first one."""
    noted = [
        side.caption
        for side, earlier in zip(now.sides, first.sides, strict=True)
        if known_words(side) != known_words(earlier)
    ]
    for caption in noted:
        words = f"Measured by then, from the wall, {caption}: {60 * '.'}"
        top = _write(figure, top - 0.002, words, size=SMALLEST + 1)
    return top


def _pictures(figure: "Figure", top: float, view: View, given: View, tight: float, *, answers: bool) -> float:
    """Draw both sides, or frames to draw a guess in, with what is known of either; return where the next may begin."""
    rows = max([len(rows_told(side)) for side in view.sides] + [6])
    height = rows * 0.0255 * tight + 0.01
    for place, (side, known) in enumerate(zip(view.sides, given.sides, strict=True)):
        left = LEFT + place * (WIDE / 2 + 0.01)
        axes = figure.add_axes((left, top - 0.005 - height, WIDE / 2 - 0.01, height))
        if answers:
            told = rows_told(side)
            draw_on_handout(axes, told, [bar_words(row) for row in told], good=side.good)
            axes.set_ylim(rows, 0)
            axes.set_xlim(*reach(view))
        else:
            draw_frame(axes)
        said = textwrap.fill(known_words(known), HALF_LINE)
        said = f"{reading_words(view, side)}\n{said}" if answers else said
        figure.text(left, top - 0.01 - height, for_picture(said), fontsize=8.5, va="top")
    foot = top - 0.042 - height
    return _write(figure, foot, KEY, size=SMALLEST, characters=130) if answers else foot


def _question(figure: "Figure", top: float, number: int, view: View, tight: float, *, answers: bool) -> float:
    """Write one question with its boxes for each side, and return where the next may begin."""
    heading, line = f"{number}. {view.question}", 0.018 * tight
    small = max(8 * tight, SMALLEST)
    top = _write(figure, top, heading, size=10.5 * tight, characters=int(84 / tight), weight="bold") - 0.004
    for side in view.sides:
        if side.answer is None:
            continue
        right_one = side.answer.words
        figure.text(
            LEFT + 0.02, top, for_picture(side.caption), fontsize=max(9.5 * tight, SMALLEST), va="top"
        )
        choices = (*view.options, right_one) if answers and right_one not in view.options else view.options
        for column, option in enumerate(choices):
            right = answers and option == right_one
            x = LEFT + CHOICES_AT[column]
            figure.text(x, top, "☒" if right else "☐", fontsize=11 * tight, va="top", family="DejaVu Sans")
            figure.text(
                x + 0.022,
                top,
                for_picture(SHORT_OPTIONS.get(option, option)),
                fontsize=small,
                va="top",
                fontweight="bold" if right else "normal",
            )
        top -= line
        if answers and certainty_words(side):
            words = f"{DO_NOT_RIDE}: {certainty_words(side)}" if side.unsafe else certainty_words(side)
            weight = "bold" if side.unsafe else "normal"
            figure.text(
                LEFT + CHOICES_AT[0], top, for_picture(words), fontsize=small, va="top", fontweight=weight
            )
            top -= line
    if answers and view.reveal:
        size = max(9.5 * tight, SMALLEST)
        top = _write(figure, top - 0.001, view.reveal, size=size, characters=int(CHARACTERS * 9.5 / size))
    return top
