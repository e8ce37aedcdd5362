"""A plate of a drawing at one state, painted by matplotlib for paper and picture files: the groups a browser moves."""

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from conemodel.base.plain_text import for_picture
from conemodel.show.instrument.drawing import Box, Group, Plate
from conemodel.show.instrument.paints import COLOURS, PAINTS
from conemodel.show.instrument.still import State, labels_in, opacity_of, shift_of, tall_of, turn_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.path import Path
    from matplotlib.transforms import Transform

LIGHT = COLOURS["light"]
"""Colours that are painted with unless others are asked for."""
PX = 0.75
"""Points of a pixel, in which `PAINTS` gives widths."""
DENSEST = 40.0
"""Hatch lines of one letter of a pattern, over its step [px]."""


def paint_on(
    axes: "Axes",
    plate: Plate,
    state: State,
    *,
    stage: str,
    box: Box | None = None,
    colours: Mapping[str, str] = LIGHT,
) -> None:
    """Paint a plate as it stands in a state on axes of matplotlib, `box` of it [mm], to scale, without its names."""
    left, top, width, height = box or plate.view
    axes.set_xlim(left, left + width)
    axes.set_ylim(top + height, top)
    axes.set_aspect("equal")
    axes.set_axis_off()
    from matplotlib.patches import Rectangle
    from matplotlib.transforms import Affine2D

    axes.add_patch(Rectangle((left, top), width, height, facecolor=colours["paper"], linewidth=0))
    for group in plate.groups:
        if group.parent is None:
            _paint(axes, plate, group, state, stage, Affine2D(), None, 1.0, colours)


def name_on(
    axes: "Axes", plate: Plate, state: State, *, stage: str, size: float, colours: Mapping[str, str] = LIGHT
) -> None:
    """Write the names of a plate's parts on axes that it is painted on, `size` [point] large."""
    from matplotlib.patheffects import withStroke

    for label, moved in labels_in(plate, state, stage):
        halo = withStroke(linewidth=2.5, foreground=colours[label.on or "paper"])
        (x, y), across = label.at, {"start": "left", "middle": "center", "end": "right"}[label.anchor]
        if label.leader is not None:
            ends = (x + moved, label.leader[0] + moved), (y, label.leader[1])
            axes.plot(*ends, color=colours["muted"], linewidth=0.6, zorder=3)
        axes.text(
            x + moved,
            y,
            for_picture(label.text),
            fontsize=size,
            ha=across,
            color=colours[label.ink],
            path_effects=[halo],
            clip_on=True,
        )


def _paint(
    axes: "Axes",
    plate: Plate,
    group: Group,
    state: State,
    stage: str,
    over: "Transform",
    clip: "tuple[Path, Transform] | None",
    seen: float,
    colours: Mapping[str, str],
) -> None:
    """Paint a group and what hangs on it, moved as its parents are and clipped as the nearest of them that clips."""
    from matplotlib.transforms import Affine2D

    seen = seen * opacity_of(group, state, stage)
    if seen == 0.0:
        return
    turned = Affine2D().scale(1, tall_of(group, state)).rotate_deg_around(*group.about, turn_of(group, state))
    own = turned.translate(shift_of(group, state), 0)
    place = own + over
    if group.clip:
        clip = (path_of(group.clip), place)
    for part in group.parts:
        for patch in _patches(part.d, PAINTS[part.paint], colours, seen):
            patch.set_transform(place + axes.transData)
            axes.add_patch(patch)
            # a patch that is added is clipped to its axes
            if clip:
                patch.set_clip_path(clip[0], clip[1] + axes.transData)
    for child in plate.groups:
        if child.parent == group.name:
            _paint(axes, plate, child, state, stage, place, clip, seen, colours)


def path_of(d: str) -> "Path":
    """Return a path of straight lines as matplotlib has it."""
    from matplotlib.path import Path

    points: list[tuple[float, float]] = []
    codes: list[Any] = []
    for line, end in re.findall(r"M([^MZ]+)(Z?)", d):
        corners = [tuple(map(float, point.split())) for point in line.split("L")]
        points += [(x, y) for x, y in corners]
        codes += [Path.MOVETO, *[Path.LINETO] * (len(corners) - 1)]
        if end:
            points.append(points[-len(corners)])
            codes.append(Path.CLOSEPOLY)
    return Path(points, codes)


def _patches(d: str, paint: Mapping[str, Any], colours: Mapping[str, str], seen: float) -> list[Any]:
    """Return a part's fill with its hatch, and its outline."""
    from matplotlib.patches import PathPatch

    path, patches = path_of(d), []
    if paint["fill"] or "hatch" in paint:
        fill = colours[paint["fill"]] if paint["fill"] else "none"
        hatch = paint.get("hatch")
        look: dict[str, Any] = {"facecolor": fill, "linewidth": 0, "alpha": seen * paint.get("opacity", 1.0)}
        if hatch:
            look |= {"hatch": _pattern(hatch), "edgecolor": colours[hatch["colour"]], "hatch_linewidth": 0.5}
        patches.append(PathPatch(path, **look))
    if paint["stroke"]:
        style: Any = "solid"
        if "dash" in paint:
            style = (0, tuple(float(n) / paint["width"] for n in paint["dash"].split()))
        patches.append(
            PathPatch(
                path,
                facecolor="none",
                edgecolor=colours[paint["stroke"]],
                linewidth=PX * paint["width"],
                linestyle=style,
                joinstyle="round",
                alpha=seen,
            )
        )
    return patches


def _pattern(hatch: Mapping[str, Any]) -> str:
    """Return matplotlib's word for a hatch: as many strokes as it is close."""
    letter: str = "x" if hatch.get("crossed") else {0: "|", 45: "/", -45: "\\"}[int(hatch["angle"])]
    return letter * max(2, round(DENSEST / float(hatch["step"]) / 2))
