"""Every hostile text in every element that a page puts foreign text into."""

import streamlit as st

from conemodel.base.plain_text import for_html, for_page, one_line
from conemodel.base.table import Column, Table
from conemodel.ui.frame import table
from tests.hostile import HOSTILE

COLUMNS = (Column(one_line, page="What"), Column(len, page="Letters"))

for number, text in enumerate(HOSTILE.values()):
    with st.container(key=f"case-{number}"):
        st.markdown(for_page(text))
        st.markdown(f"**{for_page(text)}** and more")
        st.header(for_page(text), anchor=False)
        st.caption(for_page(text))
        st.error(for_page(text))
        st.text(one_line(text))
        st.html(f"<p>{for_html(one_line(text))}</p>")
        table(Table(COLUMNS, [text], caption="Table", words=True))
