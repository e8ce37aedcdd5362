"""A real hub: back it off in counted minutes, say when play appears and when drag changes, and see what that tells."""

import streamlit as st

from conemodel.base.errors import ConemodelError, InputProblems
from conemodel.record.names import LONGEST_NAME
from conemodel.show.real_hub.page_to_print import CAUTIONS, STEPS
from conemodel.tasks.real_hub.readings import readings_in
from conemodel.ui.cache import real_hub_page_to_print
from conemodel.ui.choose_hub import choose_hub
from conemodel.ui.files import offer_file
from conemodel.ui.frame import begin_page, end_page, say_no_answer
from conemodel.ui.real_hub.entries import ask_counts, ask_measures, entered, forget
from conemodel.ui.real_hub.result import offer_keeping, show_over_weeks, show_problems, show_result
from conemodel.ui.visit import NAME, recall_name, typed_name

LEAD = "Count on a real wheel where play appears and where drag begins. See what your own hand feels."

NOTHING_YET = (
    "Nothing is entered yet. Print the page, go to the wheel, and come back with the counts. With the locknut loose "
    "they tell your hand; once locked, the thread's slack; once clamped, what the clamp takes."
)

STYLE = """
<style>
[class*=st-key-cm-counts] [data-testid=stNumberInputContainer],
[class*=st-key-cm-measures] [data-testid=stNumberInputContainer] {height: 48px}
[class*=st-key-cm-counts] [data-testid=stNumberInputContainer] button,
[class*=st-key-cm-measures] [data-testid=stNumberInputContainer] button {width: 44px; min-width: 44px; height: 46px}
[class*=st-key-cm-counts], [class*=st-key-cm-measures] {gap: 0.4rem}
[class*=st-key-cm-counts] > *, [class*=st-key-cm-measures] > * {flex: 1 1 40%; min-width: 8.5rem; width: auto}
.st-key-cm-lines {max-width: 640px}
@media (max-width: 1000px) {
  .st-key-cm-real-hub [data-testid=stHorizontalBlock]:has(> [data-testid=stColumn]) {flex-wrap: wrap}
  .st-key-cm-real-hub [data-testid=stColumn] {min-width: 100%}
}
</style>
"""


def page() -> None:
    """Draw the page."""
    begin_page("A real hub", LEAD)
    st.html(STYLE)
    with st.container(key="cm-real-hub"):
        asking, said = st.columns([5, 6], gap="large")
    with asking:
        _explain()
        st.caption("Which ready hub is most like yours? What nobody measured is assumed in a range.")
        hub = choose_hub()
        recall_name()
        st.text_input("Your name, or none", key=NAME, max_chars=LONGEST_NAME, persist_state="session")
        ask_counts()
        with st.expander("Measured with a gauge or a ruler"):
            ask_measures()
        st.button("Clear every number", on_click=forget)
    name = typed_name() or ""
    with said:
        try:
            found = entered(hand=name)
            if readings_in(found):
                show_result(found, hub)
                offer_keeping(found, hub, name)
            else:
                st.info(NOTHING_YET)
        except InputProblems as error:
            show_problems(error)
        except ConemodelError as error:
            say_no_answer(error, " for these readings")
        if name:
            _over_weeks(name)
    end_page()


def _explain() -> None:
    """Draw how it is done, and the page to print."""
    with st.expander("How to do it"):
        st.markdown("\n".join(f"{place}. {step}" for place, step in enumerate(STEPS, start=1)))
        st.warning(CAUTIONS[0])
        st.caption(CAUTIONS[1])
    offer_file("Page to print: steps, a dial of minutes, boxes (PDF)", "real-hub.pdf", real_hub_page_to_print)


def _over_weeks(name: str) -> None:
    try:
        show_over_weeks(name)
    except ConemodelError as error:
        st.error(f"What was kept could not be read: {error}")
