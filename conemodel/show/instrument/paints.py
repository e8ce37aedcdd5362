"""How every kind of surface is painted, once, for browser, page and paper.

Materials are ink mixed into paper; cut parts are hatched, so that nothing is told by colour alone.
"""

from collections.abc import Mapping
from typing import Any

from conemodel.show.palette import DARK, LIGHT, WHITE, Tones, mix_colours

INKED = {
    "m1": (0.04, 0.07),
    "m2": (0.09, 0.15),
    "m3": (0.15, 0.22),
    "m4": (0.24, 0.32),
    "line": (0.28, 0.28),
    "hatch": (0.42, 0.44),
    "muted": (0.70, 0.70),
}
"""How much ink lies in each tone made of ink and paper, for a light and for a dark ground."""
TINTS = {"petrol": 0.55, "taken": 0.45}
"""How much of its colour lies in a handle's fill."""


def _colours(look: Tones, ground: int) -> dict[str, str]:
    """Return every colour by name on a light (0) or a dark (1) ground."""
    chosen = {field: getattr(look, field) for field in type(look).__dataclass_fields__}
    inked = {name: mix_colours(look.paper, look.ink, shares[ground]) for name, shares in INKED.items()}
    tints = {f"{name}_tint": mix_colours(look.paper, chosen[name], share) for name, share in TINTS.items()}
    return chosen | inked | tints


COLOURS: dict[str, dict[str, str]] = {"light": _colours(LIGHT, 0), "dark": _colours(DARK, 1)}
"""Every colour by name, for a light and for a dark ground."""


def _in_grey(colour: str) -> str:
    """Return the grey that is as light as a colour: `#rrggbb`. Weights: ITU-R BT.601, from memory."""
    light = sum(share * int(colour[at : at + 2], 16) for at, share in ((1, 0.299), (3, 0.587), (5, 0.114)))
    return "#" + f"{round(light):02x}" * 3


GREYS = {name: _in_grey(colour) for name, colour in COLOURS["light"].items()} | {"paper": WHITE}
"""Every colour by name, as a sheet is printed without colour."""


def _cut(fill: str, *, angle: int, step: float) -> dict[str, Any]:
    hatch = {"angle": angle, "step": step, "width": 1.0, "colour": "hatch"}
    return {"fill": fill, "stroke": "ink", "width": 1.5, "hatch": hatch}


def _plain(fill: str, *, width: float = 1.5, stroke: str = "ink") -> dict[str, Any]:
    return {"fill": fill, "stroke": stroke, "width": width}


def _stroke(colour: str, width: float, *, dash: str = "") -> dict[str, Any]:
    told: dict[str, Any] = {"fill": None, "stroke": colour, "width": width}
    return told | ({"dash": dash} if dash else {})


def _hatched(colour: str, *, angle: int, step: float, crossed: bool = False) -> dict[str, Any]:
    hatch = {"angle": angle, "step": step, "width": 1.2, "colour": colour, "crossed": crossed}
    return {"fill": None, "stroke": colour, "width": 1.4, "hatch": hatch}


PAINTS: Mapping[str, Mapping[str, Any]] = {
    # cut
    "shell": _cut("m1", angle=45, step=13),
    "cup": _cut("m3", angle=-45, step=7),
    "cone": _cut("m2", angle=45, step=7),
    "axle": _cut("m4", angle=-45, step=9),
    "nut": _cut("m2", angle=-45, step=7),
    "washer": _cut("m3", angle=45, step=4),
    "spacer": _cut("m1", angle=45, step=9),
    "frame": _cut("m1", angle=-45, step=11),
    "clamp": _cut("m2", angle=45, step=6),
    "sprocket": _cut("m3", angle=45, step=4),
    # seen, or too small to hatch
    "ball": _plain("ball"),
    "ball-small": _plain("ball", width=1.0),
    "tyre": _plain("m3"),
    "cap": _plain("m4", width=1.1),
    "seen-1": _plain("m1"),
    "seen-2": _plain("m2"),
    "seen-3": _plain("m3"),
    "seen-4": _plain("m4"),
    "paper": _plain("paper"),
    "face": _plain("paper", width=1.0, stroke="line"),
    "missing": _stroke("forbidden", 1.6, dash="4 3"),
    "advised": _stroke("petrol", 1.6, dash="5 4"),
    "rod": _plain("m1", width=1.0),
    "soft": _plain("m4"),
    "key": _cut("m3", angle=45, step=4) | {"stroke": None},
    "threaded": _plain("m2", width=1.2),
    "clear": {"fill": "paper", "stroke": None, "width": 0},
    "dark": {"fill": "ink", "stroke": None, "width": 0},
    # lines
    "edge": _stroke("ink", 1.5),
    "thin": _stroke("ink", 0.8),
    "fine": _stroke("line", 1.0),
    "hidden": _stroke("muted", 0.9, dash="4 3"),
    "thread": _stroke("ink", 0.6),
    "spoke": _stroke("ink", 0.9),
    "axis": _stroke("ink", 0.8, dash="12 3 2 3"),
    "gloss": _stroke("line", 2.1),
    "carries": _stroke("ink", 3.9),
    "touches": _stroke("ink", 4.2),
    # meanings
    "gap": {"fill": "petrol", "stroke": None, "width": 0, "opacity": 0.8},
    "on-gap": {"fill": "paper", "stroke": None, "width": 0},
    "takes": {"fill": "taken", "stroke": None, "width": 0},
    "lens": _stroke("petrol", 2.0),
    "ruled": _plain("m2", width=1.0),
    "given": _plain("petrol", width=1.2, stroke="petrol"),
    "took": _hatched("taken", angle=45, step=6) | {"fill": "paper"},
    "before": _stroke("taken", 1.5, dash="5 4"),
    "assumed": _hatched("petrol", angle=-45, step=5) | {"dash": "4 3"},
    "assumed-end": _stroke("petrol", 2.5),
    "good": _hatched("good", angle=0, step=4),
    "good-edge": _stroke("good", 2.0),
    "engraved": _hatched("good", angle=0, step=4) | {"fill": "paper"},
    "fault": _stroke("forbidden", 3.0),
    "fault-mark": _stroke("forbidden", 2.0),
    "dent": {"fill": "forbidden", "stroke": "forbidden", "width": 1.2},
    "bent": _stroke("forbidden", 1.6, dash="10 3 2 3"),
    "forbidden": _hatched("forbidden", angle=45, step=6, crossed=True),
    "cone-spanner": _plain("petrol_tint"),
    "nut-spanner": _plain("taken_tint"),
    "handle": _plain("taken_tint"),
}
"""By key: colours by name, widths and hatches in px at the size a page shows, angles clockwise from upright [°]."""
