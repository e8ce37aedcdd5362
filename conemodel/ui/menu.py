"""The menu over every page, the same at every width: the start, the three doors, and the pages behind the open one."""

import streamlit as st
from streamlit.navigation.page import StreamlitPage

from conemodel.ui.start import DOORS

STYLE = """
<style>
[data-testid=stHeader] {left: auto; right: 0; width: auto; height: 44px; min-height: 44px; background: none}
.st-key-cm-menu {gap: 0 4px; padding: 4px 0; margin-left: -10px; align-items: center}
.st-key-cm-menu > * {width: auto !important; flex: 0 0 auto}
.st-key-cm-menu a {min-height: 44px; padding: 0 10px; white-space: nowrap}
.st-key-cm-menu a strong {text-decoration: underline; text-underline-offset: 6px; text-decoration-thickness: 2px}
.st-key-cm-menu a > span:has([data-testid=stIconMaterial]) {display: none}
.st-key-cm-behind {border-left: 1px solid; padding-left: 4px; gap: 0 4px}
.st-key-cm-behind a strong {text-decoration: none}
@media (max-width: 640px) {
  .st-key-cm-menu {padding: 4px 0 0}
  .st-key-cm-menu a {padding: 0 7px}
  .st-key-cm-behind {border-left: none; padding-left: 0}
}
</style>
"""


def draw_menu(pages: dict[str, StreamlitPage], shown: StreamlitPage) -> None:
    """Draw the menu as links; a door leads to its first page, and its pages stand beside it once it is open."""
    st.html(STYLE)
    with st.container(horizontal=True, key="cm-menu"):
        _link(pages["start"], "Start", here=shown == pages["start"])
        behind: list[StreamlitPage] = []
        for door in DOORS:
            inside = [pages[name] for name in door.pages]
            _link(inside[0], door.name, here=shown in inside)
            if shown in inside:
                behind = inside
        if len(behind) > 1:
            with st.container(horizontal=True, key="cm-behind"):
                for page in behind:
                    _link(page, page.title, here=page == shown)


def _link(page: StreamlitPage, words: str, *, here: bool) -> None:
    st.page_link(page, label=f"**{words}**" if here else words, width="content")
