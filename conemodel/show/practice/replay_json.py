"""What a browser needs to play a replay: the instrument's close view of the hub, and where it stands act by act."""

from collections.abc import Sequence
from typing import Any

from conemodel.base.units import DEG, MM
from conemodel.parts.clamp_kinds import ON_LOCKNUTS
from conemodel.parts.setting import State
from conemodel.show.instrument.drawing_of import drawing_of
from conemodel.show.instrument.paints import COLOURS, PAINTS
from conemodel.tasks.practice.replay import Replay
from conemodel.tasks.practice.track import Frame
from conemodel.tasks.setting.adjustment import STATE_WORDS
from conemodel.tasks.wording import CLOCK_MINUTE

AROUND = 60.0, 75.0
"""How far the chart reaches in and out from the middle of the good range [°]: what is further out is on its way in."""

PAST_CONTACT = 12.0
"""How far in from finger contact it reaches at least [°]."""

TOUCH: dict[State, str] = {
    "loose": "Short of first touch",
    "right": "At first touch",
    "tight": "Past first touch",
}
"""Where a cone stands that is to be left at first touch."""

SHOULD = " Between the two green lines: where the race should stand."
"""What is said of the good range in the picture."""

NAMES = "You", "A good hand"
"""Whose path it is."""


def replay_json(replay: Replay) -> dict[str, Any]:
    """Return a replay as plain data: one drawing, and both paths act by act.

    Angles are in degrees out from finger contact, lengths in mm of end play, both as they move the drawing.
    """
    touch = replay.kind == "touch"
    edges = (replay.window.tight_edge, replay.window.loose_edge)
    drawing = drawing_of(replay.scenario, good=None if touch else edges)
    plate = drawing.plates["close"]
    used = {part.paint for group in plate.groups for part in group.parts}
    tracks = zip(NAMES, (replay.mine, replay.good), strict=True)
    told = {
        "sheet": plate.as_json(),
        "paints": {key: paint for key, paint in PAINTS.items() if key in used},
        "colours": COLOURS,
        "factor": drawing.factor,
        "tracks": [
            {"name": name, "acts": [_act(frame, touch) for frame in frames]} for name, frames in tracks
        ],
        "cue": None if replay.cue is None else {"at": replay.cue.at, "gesture": replay.cue.gesture},
        "chart": None
        if replay.kind == "name"
        else _chart(replay.good, "first touch" if touch else "good range"),
        "note": f"Gap drawn {drawing.factor} × the parts.{'' if touch else SHOULD}",
    }
    return told | {"minute": DEG.from_si(CLOCK_MINUTE)}


def _chart(frames: Sequence[Frame], band: str) -> dict[str, Any]:
    """Return between which angles the charts reach [°], and what their band is called."""
    middle = DEG.from_si(sum(frames[-1].good) / 2)
    inward, outward = AROUND
    return {"from": min(middle - inward, -PAST_CONTACT), "to": middle + outward, "band": band}


def _act(frame: Frame, touch: bool) -> dict[str, Any]:
    times = f" ({frame.times} times)" if frame.times > 1 else ""
    return {
        "done": f"{frame.done}{times}",
        "told": frame.told,
        "stands": TOUCH[frame.state] if touch else f"Once clamped: {STATE_WORDS[frame.state].lower()}",
        "stage": frame.stage,
        "angle": round(DEG.from_si(frame.angle), 4),
        "good": [round(DEG.from_si(edge), 4) for edge in frame.good],
        "rocked": frame.kind == "Rock",
        "on_nut": frame.hub.seat in ON_LOCKNUTS,
        "vars": _variables(frame),
    }


def _variables(frame: Frame) -> dict[str, float]:
    """Return what the drawing is moved by; what follows from where the wheel is rocked to is the browser's."""
    locked, closed = float(frame.hub.lock is not None), float(frame.hub.closed)
    bears = bool(locked) or frame.hub.nut_snug
    return {
        "cone": round(float(MM.from_si(frame.end_play)), 6),
        "nut": locked,
        "off": 0.0 if bears else 1.0,
        "clamp": closed,
        "cone_flank": 1.0 if bears else -1.0,
        "nut_flank": -1.0 if bears else 0.0,
        "aim": round(float(MM.from_si(frame.end_play - frame.once_clamped)), 6),
    }
