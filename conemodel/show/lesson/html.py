"""One side of a story as it stands on the wall: the hub in section, what is felt, and the waterfall, as HTML.

Text is real text, so that it can be read aloud, enlarged and measured; sizes are left to the page's style. All of it
is drawn from a `SideView`, which holds nothing that is still to be guessed, and from its scale.
"""

import re
from base64 import b64encode

from conemodel.base.plain_text import for_html
from conemodel.base.units import MM
from conemodel.show.formatting import STAGE_WORDS
from conemodel.show.instrument.drawing_of import factor_of
from conemodel.show.instrument.pictures import stage_svg
from conemodel.show.lesson.rows import reach, rows_told
from conemodel.show.lesson.wording import known_words, reading_words
from conemodel.show.palette import tones
from conemodel.show.waterfall.screen import LIST_STYLE, Scale, bar_style, waterfall_list
from conemodel.solve.stages.terms import STAGES
from conemodel.tasks.lesson.lesson import Played, SideView, View
from conemodel.tasks.setting.predict import Prediction

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

LEGEND = ("sizes in mm", "≈ and dashes: only assumed", "shaded: good range, clamped")
"""What the waterfalls cannot say by themselves."""

STYLE = """
section.cm-side :is(p, ol, li, span) {font-size: inherit}
.cm-side h2 {font-size: 1.12em; font-weight: 700; line-height: 1.2; margin: 0; padding: 0}
.cm-now {display: flex; gap: 0.7em; align-items: center; margin: 0.2em 0 0.35em}
.cm-now img, .cm-now .cm-blank {flex: 0 0 auto; width: 12.2em; height: 5.1em; object-fit: contain}
.cm-blank {display: flex; align-items: center; justify-content: center; border: 2px dashed; font-size: 1em}
.cm-now p {margin: 0 0 0.15em; line-height: 1.18}
section.cm-side p.cm-reading {font-weight: 700; font-size: 1.08em}
"""
"""How a side is laid out; sizes in em of the wall's own text."""

MOVING = """
@keyframes cm-grow {from {clip-path: inset(0 100% 0 0)} to {clip-path: inset(0)}}
.cm-moving .cm-new .cm-bar {animation: cm-grow 0.9s ease-out}
@media (prefers-reduced-motion: reduce) {.cm-moving .cm-new .cm-bar {animation: none}}
"""
"""What is new grows where it has just been shown."""


def wall_style(*, dark: bool) -> str:
    """Return the style of the sides, in the colours of a dark or light ground."""
    return f"{STYLE}{LIST_STYLE}{MOVING}{bar_style(dark=dark)}.cm-blank {{border-color: {tones(dark=dark).rule}}}"


def side_html(played: Played, view: View, place: int, *, dark: bool = False, moving: bool = False) -> str:
    """Return the side that stands at `place`, 0 left or 1 right.

    `moving`: what this step adds grows, and the cone moves from where it stood; nothing moves where the system asks
    for no motion.
    """
    side = view.sides[place]
    prediction: Prediction = getattr(played, side.side)
    factor = common_factor(played, view)
    below = [known_words(side), f"movement\N{NO-BREAK SPACE}×{factor:g}" if factor else ""]
    said = _paragraph(reading_words(view, side), "cm-reading")
    said += _paragraph("; ".join(filter(None, below)), "cm-known")
    return (
        f'<section class="cm-side{" cm-moving" if moving else ""}" aria-label="{for_html(side.caption)}">'
        f"<h2>{for_html(side.caption)}</h2>"
        f'<div class="cm-now">{_picture(prediction, side, factor, dark=dark, moving=moving)}<div>{said}</div></div>'
        f"{_waterfall(view, side)}</section>"
    )


def _paragraph(words: str, kind: str) -> str:
    kept = UNIT.sub("\\1\N{NO-BREAK SPACE}", words)
    return f'<p class="{kind}">{for_html(kept)}</p>' if words else ""


def common_factor(played: Played, view: View) -> int:
    """Return by how much both sides' movements are drawn larger, the same on both and all along; 0 with no picture."""
    if not any(side.stage for side in view.sides):
        return 0
    return min(factor_of(getattr(played, side.side).scenario) for side in view.sides)


def _picture(prediction: Prediction, side: SideView, factor: int, *, dark: bool, moving: bool) -> str:
    """Return the picture of the hub as it stands, or an empty place before its first stage."""
    if side.stage is None:
        return '<div class="cm-blank">not shown yet</div>'
    earlier = STAGES[max(STAGES.index(side.stage) - 1, 0)]
    svg = stage_svg(
        prediction,
        stage=side.stage,
        factor=factor,
        dark=dark,
        compact=True,
        good=side.good is not None,
        labels=False,
        before=earlier if moving else None,
    )
    alt = f"{side.caption}: the hub in section, {STAGE_WORDS[side.stage].lower()}"
    return f'<img alt="{for_html(alt)}" src="data:image/svg+xml;base64,{b64encode(svg.encode()).decode()}">'


def _waterfall(view: View, side: SideView) -> str:
    """Return the waterfall so far, one row for each bar; both sides have the same scale."""
    scale = Scale(*(MM.to_si(end) for end in reach(view)))
    return waterfall_list(rows_told(side), scale=scale, good=side.good, words=WALL_WORDS, new=side.new)


def legend(view: View) -> str:
    """Return what sizes and signs mean, for both sides; nothing before there is a bar."""
    rows = [row for side in view.sides for row in rows_told(side)]
    needed = (bool(rows), any(row.assumed for row in rows), any(side.good for side in view.sides))
    return " · ".join(words for words, shown in zip(LEGEND, needed, strict=True) if shown)
