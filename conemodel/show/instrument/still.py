"""A plate of a drawing at one state, as SVG: what a browser moves, painted standing still."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import cos, radians
from typing import Any

from conemodel.base.plain_text import for_html
from conemodel.show.instrument.drawing import Box, Drawing, Group, Label, Plate
from conemodel.show.instrument.paints import COLOURS, PAINTS

State = Mapping[str, float]
"""Every variable that is not zero, by name."""
TEXT = 13.0
"""Size of the names [px]."""
FONT = "Liberation Sans, DejaVu Sans, sans-serif"
MOVES = (
    "<style>@keyframes m{from{transform:translateX(var(--from))}}.moves{animation:m .9s ease-out}"
    "@media (prefers-reduced-motion: reduce){.moves{animation:none}}</style>"
)
"""How what has moved comes from where it stood; it does not where the system asks for no motion."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """How a plate is painted: colours by name, px of a paint for 1 mm, what its ids begin with, a state before.

    `letters`: size of names [px].
    """

    colours: Mapping[str, str]
    per_mm: float
    prefix: str
    before: State | None
    letters: float


def still_svg(
    drawing: Drawing,
    state: State,
    *,
    stage: str,
    sheet: str = "close",
    dark: bool = False,
    view: Box | None = None,
    title: str = "",
    desc: str = "",
    labels: bool = True,
    width: float = 914.0,
    plate: Plate | None = None,
    before: State | None = None,
    letters: float = TEXT,
) -> str:
    """Return a plate of a drawing as it stands in a state, as SVG.

    Args:
        drawing: of the hub.
        state: its variables.
        stage: of the work, which decides what is seen.
        sheet: close, whole or dial.
        dark: for a dark ground.
        view: what is seen of it [mm], the plate's own if None.
        title: what it is of.
        desc: what it shows, in words.
        labels: names are written.
        width: of the picture [px].
        plate: in place of the drawing's own, say with other labels.
        before: a state from which everything moves to where it stands, once.
        letters: size of the names [px].
    """
    plate = plate or drawing.plates[sheet]
    box = view or plate.view
    told = f'data-factor="{drawing.factor}" data-side="{drawing.side}" data-stage="{stage}"'
    painted = plate_svg(
        plate,
        state,
        stage=stage,
        box=box,
        width=width,
        dark=dark,
        labels=labels,
        before=before,
        letters=letters,
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{" ".join(f"{v:.3f}" for v in box)}" width="{width:g}" '
        f'height="{width * box[3] / box[2]:.1f}" role="img" font-family="{FONT}" {told}>'
        f"<title>{for_html(title)}</title><desc>{for_html(desc)}</desc>{painted}</svg>"
    )


def plate_svg(
    plate: Plate,
    state: State,
    *,
    stage: str,
    box: Box,
    width: float,
    dark: bool,
    labels: bool = False,
    before: State | None = None,
    name: str = "",
    letters: float = TEXT,
) -> str:
    """Return what stands inside the SVG of a plate, `box` of it [mm] `width` px wide; `name` begins its ids."""
    prefix = f"{name}{stage}-{width:.0f}-"
    colours = COLOURS["dark" if dark else "light"]
    look = Look(colours=colours, per_mm=width / box[2], prefix=prefix, before=before, letters=letters)
    return (
        f"{MOVES if before else ''}<defs>{''.join(_patterns(look))}</defs>"
        f'<rect x="{box[0]:.3f}" y="{box[1]:.3f}" width="{box[2]:.3f}" height="{box[3]:.3f}" '
        f'fill="{look.colours["paper"]}"/>'
        + _children(plate, None, state, stage, look)
        + "".join(_label(*each, look) for each in labels_in(plate, state, stage) if labels)
    )


def shift_of(group: Group, state: State) -> float:
    """Return how far a group stands along x from where it is drawn, its parents left out [mm]."""
    return sum(by * state.get(variable, 0.0) for variable, by in group.move.items())


def turn_of(group: Group, state: State) -> float:
    """Return how far a group is turned clockwise [°]."""
    return sum(by * state.get(variable, 0.0) for variable, by in group.turn.items())


def tall_of(group: Group, state: State) -> float:
    """Return how tall a group is seen that is turned about the axis, 1 upright to -1 upside down; 1 if it is not."""
    if not group.roll:
        return 1.0
    return cos(radians(group.rolled + sum(by * state.get(name, 0.0) for name, by in group.roll.items())))


def opacity_of(group: Group, state: State, stage: str) -> float:
    """Return how much of a group is seen, from 0 to 1, its parents left out."""
    if group.when is not None and stage not in group.when:
        return 0.0
    return 1.0 if group.fade is None else min(max(state.get(group.fade, 0.0), 0.0), 1.0)


def _children(plate: Plate, parent: str | None, state: State, stage: str, look: Look) -> str:
    return "".join(
        _group(plate, group, state, stage, look) for group in plate.groups if group.parent == parent
    )


def _group(plate: Plate, group: Group, state: State, stage: str, look: Look) -> str:
    seen = opacity_of(group, state, stage)
    if seen == 0.0:
        return ""
    told = "".join(_part(part.d, part.paint, part.name, part.title, look) for part in group.parts)
    inside = told + _children(plate, group.name, state, stage, look)
    if group.clip:
        name = look.prefix + group.name.replace(" ", "-")
        inside = f'<clipPath id="{name}"><path d="{group.clip}"/></clipPath><g clip-path="url(#{name})">{inside}</g>'
    moved, turned = shift_of(group, state), turn_of(group, state)
    how = f"translate({moved:.6f} 0)" if moved else ""
    if turned:
        how += f" rotate({turned:.4f} {group.about[0]:.3f} {group.about[1]:.3f})"
    if group.roll:
        how += f" scale(1 {tall_of(group, state):.5f})"
    place = f' transform="{how.strip()}"' if how else ""
    faint = f' opacity="{seen:.3f}"' if seen < 1 else ""
    if look.before is not None and (came := shift_of(group, look.before) - moved):
        inside = f'<g class="moves" style="--from:{came:.4f}px">{inside}</g>'
    return f'<g data-group="{group.name}"{place}{faint}>{inside}</g>'


def _part(d: str, key: str, name: str, title: str, look: Look) -> str:
    paint = PAINTS[key]
    words = f"<title>{for_html(title)}</title>" if title else ""
    fill = look.colours[paint["fill"]] if paint["fill"] else "none"
    drawn = _stroke(paint, look)
    faint = f' fill-opacity="{paint["opacity"]}"' if "opacity" in paint else ""
    first = f'<path class="{name}" d="{d}" fill="{fill}"{faint}{drawn}>{words}</path>'
    if "hatch" not in paint:
        return first
    return (
        f'<path d="{d}" fill="{fill}"/><path d="{d}" fill="url(#{look.prefix}{key})"/>'
        f'<path class="{name}" d="{d}" fill="none"{drawn}>{words}</path>'
    )


def _stroke(paint: Mapping[str, Any], look: Look) -> str:
    if not paint["stroke"]:
        return ""
    wide = paint["width"] / look.per_mm
    dash = paint.get("dash")
    dashed = ""
    if dash:
        dashed = f' stroke-dasharray="{" ".join(f"{float(n) / look.per_mm:.3f}" for n in dash.split())}"'
    return (
        f' stroke="{look.colours[paint["stroke"]]}" stroke-width="{wide:.3f}" stroke-linejoin="round"{dashed}'
    )


def _patterns(look: Look) -> Iterator[str]:
    for key, paint in PAINTS.items():
        if "hatch" not in paint:
            continue
        hatch = paint["hatch"]
        step, wide = hatch["step"] / look.per_mm, hatch["width"] / look.per_mm
        colour = look.colours[hatch["colour"]]
        line = f'<path d="M0 0V{step:.4f}" stroke="{colour}" stroke-width="{2 * wide:.4f}"/>'
        if hatch.get("crossed"):
            line += f'<path d="M0 0H{step:.4f}" stroke="{colour}" stroke-width="{2 * wide:.4f}"/>'
        yield (
            f'<pattern id="{look.prefix}{key}" width="{step:.4f}" height="{step:.4f}" '
            f'patternUnits="userSpaceOnUse" patternTransform="rotate({hatch["angle"]})">{line}</pattern>'
        )


def labels_in(plate: Plate, state: State, stage: str) -> Iterator[tuple[Label, float]]:
    """Yield the names that are seen in a state, each with how far it has moved along x with its part [mm]."""
    groups = {group.name: group for group in plate.groups}
    for label in plate.labels:
        moved, name, seen = 0.0, label.group, True
        while name is not None and seen:
            group = groups[name]
            seen = opacity_of(group, state, stage) >= 0.5
            moved += shift_of(group, state)
            name = group.parent
        if seen:
            yield label, moved


def _label(label: Label, moved: float, look: Look) -> str:
    x, y, size = label.at[0] + moved, label.at[1], look.letters / look.per_mm
    ink, ground = look.colours[label.ink], look.colours[label.on or "paper"]
    line = ""
    if label.leader is not None:
        start = y + 0.3 * size if label.leader[1] > y else y - 0.95 * size
        line = (
            f'<path d="M{x:.3f} {start:.3f}L{label.leader[0] + moved:.3f} {label.leader[1]:.3f}" '
            f'stroke="{ink}" stroke-width="{0.8 / look.per_mm:.3f}"/>'
        )
    return (
        f'{line}<text x="{x:.3f}" y="{y:.3f}" font-size="{size:.3f}" text-anchor="{label.anchor}" fill="{ink}" '
        f'stroke="{ground}" stroke-width="{4 / look.per_mm:.3f}" stroke-linejoin="round" paint-order="stroke">'
        f"{for_html(label.text)}</text>"
    )
