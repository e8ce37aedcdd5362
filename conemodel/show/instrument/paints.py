"""How every kind of surface is painted, once, for browser, page and paper.

Materials are ink mixed into paper; cut parts are hatched, so that nothing is told by colour alone.
"""

from collections.abc import Mapping
from typing import Any

PAPER, INK = ("#fbfaf7", "#161b1e"), ("#0c1317", "#e9ebe6")
MIXED = {
    "m1": (4, 7),
    "m2": (9, 15),
    "m3": (15, 22),
    "m4": (24, 32),
    "hatch": (42, 44),
    "line": (28, 28),
    "muted": (70, 70),
}
"""Share of ink in each tone made of ink and paper [%], for a light and for a dark ground."""


def _mix(share: int, dark: int) -> str:
    ink, paper = ([int(colour[at : at + 2], 16) for at in (1, 3, 5)] for colour in (INK[dark], PAPER[dark]))
    mixed = (round(p + (i - p) * share / 100) for i, p in zip(ink, paper, strict=True))
    return "#" + "".join(f"{value:02x}" for value in mixed)


COLOURS: dict[str, dict[str, str]] = {
    mode: {name: _mix(shares[dark], dark) for name, shares in MIXED.items()}
    | {
        "paper": PAPER[dark],
        "ink": INK[dark],
        "ball": ("#ffffff", _mix(34, 1))[dark],
        "petrol": ("#1d6075", "#7cc4d6")[dark],
        "petrol_tint": ("#81a3ad", "#4b6d77")[dark],
        "taken": ("#9a4f00", "#f0a552")[dark],
        "taken_tint": ("#cfad87", "#7d5f3c")[dark],
        "good": ("#2c6e49", "#8bd0a0")[dark],
        "forbidden": ("#a3123f", "#ff8ea6")[dark],
    }
    for dark, mode in enumerate(("light", "dark"))
}
"""Every colour by name, for a light and for a dark ground."""


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
    "gap": {"fill": "petrol", "stroke": None, "width": 0, "opacity": 0.25},
    "gives": {"fill": "petrol", "stroke": None, "width": 0},
    "takes": {"fill": "taken", "stroke": None, "width": 0},
    "lens": _stroke("petrol", 2.0),
    "before": _stroke("taken", 1.5, dash="5 4"),
    "good": _hatched("good", angle=0, step=4),
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
