"""Where the play went, as HTML: the terms of end play one below the other, each with its bar.

On a page it is a table with numbers in two units, on the wall a list in few words. Text is real text, so that it can be
read aloud, enlarged and copied; bars are laid out by style alone, which a browser draws anew within a few milliseconds.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from conemodel.base.plain_text import for_html
from conemodel.show.formatting import LOOSER, TIGHTER, cone_place, play_range_words
from conemodel.show.palette import tones
from conemodel.show.waterfall.rows import COLOURS, Row, rows_of_prediction
from conemodel.tasks.setting.good_range import Window
from conemodel.tasks.setting.predict import Prediction

HEADING = "Where the play went"

STYLE = """
.cm-falls {container-type: inline-size}
.cm-falls h2 {font-size: var(--cm-value); font-weight: 600; padding: 0 0 0.3rem; margin: 0}
.cm-falls table {border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums}
.cm-falls :is(td, th) {border: none; padding: 0.2rem 0.5rem 0.2rem 0; font-weight: 400; line-height: 1.25}
.cm-falls th {text-align: left} .cm-falls td, .cm-falls thead th.cm-number {text-align: right; white-space: nowrap}
.cm-falls thead th {font-size: var(--cm-label); font-weight: 600}
.cm-falls .cm-level :is(td, th) {font-weight: 700} .cm-falls .cm-range td {white-space: normal}
.cm-falls :is(td, th).cm-track {width: 46%; padding: 0; white-space: nowrap}
.cm-falls th.cm-track b {font-weight: 600} .cm-falls th.cm-track b:first-of-type {transform: translateX(-100%)}
.cm-falls th.cm-track b {top: 0; padding: 0.2rem 0.4rem}
.cm-falls td .cm-bar {top: calc(50% - 0.45rem); bottom: auto; height: 0.9rem}
.cm-falls td .cm-run {top: calc(50% + 0.45rem); height: calc(100% - 0.9rem)}
.cm-falls p {font-size: var(--cm-label); margin: 0.3rem 0 0}
@container (max-width: 34rem) {
  .cm-falls tr {display: grid; grid-template-columns: 6.8em 4.4em 1fr; padding-bottom: 0.3rem}
  .cm-falls td {white-space: normal}
  .cm-falls :is(td, th).cm-track {grid-column: 1 / -1; width: auto; height: 1.1rem}
  .cm-falls .cm-run {display: none}
}
"""
"""How the table is laid out: one line a row; where there is little room, the bar below its words."""

LIST_STYLE = """
.cm-fall {list-style: none; margin: 0; padding: 0; font-variant-numeric: tabular-nums}
.cm-fall li {display: grid; grid-template-columns: 3.3em 9.4em 1fr; margin: 0; padding: 0}
.cm-fall li {line-height: 1.16}
.cm-fall .cm-size {text-align: right; padding-right: 0.5em}
.cm-fall .cm-new {font-weight: 700}
"""
"""How the list is laid out; sizes in em of the wall's own text."""

BARS = """
.cm-track {position: relative}
.cm-track > * {position: absolute}
.cm-track .cm-good {top: 0; bottom: 0; border: dashed; border-width: 0 2px}
.cm-track .cm-nought {top: 0; bottom: 0; width: 2px; margin-left: -1px}
.cm-track .cm-bar {top: 18%; bottom: 14%; min-width: 3px; box-sizing: border-box}
.cm-track .cm-run {top: 86%; height: 32%; border-left: 2px dotted; margin-left: -1px}
"""
"""How a bar stands in its track, in the table and in the list."""


@dataclass(frozen=True, slots=True)
class Scale:
    """The track of a bar: `low` and `high` are the end plays [m] at its left and right end."""

    low: float
    high: float

    def at(self, end_play: float) -> str:
        """Return where an end play [m] stands, as a style."""
        return f"left:{self._share(end_play):.2f}%"

    def across(self, start: float, end: float) -> str:
        """Return where a bar between two end plays [m] stands, as a style."""
        left, right = sorted((self._share(start), self._share(end)))
        return f"left:{left:.2f}%;width:{right - left:.2f}%"

    def _share(self, end_play: float) -> float:
        return (end_play - self.low) / (self.high - self.low) * 100


def bar_style(*, dark: bool) -> str:
    """Return the style of bars, in the colours of a dark or light ground; hatching says the same as colour."""
    look = tones(dark=dark)
    hatch = f"repeating-linear-gradient({{}}deg, {look.paper}88 0 2px, transparent 2px 8px)"
    hatches = {"opens": hatch.format(45), "closes": hatch.format(-45), "level": "none"}
    colours = {kind: getattr(look, name) for kind, name in COLOURS.items()}
    rules = [
        f".cm-bar.cm-{kind} {{background: {hatches[kind]}, {colour}; border: 2px solid {colour}}}"
        for kind, colour in colours.items()
    ]
    rules.append(".cm-track .cm-bar.cm-assumed {background-color: transparent; border-style: dashed}")
    rules.append(f".cm-good {{background: {look.good}33; border-color: {look.good}}}")
    rules.append(f".cm-nought {{background: {look.ink}}} .cm-run {{border-color: {look.rule}}}")
    return BARS + "\n".join(rules)


def where_the_play_went(prediction: Prediction) -> str:
    """Return the terms of end play from finger contact to the closed clamp.

    A bar starts where the last one ended: to the right play is added, to the left it is taken. Right of the
    nought line there is play, left of it squeeze. Dashed bars and a ≈ mark what is only assumed. The good range
    lies behind the clamped hub and has the last row.
    """
    lead = prediction.scenario.axle.lead_per_radian
    return waterfall_table(rows_of_prediction(prediction), window=prediction.window, lead=lead)


def waterfall_table(rows: Sequence[Row], *, window: Window, lead: float) -> str:
    """Return rows with the good range `window` as a table; `lead` of the cone's thread [m/rad]."""
    scale = _scale(window, rows)
    good = (window.tight_edge, window.loose_edge) if window.width > 0 else None
    lines = [_term_or_level(row, scale, good if row.stage == "clamped" else None) for row in rows]
    if good:
        ready = f'{_ground(scale, good)}<i class="cm-bar cm-good" style="{scale.across(*good)}"></i>'
        lines.append(_line("level cm-range", _edges(good, lead), "good range, clamped", ready))
    foot = "<p>≈ and a dashed bar: only assumed.</p>" if any(row.assumed for row in rows) else ""
    return (
        f'<section class="cm-falls" aria-label="{HEADING}"><h2>{HEADING}</h2><table role="table">'
        f'{_head(scale)}<tbody role="rowgroup">{"".join(lines)}</tbody></table>{foot}</section>'
    )


def waterfall_list(
    rows: Sequence[Row],
    *,
    scale: Scale,
    good: tuple[float, float] | None,
    words: Mapping[str, str],
    new: Sequence[str],
) -> str:
    """Return rows as a list for a wall, empty where there are none.

    Args:
        rows: what is drawn.
        scale: of all bars, the same for all lists that are compared.
        good: the good range [m], behind every bar, or None.
        words: shorter than a row's own, by its key.
        new: stages that have just been shown; they stand out.
    """
    lines = [
        f'<li class="{"cm-new" if row.stage in new else "cm-old"}">'
        + "".join(f"<span{look}>{for_html(said)}</span>" for look, said in _size_and_words(row, words))
        + f'<span class="cm-track">{_ground(scale, good)}{_bar(scale, row)}</span></li>'
        for row in rows
    ]
    return f'<ol class="cm-fall" aria-label="{HEADING}, mm">{"".join(lines)}</ol>' if lines else ""


def _size_and_words(row: Row, words: Mapping[str, str]) -> tuple[tuple[str, str], tuple[str, str]]:
    """Return the size of a row as a figure and what it is, each with its look; what a level is stands in the words."""
    figure, _, kind = row.size.rpartition(" ") if row.is_level else (row.size, "", "")
    name = words.get(row.key, row.words)
    return (' class="cm-size"', figure), ("", _marked(row, f"{kind} {name}".lstrip()))


def _bar(scale: Scale, row: Row) -> str:
    """Return the bar of a row."""
    assumed = " cm-assumed" if row.assumed else ""
    return f'<i class="cm-bar cm-{row.kind}{assumed}" style="{scale.across(row.start, row.end)}"></i>'


def _ground(scale: Scale, good: tuple[float, float] | None) -> str:
    """Return what lies behind a bar: the line where the balls just touch, and the good range [m] where there is one."""
    nought = f'<i class="cm-nought" style="{scale.at(0.0)}"></i>'
    return nought if good is None else f'<i class="cm-good" style="{scale.across(*good)}"></i>{nought}'


def _marked(row: Row, words: str) -> str:
    """Return the words of a row, with the sign of what is only assumed."""
    return f"{'≈ ' if row.assumed else ''}{words}"


def _scale(window: Window, rows: Sequence[Row]) -> Scale:
    """Return the scale of all bars, with room for the words on both sides of nought."""
    ends = [0.0, window.loose_edge, window.tight_edge]
    ends += [end for row in rows for end in (row.start, row.end)]
    low, high = min(ends), max(ends)
    room = 0.04 * (high - low)
    return Scale(min(low - room, -0.35 * high), max(high + room, -0.35 * low))


def _head(scale: Scale) -> str:
    return (
        '<thead role="rowgroup"><tr role="row">'
        '<th role="columnheader" class="cm-number">mm</th>'
        '<th role="columnheader" class="cm-number">as a turn</th>'
        '<th role="columnheader">what it is</th>'
        '<th role="columnheader" class="cm-track">'
        f'<b style="{scale.at(0.0)}">{TIGHTER}</b><b style="{scale.at(0.0)}">{LOOSER}</b></th></tr></thead>'
    )


def _term_or_level(row: Row, scale: Scale, good: tuple[float, float] | None) -> str:
    """Return the line of a row."""
    drawn = _ground(scale, good) + _bar(scale, row)
    if row.leads_on:
        drawn += f'<i class="cm-run" style="{scale.at(row.end)}"></i>'
    return _line(
        "level" if row.kind == "level" else "term", (row.size, row.turn), _marked(row, row.words), drawn
    )


def _edges(good: tuple[float, float], lead: float) -> tuple[str, str]:
    """Return from where to where the good range [m] reaches, in mm and as turns of the cone."""
    tight, loose = (cone_place(edge / lead) for edge in good)
    lines = play_range_words(*good), f"{tight} to {loose}"
    length, turn = (words.replace(" ", "\xa0").replace("\xa0to", " to") for words in lines)
    return length, turn


def _line(kind: str, sizes: tuple[str, str], words: str, drawn: str) -> str:
    """Return a line: its size in mm and as a turn of the cone, words, and what is drawn."""
    length, angle = sizes
    return (
        f'<tr role="row" class="cm-{kind}">'
        f'<td role="cell">{length}</td>'
        f'<td role="cell">{angle}</td>'
        f'<th role="rowheader" scope="row">{for_html(words)}</th>'
        f'<td role="cell" class="cm-track" aria-hidden="true">{drawn}</td></tr>'
    )
