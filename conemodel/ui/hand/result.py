"""What a sitting found, largest first, and all sittings under the same name."""

from collections.abc import Sequence

import streamlit as st

from conemodel.base.plain_text import for_html
from conemodel.base.table import csv_text
from conemodel.record.database import Database
from conemodel.record.hand_sittings import Sitting, delete_nameless, delete_sittings
from conemodel.show.hand.over_time import alt_text_over_time, list_hands, over_time_chart
from conemodel.show.hand.wording import TRUTH, bias_words, threshold_range_words, threshold_words, usual_words
from conemodel.tasks.hand.measured_hand import MeasuredHand, measured_hand
from conemodel.ui.files import offer_file
from conemodel.ui.frame import chart, table
from conemodel.ui.hand.pairs import hub_in_hand
from conemodel.ui.hand.session import kept_with

NOT_A_WHEEL = (
    "Found on this screen and by this device. A real wheel in the hand is another matter: *Check a hub* takes "
    "nothing of it."
)

IN_PRACTICE = (
    "In *Practise*, under the same name, hubs are felt to scatter as by this hand, but for those of a class."
)


def show_result(sitting: Sitting) -> None:
    """Draw threshold and bias of a finished sitting, and the others under its name."""
    hand = hand_of(sitting)
    st.html(
        f'<p class="cm-verdict"><span class="cm-state">{for_html(threshold_words(hand))}</span>'
        f'<span class="cm-sure">{for_html(threshold_range_words(hand))}</span></p>'
    )
    st.markdown(
        f"Told right three times in four, were there no bias and no slip. {TRUTH} {usual_words(hand.kind)}"
    )
    st.markdown(f"**{bias_words(hand)}** {hand.right} of {hand.pairs} pairs named rightly.")
    st.caption(NOT_A_WHEEL)
    if sitting.name:
        st.caption(IN_PRACTICE)
    show_history([one for one in kept_with(sitting) if one.finished])


def hand_of(sitting: Sitting) -> MeasuredHand:
    """Return what a sitting found in the measures of a workshop."""
    return measured_hand(
        sitting.kind,
        hub_in_hand(),
        sitting.estimate,
        begun_at=sitting.begun_at,
        right=sum(answer.right for answer in sitting.answers),
    )


def show_history(done: Sequence[Sitting]) -> None:
    """Draw finished sittings of one kind under one name, or of one visit under none, at least one, oldest first."""
    hands = [hand_of(sitting) for sitting in done]
    st.header("Over time", anchor=False)
    if done[0].name is None:
        st.caption("No name: what was found by whoever has the address of this page.")
    if len(hands) > 1:
        st.caption(f"Each dot a sitting, its line the range. {TRUTH}")
        chart(over_time_chart(hands), key="hand_over_time", alt=alt_text_over_time(hands))
    table(list_hands(hands))
    offer_file("All of it (CSV)", f"my-hand-{done[0].kind.name}.csv", csv_text(list_hands(hands)))
    if not (done[0].name or done[0].visit):
        return
    with st.popover("Delete all of it"):
        which = "under this name" if done[0].name else "here without a name"
        st.markdown(f"Every sitting kept {which} is deleted for good, of play and of tightness.")
        st.button("Delete", on_click=_delete, args=(done[0],))


def _delete(one: Sitting) -> None:
    file = Database()
    number = delete_sittings(one.name, file) if one.name else delete_nameless(one.visit or "", file)
    st.toast(f"{number} sittings deleted.")
