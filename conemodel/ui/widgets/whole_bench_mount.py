"""The whole bench as a function to call in a page: the hub from its side and from its end, with every hand on it."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

import streamlit as st

from conemodel.ui.widgets.mount import SHARED_SCRIPTS, mount_widget, read_text

HANDS = ("rock", "twirl", "turn", "locknut", "lever")

SCRIPTS = (*SHARED_SCRIPTS, *(f"{hand}.js" for hand in HANDS), "shared_hub.js", "whole_bench.js")
STYLES = ("instrument_drawing.css", "bench.css", "whole_bench.css")

_BENCH = st.components.v2.component(
    "conemodel_whole_bench",
    html=read_text("whole_bench.html"),
    css=read_text(*STYLES),
    js=read_text(*SCRIPTS),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """A hand that is laid on and stays until it is taken off.

    Attributes:
        name: sent back when it is laid on or taken off; words: what stands on it; on: whether it is; key: its letter.
    """

    name: str
    words: str
    on: bool
    key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What the bench last answered.

    Attributes:
        number: rises with every answer; done: what was done; told: what hands, eyes and ears answered.
    """

    number: int
    done: str
    told: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Acts:
    """The last acts at the bench, oldest first.

    Attributes:
        sequence: rises by one with every act; set_id: of the hub on the bench when the last was done.
        acts: each with its own `sequence`, its `gesture`, the `set_id` that it was made on, and what it was.
    """

    sequence: int
    set_id: int
    acts: Sequence[Mapping[str, Any]]


def whole_bench(
    *,
    key: str,
    pictures: Mapping[str, Mapping[str, Any]],
    said: Said,
    holds: Sequence[Hold] = (),
    advised: str = "",
    set_id: int = 0,
    on_change: Callable[[], None] | None = None,
) -> Acts | None:
    """Show the bench and return the last acts, None before the first.

    Args:
        key: of the widget.
        pictures: `side` and `end`, each with its `drawing` and its `hands` by gesture: what the widget of that gesture
            alone is given and the `set_id` it hangs on; or why it is `barred`, and nothing else.
        said: the last answer.
        holds: hands laid on and taken off.
        advised: the gesture that is usually next.
        set_id: which hub is on the bench.
        on_change: called after an act.
    """
    colours = next(iter(pictures.values()))["drawing"]["colours"]
    data = {
        "pictures": pictures,
        "colours": colours,
        "said": said.number,
        "done": said.done,
        "told": said.told,
        "holds": [asdict(hold) for hold in holds],
        "next": advised,
    }
    return mount_widget(
        _BENCH, Acts, key=key, set_id=set_id, label="The bench", data=data, on_change=on_change
    )
