"""The least a page can be and still be touched: one slider and one caption."""

import streamlit as st

st.set_page_config(layout="wide")
at = st.slider("Bare", 0, 100)
st.caption(f"Bare {at}")
