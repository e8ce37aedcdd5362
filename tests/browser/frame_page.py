"""A page of bare Streamlit controls: what the frame does by itself, under our configuration."""

import gc

import pandas as pd
import streamlit as st


@st.cache_resource
def full_collections() -> list[int]:
    """Return a list that grows by one at every full garbage collection of this process."""
    seen: list[int] = []

    def note(phase: str, info: dict[str, int]) -> None:
        if phase == "stop" and info["generation"] == 2:
            seen.append(1)

    gc.callbacks.append(note)
    return seen


st.set_page_config(page_title="Frame")
st.title("Frame")
st.button("Again", key="again")
st.text(f"collections: {len(full_collections())}")
st.slider("Amount", 0, 10, 5)
st.segmented_control("Choice", ["one", "two"], default="one")
st.toggle("Switch", value=True)
st.caption("A caption.")
for say in (st.info, st.warning, st.error, st.success):
    say("Said.")
with st.sidebar:
    st.caption("A caption at the side.")
table = pd.DataFrame({"a": [1.0]}, index=["x"])
st.dataframe(table)
st.table(table)
st.file_uploader("File")
st.toast("Saved.", duration="infinite")  # a slow machine looks late
