"""Axle, stacks, bearing and clamp of a hub, painted on a sheet part by part."""

from collections.abc import Sequence
from itertools import product

import numpy as np

from conemodel.base.units import MM
from conemodel.show.section.labels import write_names
from conemodel.show.section.outline import (
    Half,
    cone_outline,
    cup_outline,
    dust_cap_outline,
    half_of,
    shell_outline,
)
from conemodel.show.section.view import (
    BEYOND,
    CAP,
    LOOSE,
    SAME,
    Halves,
    Told,
    View,
    clamp_face,
    outer_face,
    sign_of,
)
from conemodel.show.svg import LINE, Point, Sheet, wrap_text


def draw_section(view: View, told: Sequence[Told], *, names_only: bool = False, close: bool = False) -> Sheet:
    """Return the sheet with the hub, the names of its parts, and what is told below it.

    `close`: only the bearing that is adjusted, below the axle, large and without words.
    """
    halves: Halves = {"left": half_of(view.scenario, "left"), "right": half_of(view.scenario, "right")}
    sheet, lines = _sheet(view, halves, told)
    _shell(sheet, view, halves)
    for side in view.sides:
        if view.clamped:
            _dropout(sheet, view, halves[side], sign_of(side))
    _axle(sheet, view, halves)
    for side in view.sides:
        half, adjusted = halves[side], side == view.adjustable
        _stack(sheet, view, half, sign_of(side), adjusted)
        _bearing(sheet, view, half, sign_of(side), adjusted)
        if view.clamped:
            _clamp(sheet, view, half, sign_of(side))
    if close:
        sheet.window = _close_up(sheet, halves[view.adjustable], sign_of(view.adjustable))
    else:
        write_names(sheet, view, halves, names_only=names_only)
        sheet.lines(lines)
    return sheet


def _sheet(view: View, halves: Halves, told: Sequence[Told]) -> tuple[Sheet, list[Told]]:
    """Return the empty sheet, whole hub or adjustable side, and the lines that fit below."""
    width, size, margin = (390.0, 12.5, 6.0) if view.compact else (1000.0, 19.0, 12.0)
    reach = {side: outer_face(half) + CAP + 2 for side, half in halves.items()}
    if view.compact:
        scale = (width - 2 * margin) / (reach[view.adjustable] + BEYOND)
        middle = margin + scale * (reach["left"] if view.adjustable == "left" else BEYOND)
    else:
        scale = (width - 2 * margin) / (reach["left"] + reach["right"])
        middle = margin + scale * reach["left"]
    lines = [
        (line, bold, colour)
        for words, bold, colour in told
        for line in wrap_text(words, width=width - size, size=size)
    ]
    tall = max(half.flange for half in halves.values()) * scale
    head, foot = 4.9 * size, (3.0 + LINE * len(lines)) * size
    sheet = Sheet(
        scale=scale,
        centre=(middle, head + tall),
        width=width,
        height=head + 2 * tall + foot,
        text_size=size,
        tones=view.tones,
    )
    return sheet, lines


def _close_up(sheet: Sheet, half: Half, sign: int) -> tuple[float, float, float, float]:
    """Return what to see of a sheet to see one bearing well: left, top, width and height."""
    inner, outer = half.plane - 1.5 * half.ball, half.nut[1] + half.dropout + 1.5
    (one, top), (other, foot) = sheet.at((sign * inner, 2.0)), sheet.at((sign * outer, -half.cup_outer - 3.0))
    return min(one, other), top, abs(one - other), foot - top


def _ring(
    sheet: Sheet, sign: int, outline: list[Point], *, fill: str, name: str, stroke: str = "", dash: str = ""
) -> None:
    """Paint what is turned on the lathe: an outline above the axis and its mirror image below."""
    for up in (1, -1):
        sheet.shape(((sign * u, up * v) for u, v in outline), fill=fill, name=name, stroke=stroke, dash=dash)


def _block(low: Point, high: Point) -> list[Point]:
    return [low, (high[0], low[1]), high, (low[0], high[1])]


def _axle(sheet: Sheet, view: View, halves: Halves) -> None:
    """Paint the axle with its bore, its threads and the rod through it."""
    ink, left, right = view.tones.ink, halves["left"], halves["right"]
    start, end = -left.axle_end, right.axle_end
    if view.compact:
        start, end = (start, BEYOND) if view.adjustable == "left" else (-BEYOND, end)
    sheet.box((start, -left.thread), (end, left.thread), fill=view.tones.dark_steel, name="axle")
    axle = view.scenario.axle
    pitch, plain = MM.from_si(axle.thread_pitch), MM.from_si(axle.plain_length) / 2
    depth = 0.61 * pitch
    flanks: list[tuple[Point, Point]] = []
    turns = (at for at in np.arange(start + pitch, end - pitch / 2, pitch).tolist() if abs(at) > plain)
    for at, edge in product(turns, (left.thread, -left.thread)):
        inner = edge - depth if edge > 0 else edge + depth
        flanks.append(((at, edge), (at + pitch / 2, inner)))
    sheet.strokes(flanks, colour=ink, width=0.7, name="thread")
    if left.bore > 0:
        sheet.box((start, -left.bore), (end, left.bore), fill=view.tones.paper, name="bore")
        if view.clamped:
            rod = MM.from_si(view.scenario.clamp.rod_diameter) / 2
            reach = {side: outer_face(half) + 2 for side, half in halves.items()}
            ends = (-reach["left"] if start < -BEYOND else start), (reach["right"] if end > BEYOND else end)
            sheet.box((ends[0], -rod), (ends[1], rod), fill=view.tones.frame, name="rod")


def _stack(sheet: Sheet, view: View, half: Half, sign: int, adjusted: bool) -> None:
    """Paint cone, washer and locknut of one side; the adjustable cone stands where it was left."""
    steel, dark = view.tones.steel, view.tones.dark_steel
    moved = view.moved if adjusted else 0.0
    loose = LOOSE if adjusted and view.nut_loose else 0.0
    name = "cone adjustable" if adjusted else "cone fixed"
    _ring(sheet, sign, cone_outline(half, moved), fill=steel, name=name)
    _ring(
        sheet,
        sign,
        _block((half.cone[2], half.thread), (half.nut[0], half.washer)),
        fill=dark,
        name="washer",
    )
    nut = _block((half.nut[0] + loose, half.thread), (half.nut[1] + loose, half.face))
    _ring(sheet, sign, nut, fill=steel, name="locknut")


def _bearing(sheet: Sheet, view: View, half: Half, sign: int, adjusted: bool) -> None:
    """Paint cup, dust cap and balls, and what there is between ball and cone."""
    _ring(sheet, sign, dust_cap_outline(half), fill=view.tones.steel, name="dust-cap")
    _ring(sheet, sign, cup_outline(half), fill=view.tones.dark_steel, name="cup")
    for up in (1, -1):
        sheet.disc((sign * half.plane, up * half.pitch), half.ball, fill=view.tones.ball, name="ball")
    if adjusted and view.before is not None and abs(view.before - view.end_play) > SAME:
        before = cone_outline(half, MM.from_si(view.before) * view.exaggeration)
        _ring(sheet, sign, before, fill="none", name="before", stroke=view.tones.taken, dash="5 4")
    for up in (1, -1):
        if adjusted and view.end_play > 0:
            u, v = half.contact(cone=True)
            ends = [(sign * u, up * v), (sign * (u + view.moved), up * v)]
            sheet.line(ends, colour=view.tones.petrol, width=0.35 * sheet.scale + 1.5, name="gap")
        if view.end_play < 0 or (view.stage == "ridden" and up < 0):
            ends = [(sign * u, up * v) for u, v in (half.contact(cone=False), half.contact(cone=True))]
            sheet.line(ends, colour=view.tones.taken, width=0.5 * sheet.scale + 1.5, name="pressed")


def _shell(sheet: Sheet, view: View, halves: Halves) -> None:
    """Paint the shell: in one piece, or cut at the hub's middle where only one side is shown."""
    if view.compact:
        _ring(
            sheet,
            sign_of(view.adjustable),
            shell_outline(halves[view.adjustable]),
            fill=view.tones.shell,
            name="shell",
        )
        return
    left = [(-u, v) for u, v in shell_outline(halves["left"])]
    outline = [*shell_outline(halves["right"])[1:-1], *reversed(left[1:-1])]
    _ring(sheet, 1, outline, fill=view.tones.shell, name="shell")


def _dropout(sheet: Sheet, view: View, half: Half, sign: int) -> None:
    """Paint the dropout behind the axle; it is a plate, seen cut."""
    outline = _block((half.nut[1], half.thread + 0.2), (half.nut[1] + half.dropout, half.face + 5))
    _ring(sheet, sign, outline, fill=view.tones.frame, name="dropout")


def _clamp(sheet: Sheet, view: View, half: Half, sign: int) -> None:
    """Paint axle nut, or nut and lever of the clamp, where it presses."""
    nuts = not view.scenario.clamp.traits.through_axle
    face = clamp_face(view, half)
    outer = 1.65 * half.thread if nuts else max(half.face * 0.95, half.thread + 1.5)
    fill = view.tones.frame
    if nuts:
        _ring(sheet, sign, _block((face, half.thread), (face + CAP, outer)), fill=fill, name="clamp")
        return
    sheet.box((sign * face, -outer), (sign * (face + CAP), outer), fill=fill, name="clamp")
    if half.protrusion >= half.dropout and view.scenario.clamp.traits.held_by_ends:
        # the gap between dropout and clamp shows why the wheel is not held
        low, high = half.nut[1] + half.dropout, face + 0.25
        for up in (1, -1):
            gap = [(sign * low, up * (half.thread + 1.2)), (sign * high, up * (half.thread + 1.2))]
            sheet.line(gap, colour=view.tones.forbidden, width=2.0 * sheet.scale, name="not-held")
