"""One job card as a function to call in a page: it is drawn whole in the browser and sends one message a tap."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import streamlit as st

from conemodel.tasks.job_card.card import Place, Value
from conemodel.ui.widgets.mount import read_text

_CARD = st.components.v2.component(
    "conemodel_job_card",
    html=read_text("job_card.html"),
    css=read_text("job_card.css"),
    js=read_text("place.js", "job_card_rows.js", "job_card.js"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tap:
    """One tap: its `id`, unlike that of any other, and what it answers."""

    id: str
    answers: Mapping[Place, Value]


def job_card(
    *,
    key: str,
    data: Mapping[str, Any],
    pictures: Mapping[str, Mapping[str, str]],
    kept: Sequence[str],
    trouble: str,
    on_taps: Callable[[], None],
    on_measure: Callable[[], None],
) -> None:
    """Show a card.

    Args:
        key: of the widget.
        data: the card, as `card_on_page` gives it.
        pictures: SVG to judge by, by part and condition.
        kept: ids of the taps that are dealt with; those that are not are sent again.
        trouble: what could not be kept, in words.
        on_taps: called when taps have come; `taps_of` reads them.
        on_measure: called when the hub is to be measured.
    """
    given = {**data, "pictures": pictures, "kept": list(kept), "trouble": trouble}
    _CARD(key=key, data=given, on_taps_change=on_taps, on_measure_change=on_measure)


def taps_of(key: str) -> tuple[Tap, ...]:
    """Return the taps that have come and were not said to be kept, in the order in which they were made."""
    sent = (st.session_state.get(key) or {}).get("taps") or ()
    return tuple(
        Tap(id=str(tap["id"]), answers={Place(step, where): value for step, where, value in tap["answers"]})
        for tap in sent
    )
