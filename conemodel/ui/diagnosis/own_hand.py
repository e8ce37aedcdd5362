"""Whose hand looks: where the person named found their own threshold on a real hub, their words count by it."""

import streamlit as st

from conemodel.base.errors import ConemodelError
from conemodel.base.plain_text import for_page
from conemodel.base.units import MM
from conemodel.parts.priors import Beliefs
from conemodel.record.database import Database
from conemodel.record.real_hubs import real_hubs
from conemodel.tasks.hand.estimate import Interval
from conemodel.tasks.real_hub.own_hand import beliefs_of_hand, own_threshold
from conemodel.ui.cache import cached_real_hub
from conemodel.ui.url_state import flag
from conemodel.ui.visit import typed_name


def ask_own_hand() -> Beliefs | None:
    """Draw whose hand the words at the rim are, whether that is used, and return what it makes likely.

    Where nobody is named in this visit, or nothing was found on a real hub, it says how a threshold would come to
    serve; what practice found is not asked for.
    """
    name = typed_name()
    found = _latest(name) if name else None
    if name is None or found is None:
        _say_how(name)
        return None
    day, threshold = found
    size, low, high = (f"{MM.from_si(at):.2f}" for at in (threshold.value, threshold.low, threshold.high))
    said = st.container()
    used = flag(f"It was {for_page(name)}'s hand that looked", key="own_hand", default=True)
    serves = "**Used** for the words at the rim." if used else "**Not used**: the words count as any hand's."
    said.caption(
        f"{for_page(name)} feels play at the rim from {size} mm ({low} to {high}), found on a real hub on {day}. "
        f"{serves} A link to this page does not carry that."
    )
    return beliefs_of_hand(threshold) if used else None


def _say_how(name: str | None) -> None:
    """Say that no hand's own threshold is used, and where one would come from."""
    whose = f"None is kept for {for_page(name)} yet." if name else "Type your name on that page first."
    st.caption(
        "Your hand's own threshold: **not used**. It serves here once it is kept under your name on A real hub. "
        + whose
    )
    if pages := st.session_state.get("pages"):
        st.page_link(pages["real-hub"], label="Your hand on a real hub", width="content")


def _latest(name: str) -> tuple[str, Interval] | None:
    """Return day and threshold of the latest real hub under a name that told one; what cannot be read tells none."""
    try:
        for kept in reversed(real_hubs(name, Database())):
            threshold = own_threshold(cached_real_hub(kept.hub, kept.readings))
            if threshold is not None:
                return kept.made_at[:10], threshold
    except ConemodelError:
        return None
    return None
