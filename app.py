"""The page list and the frame; everything else lives in the package."""

import streamlit as st

from conemodel.ui.frame import ICON
from conemodel.ui.pages import all_pages

st.set_page_config(page_title="conemodel", page_icon=str(ICON), layout="wide")
st.navigation(list(all_pages().values()), position="top").run()
