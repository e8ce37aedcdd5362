"""The page list and the frame; everything else lives in the package."""

import streamlit as st

from conemodel.ui.frame import ICON
from conemodel.ui.menu import draw_menu
from conemodel.ui.pages import all_pages

st.set_page_config(page_title="conemodel", page_icon=str(ICON), layout="wide")
pages = all_pages()
shown = st.navigation(list(pages.values()), position="hidden")
draw_menu(pages, shown)
shown.run()
