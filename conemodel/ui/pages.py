"""Every page, by name, for the menu and for links from one page to another."""

import streamlit as st
from streamlit.navigation.page import StreamlitPage

from conemodel.ui import check, demonstrate, first_hub, many_hubs, method, practise, progress, set_cone, start


def all_pages() -> dict[str, StreamlitPage]:
    """Return the pages in the order of the menu; to be called once a run, before any page is drawn."""
    pages = {
        "start": st.Page(
            start.page, title="Start", icon=":material/door_open:", url_path="start", default=True
        ),
        "first-hub": st.Page(
            first_hub.page, title="First hub", icon=":material/back_hand:", url_path="first-hub"
        ),
        "practise": st.Page(practise.page, title="Practise", icon=":material/pan_tool:", url_path="practise"),
        "progress": st.Page(
            progress.page, title="Progress", icon=":material/monitoring:", url_path="progress"
        ),
        "set-the-cone": st.Page(
            set_cone.page, title="Set the cone", icon=":material/build:", url_path="set-the-cone"
        ),
        "check-a-hub": st.Page(
            check.page, title="Check a hub", icon=":material/stethoscope:", url_path="check-a-hub"
        ),
        "method": st.Page(method.page, title="Method", icon=":material/functions:", url_path="method"),
        "demonstrate": st.Page(
            demonstrate.page, title="Demonstrate", icon=":material/co_present:", url_path="demonstrate"
        ),
        "many-hubs": st.Page(
            many_hubs.page, title="Many hubs", icon=":material/bar_chart:", url_path="many-hubs"
        ),
    }
    st.session_state.pages = pages
    return pages
