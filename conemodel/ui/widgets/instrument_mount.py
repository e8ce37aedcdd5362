"""The instrument as a function to call in a page: the hub, the spanners and the clamp under the finger.

All it shows was worked out in Python before; it tells Python of a gesture once the hand has let go.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal
from zlib import crc32

import streamlit as st

from conemodel.ui.widgets.mount import hear, mount_widget, read_text

Stage = Literal["contact", "backed_off", "locked", "clamped", "ridden"]
Hidden = Literal["good", "headline", "numbers"]
Way = Literal["pointer", "touch", "keys"]

PARTS = ("travel", "words", "sheet", "headline", "rule", "close", "dial", "whole", "hands", "grips")
SCRIPTS = ("place.js", *(f"instrument_{name}.js" for name in PARTS), "instrument.js")
"""Its script, in the order in which its parts use each other."""

_INSTRUMENT = st.components.v2.component(
    "conemodel_instrument",
    html=read_text("instrument.html"),
    css=read_text("instrument.css", "instrument_narrow.css", "instrument_drawing.css"),
    js=read_text(*SCRIPTS),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """How a hand left the hub.

    Attributes:
        sequence: rises by one with every gesture.
        set_id: the drawing it was made on.
        angle: of the cone, out from finger contact [°].
        stage: the act that was done last.
        way: how it was done.
        turns: `sequence` and `angle` of this gesture and those before it that the page may not have heard of.
    """

    sequence: int
    set_id: int
    angle: float
    stage: Stage
    way: Way
    turns: Sequence[Mapping[str, float]] = ()


def instrument(
    *,
    key: str,
    data: Mapping[str, Any],
    stage: Stage = "clamped",
    hide: Collection[Hidden] = (),
    above: int = 64,
    under: int = 0,
    on_change: Callable[[], None] | None = None,
) -> Moved | None:
    """Show the instrument and return the last gesture, None before the first.

    Args:
        key: of the widget.
        data: the hub: its drawing, `sheets`, `paints`, `colours` and `rule`; its `numbers`; the `exact` setting.
            With `ask`, an address of `answer_ahead`, a hand is answered there before the page is told of it.
        stage: where the hub stands when it is first shown.
        hide: what may not be seen in an exercise.
        above: height of what stands above it on the page when that is not scrolled [px].
        under: height of what stays at the top of the window and its headline has to keep clear of [px].
        on_change: called after a gesture.
    """
    drawing = {name: each for name, each in data.items() if name not in ("numbers", "exact", "ask")}
    return mount_widget(
        _INSTRUMENT,
        Moved,
        key=key,
        set_id=crc32(repr(drawing).encode()),
        label="The hub",
        data={**data, "stage": stage, "hide": sorted(hide), "above": above, "under": under},
        on_change=on_change,
    )


def take_hand(key: str) -> tuple[Stage, list[float]]:
    """Return the act that a hand did last, and where hands left the cone since the page was told before, in turn [°].

    For use in `on_change`.
    """
    hand, before = hear(key)
    return hand["stage"], [turn["angle"] for turn in hand["turns"] if turn["sequence"] > before]
