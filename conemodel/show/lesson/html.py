"""One side of a story as it stands on the wall: the hub under its name, and what has been found of it, as HTML.

What was found is real text, so that it can be read aloud, enlarged and measured; sizes are left to the page's style.
All of it is drawn from a `SideView`, which holds nothing that is still to be guessed.
"""

import re
from base64 import b64encode

from conemodel.base.plain_text import for_html
from conemodel.base.units import MM
from conemodel.show.formatting import STAGE_WORDS
from conemodel.show.lesson.common_scale import common_factor
from conemodel.show.lesson.hub_picture import WHOLE, hub_picture
from conemodel.show.lesson.rows import reach, rows_told
from conemodel.show.lesson.wording import own_words, reading_parts, reading_words, shared_words
from conemodel.show.palette import tones
from conemodel.show.waterfall.screen import LIST_STYLE, Scale, bar_style, waterfall_list
from conemodel.tasks.lesson.lesson import Played, SideView, View

WALL_WORDS = {
    "finger": "by finger",
    "thread_slack": "thread slack",
    "cone_thread": "thread gives",
    "drift": "cone dragged in",
    "cone_backed_out": "cone backed out",
    "axle_shortening": "axle shortens",
    "cone_thread_clamp": "cones pushed in",
}
"""Terms in as few words as can be, by key; the others are short already."""

UNIT = re.compile(r"(\d) (?=k?N\b|mm\b)")
"""What must not be parted from its number at the end of a line."""

STYLE = """
section.cm-side :is(p, ol, li, span) {font-size: inherit}
.cm-name {display: flex; flex-wrap: wrap; justify-content: space-between; align-items: baseline; column-gap: 0.6em}
.cm-name h2 {font-size: 1.12em; font-weight: 700; line-height: 1.1; margin: 0; padding: 0}
.cm-hub, .cm-drawn {position: relative}
.cm-hub img {display: block}
.cm-hub img.cm-close {width: 100%}
.cm-hub img.cm-whole {position: absolute; bottom: 0; left: 0}
section.cm-side .cm-reading {position: absolute; top: 0; left: 0; width: 58%; margin: 0; line-height: 1.15}
.cm-reading b {display: block; font-size: 1.9em; line-height: 1.05}
section.cm-ridden .cm-reading {width: 45%}
.cm-rightwards .cm-hub img.cm-whole, section.cm-rightwards .cm-reading {left: auto; right: 0}
.cm-rightwards .cm-reading {text-align: right}
.cm-blank {display: flex; align-items: center; justify-content: center; border: 2px dashed; height: 10em}
"""
"""How a side is laid out; sizes in em of the wall's own text."""

UPRIGHT_WINDOW = "(min-width: 641px) and (orientation: portrait)"
"""A tablet held upright, or a screen that is turned."""

NARROW = """
section.cm-side .cm-hub {display: flex; flex-direction: column-reverse}
section.cm-side .cm-reading {position: static; width: auto; text-align: left}
"""
"""What was found stands above a picture on which its words would lie on the parts."""

UPRIGHT = """
section.cm-side {display: grid; column-gap: 0.7em;
  grid-template: "drawn name" auto "drawn found" 1fr / auto minmax(0, 1fr)}
section.cm-side .cm-name {grid-area: name; display: block}
section.cm-side .cm-hub {display: contents}
.cm-drawn {grid-area: drawn; align-self: start; width: min(50vh, 66vw)}
section.cm-side .cm-reading {grid-area: found}
.cm-blank {grid-area: drawn; width: 50vh; max-width: 66vw}
"""
"""On an upright window the sides stand below each other, each with its words beside it."""


def wall_style(*, dark: bool) -> str:
    """Return the style of the sides, in the colours of a dark or light ground."""
    return (
        f"{STYLE}{LIST_STYLE}{bar_style(dark=dark)}.cm-hub img.cm-whole {{width: {WHOLE:.0%}}}"
        f".cm-blank {{border-color: {tones(dark=dark).rule}}}"
        f"@media (max-width: 1240px) {{{NARROW}}}"
        f"@media {UPRIGHT_WINDOW} {{{UPRIGHT}}}"
    )


def side_html(played: Played, view: View, place: int, *, dark: bool = False, moving: bool = False) -> str:
    """Return the side that stands at `place`, 0 left or 1 right.

    `moving`: the cone moves from where it stood; nothing moves where the system asks for no motion.
    """
    side = view.sides[place]
    kinds = ["cm-side"]
    if side.stage == "ridden":
        kinds.append("cm-ridden")
    if getattr(played, side.side).scenario.hub.adjustable_side == "right":
        kinds.append("cm-rightwards")
    known = own_words(view, side)
    said = f"<span>{_kept(known)}</span>" if known else ""
    return (
        f'<section class="{" ".join(kinds)}" aria-label="{for_html(side.caption)}">'
        f'<div class="cm-name"><h2>{for_html(side.caption)}</h2>{said}</div>'
        f"{_hub(played, view, side, dark=dark, moving=moving)}</section>"
    )


def _kept(words: str) -> str:
    return for_html(UNIT.sub("\\1\N{NO-BREAK SPACE}", words))


def _hub(played: Played, view: View, side: SideView, *, dark: bool, moving: bool) -> str:
    """Return the hub as it stands with what it has come to, or an empty place before its first stage."""
    if side.stage is None:
        return '<div class="cm-blank">not shown yet</div>'
    picture = hub_picture(played, view, side, moving=moving)
    alt = f"{side.caption}: the bearing in section with its play on a rule, {STAGE_WORDS[side.stage].lower()}"
    figure, words = reading_parts(view, side)
    found = f'<p class="cm-reading"><b>{_kept(figure)}</b> {_kept(words)}</p>'
    if reading_words(view, side) in shared_words(view):
        found = ""
    return (
        f'<div class="cm-hub"><div class="cm-drawn">{_image(picture.close_svg(dark=dark), "cm-close", alt)}'
        f"{_image(picture.whole_svg(dark=dark), 'cm-whole', 'the whole hub')}</div>{found}</div>"
    )


def _image(svg: str, kind: str, alt: str) -> str:
    data = b64encode(svg.encode()).decode()
    return f'<img class="{kind}" alt="{for_html(alt)}" src="data:image/svg+xml;base64,{data}">'


def terms_html(view: View) -> str:
    """Return every term of both sides so far, one row for each; both sides have the same scale."""
    scale = Scale(*(MM.to_si(end) for end in reach(view)))
    return "".join(
        f"<p><b>{for_html(side.caption)}</b></p>"
        + waterfall_list(rows_told(side), scale=scale, good=side.good, words=WALL_WORDS, new=side.new)
        for side in view.sides
        if side.terms
    )


def legend(played: Played, view: View) -> str:
    """Return what sizes and signs mean, for both sides; nothing before there is a bar."""
    rows = [row for side in view.sides for row in rows_told(side)]
    said = (
        (f"mm, movement ×{common_factor(played)}", bool(rows)),
        ("hatched: taken", bool(rows)),
        ("dashed: could be here", bool(rows)),
        ("≈ partly assumed", any(row.assumed for row in rows)),
        ("green: good range", any(side.good for side in view.sides)),
    )
    return " · ".join(words for words, needed in said if needed)
