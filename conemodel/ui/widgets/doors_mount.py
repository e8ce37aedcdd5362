"""The doors of the start page as a function to call in it: one widget, since the frame draws links one by one."""

from collections.abc import Mapping, Sequence
from typing import Any

import streamlit as st

from conemodel.ui.widgets.mount import read_text

_DOORS = st.components.v2.component(
    "conemodel_doors",
    html=read_text("doors.html"),
    css=read_text("doors.css"),
    js=read_text("place.js", "doors.js"),
)


def show_doors(doors: Sequence[Mapping[str, Any]], *, key: str) -> str | None:
    """Show `doors` side by side and return the address of the page somebody goes to, None until then.

    Each has a `name`, a `lead` of one line, whether something is `due`, and `pages` with a `title` and an `address`.
    """
    return _DOORS(key=key, data={"doors": list(doors)}, on_page_change=lambda: None).page  # type: ignore[no-any-return]
