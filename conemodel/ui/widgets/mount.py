"""The three widgets as functions to call in a page. Each returns the last gesture, None before the first.

`key` is needed: without one, new data would mount the widget afresh and its state would be gone. `set_id`
names the state of the hub: change it when the hub changes, and what was felt before is forgotten. `drawing`
is the view of the hub that the gesture moves, as `gesture_json` gives it. Call inside a fragment, so that a
gesture reruns only that.
"""

from collections.abc import Callable, Mapping
from dataclasses import asdict
from importlib.resources import files
from typing import Any, TypeVar

import streamlit as st

from conemodel.ui.widgets.contract_rock import AXLE_FINGERS, Grip, RockCurve, Rocked, RockFelt, RockHand
from conemodel.ui.widgets.contract_turning import SpinCurve, SpinFelt, Spun
from conemodel.ui.widgets.contract_twirl import TwirlCurve, Twirled, TwirlFelt, TwirlHand
from conemodel.ui.widgets.hand_data import rock_data, twirl_data

SHARED_SCRIPTS = (
    "place.js",
    "feel.js",
    "feel_twirl.js",
    "feel_turn.js",
    "draw.js",
    "instrument_sheet.js",
    "bench_hub.js",
    "sound.js",
    "sound_check.js",
    "bench.js",
)
_Gesture = TypeVar("_Gesture")


def read_text(*names: str) -> str:
    """Return the texts of the files `names` of this folder, one after the other, as one module."""
    return "\n".join(files(__package__).joinpath(name).read_text(encoding="utf-8") for name in names)


def _register(name: str) -> Any:
    part = f"(root) => new Bench(root, {name.capitalize()})"
    seated = f"export default (component) => standAt(component, {part});"
    return st.components.v2.component(
        f"conemodel_{name}",
        html=read_text(f"{name}.html"),
        css=read_text("instrument_drawing.css", "bench.css", f"{name}.css"),
        js="\n".join((read_text(*SHARED_SCRIPTS, f"{name}.js"), seated)),
    )


_ROCK, _TWIRL, _SPIN = (_register(name) for name in ("rock", "twirl", "spin"))


def _last(key: str) -> Mapping[str, Any]:
    # A widget that is not shown loses its state; the copy is kept.
    state = st.session_state.get(key) or {}
    return dict(state.get("hand") or st.session_state.get(_copy(key)) or {})


def _copy(key: str) -> str:
    return f"{key} (last gesture)"


def hear(key: str) -> tuple[Mapping[str, Any], int]:
    """Return the gesture just told and the sequence number of the one heard before it, 0 for none; in `on_change`."""
    before = (st.session_state.get(_copy(key)) or {}).get("sequence", 0)
    hand: Mapping[str, Any] = st.session_state[key]["hand"]
    st.session_state[_copy(key)] = hand
    return hand, int(before)


def mount_widget(
    component: Any,
    result: type[_Gesture],
    *,
    key: str,
    set_id: int,
    label: str,
    data: Mapping[str, Any],
    on_change: Callable[[], None] | None,
) -> _Gesture | None:
    """Show a widget with its `data` and return its last gesture as a `result`, None before the first."""
    # The last sequence number goes back with the data: a widget hidden and shown again counts on from there.
    given = {"sequence": _last(key).get("sequence", 0), "set_id": set_id, "label": label, **data}
    answer = component(key=key, data=given, default={"hand": None}, on_hand_change=on_change or _nothing)
    hand = answer["hand"] or st.session_state.get(_copy(key))
    st.session_state[_copy(key)] = hand
    return result(**hand) if hand else None


def _nothing() -> None:
    pass


def _stand(key: str, set_id: int, otherwise: float) -> float:
    """Return the angle a widget last reported on this state of the hub: a remount stands there too."""
    last = _last(key)
    angle = last.get("angle") if last.get("set_id") == set_id else None
    return otherwise if angle is None else float(angle)


def rock_wheel(
    *,
    key: str,
    drawing: Mapping[str, Any],
    curve: RockCurve,
    felt: RockFelt,
    grip: Grip = "rim",
    hand: RockHand | None = None,
    magnification: float = 20.0,
    set_id: int = 0,
    on_change: Callable[[], None] | None = None,
) -> Rocked | None:
    """Show the wheel to be rocked at `grip` and return the last gesture.

    `magnification`: how much movement is enlarged in the picture [-], always written beside it; 1 = true. `hand`: by
    default the one that goes with the grip.
    """
    hand = hand or (RockHand() if grip == "rim" else AXLE_FINGERS)
    data = {"drawing": drawing} | rock_data(
        curve=curve, felt=felt, grip=grip, hand=hand, magnification=magnification
    )
    label = "Rock the wheel at the rim" if grip == "rim" else "Rock the axle end"
    return mount_widget(_ROCK, Rocked, key=key, set_id=set_id, label=label, data=data, on_change=on_change)


def twirl_axle(
    *,
    key: str,
    drawing: Mapping[str, Any],
    curve: TwirlCurve,
    felt: TwirlFelt,
    hand: TwirlHand | None = None,
    angle: float = 0.0,
    set_id: int = 0,
    on_change: Callable[[], None] | None = None,
) -> Twirled | None:
    """Show the axle to be twirled in the fingers and return the last gesture.

    `angle`: of the axle when this state of the hub is first shown, clockwise [rad].
    """
    data = twirl_data(curve=curve, felt=felt, hand=hand or TwirlHand())
    data |= {"drawing": drawing, "angle": _stand(key, set_id, angle)}
    return mount_widget(
        _TWIRL, Twirled, key=key, set_id=set_id, label="Twirl the axle", data=data, on_change=on_change
    )


def spin_wheel(
    *,
    key: str,
    drawing: Mapping[str, Any],
    curve: SpinCurve,
    felt: SpinFelt,
    angle: float = 0.0,
    set_id: int = 0,
    on_change: Callable[[], None] | None = None,
) -> Spun | None:
    """Show the wheel to be spun; return the last time it was let go of or came to rest.

    `angle`: of the heavy spot when this state of the hub is first shown, clockwise from the bottom [rad].
    """
    data = {
        "drawing": drawing,
        "speed": list(curve.speed),
        "torque": list(curve.torque),
        "inertia": curve.inertia,
        "heavy": curve.heavy_spot,
        "rough": curve.rough,
        "felt": asdict(felt),
        "angle": _stand(key, set_id, angle),
    }
    return mount_widget(
        _SPIN, Spun, key=key, set_id=set_id, label="Spin the wheel", data=data, on_change=on_change
    )
