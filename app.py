"""The page list and the frame; everything else lives in the package."""

import streamlit as st

if __name__ == "__main__":  # a visit; widgets are made known to the running server, so they are imported here
    from conemodel.ui.frame import ICON
    from conemodel.ui.menu import draw_menu
    from conemodel.ui.pages import all_pages

    st.set_page_config(page_title="conemodel", page_icon=str(ICON), layout="wide")
    pages = all_pages()
    shown = st.navigation(list(pages.values()), position="hidden")
    draw_menu(pages, shown)
    shown.run()
else:  # the server, before the first visit
    from conemodel.ui.serving import MIDDLEWARE, ROUTES, begin_serving

    app = st.App(__file__, routes=ROUTES, middleware=MIDDLEWARE, lifespan=begin_serving)
