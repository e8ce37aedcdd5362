"""The fold under the verdict of an exercise of two hubs that a script played."""

import streamlit as st

from conemodel.tasks.practice.marking import mark
from conemodel.ui.frame import begin_page, end_page
from conemodel.ui.practice.replay import show_replay
from tests.tasks.practice.hubs import open_link
from tests.tasks.practice.players import careful

begin_page("Practise", "An exercise that is done.")
if "bench" not in st.session_state:
    st.session_state.bench = careful(open_link("10-worn-thread.browser.3"))
show_replay("bench1", st.session_state.bench, mark(st.session_state.bench))
end_page()
