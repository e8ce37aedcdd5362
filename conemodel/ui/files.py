"""Files on a page: those a person brings, and those to take away."""

from collections.abc import Callable, Mapping
from contextlib import nullcontext
from pathlib import PurePath
from typing import Any

import streamlit as st
from streamlit.delta_generator import DeltaGenerator

from conemodel.base.errors import InputProblems

YOURS = "your file"
"""What a file that was brought is called where something is wrong in it."""

KINDS = {
    ".csv": "text/csv",
    ".json": "application/json",
    ".pdf": "application/pdf",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".toml": "application/toml",
    ".txt": "text/plain",
}
"""What a browser is told of a file, by the end of its name."""

Data = str | bytes | Callable[[], str | bytes]
"""What stands in a file; a function is called only when somebody asks for it."""


def ask_file(
    what: str,
    take: Callable[[bytes], None],
    *,
    key: str,
    refused: str,
    below: DeltaGenerator | None = None,
) -> None:
    """Ask for a TOML file and `take` it; one that cannot be used changes nothing, and all its mistakes are said.

    Args:
        what: the file holds.
        take: keeps what stands in it; raises `InputProblems` where it cannot be used.
        key: of the widget.
        refused: said above the mistakes.
        below: where they are said, to be seen when a fold with the widget is closed; the widget's place if left out.
    """
    st.file_uploader(f"{what} (TOML, up to 64 KB)", type=["toml"], key=key, on_change=_take, args=(key, take))
    if problems := st.session_state.get(f"{key}_problems"):
        with below or nullcontext():
            say_problems(refused, problems)


def _take(key: str, take: Callable[[bytes], None]) -> None:
    sent = st.session_state[key]
    st.session_state[f"{key}_problems"] = ""
    if sent is None:
        return
    try:
        take(sent.getvalue())
    except InputProblems as error:
        st.session_state[f"{key}_problems"] = str(error)


def say_problems(words: str, problems: object) -> None:
    """Say that something cannot be used, and below it every mistake as it stands."""
    st.error(words)
    st.code(str(problems), language=None, wrap_lines=True)


def offer_file(label: str, name: str, data: Data, **more: Any) -> None:
    """Draw a button that gives a file."""
    st.download_button(label, data, name, KINDS[PurePath(name).suffix], on_click="ignore", **more)


def offer_files(lead: str, files: Mapping[str, tuple[str, Data]], *, key: str, foot: str = "") -> None:
    """Draw a fold of files to take away, label to name and data, between a `lead` and a `foot`."""
    folded = st.popover("Take it with you: numbers and sheets", width="stretch", key=key, on_change="rerun")
    if not folded.open:  # a closed fold is not sent to the browser
        return
    with folded:
        st.caption(lead)
        for label, (name, data) in files.items():
            offer_file(label, name, data, width="stretch")
        if foot:
            st.caption(foot)
