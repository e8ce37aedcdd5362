"""What stands around every page: title, caution, and how words and numbers are set."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, TypeVar

import streamlit as st

from conemodel.base.plain_text import for_page
from conemodel.base.table import Table, csv_text
from conemodel.show.palette import tones
from conemodel.show.setting.text import CAUTION
from conemodel.show.tables import table_html
from conemodel.show.type_scale import type_style
from conemodel.show.waterfall.screen import STYLE as TABLE_OF_TERMS
from conemodel.show.waterfall.screen import bar_style
from conemodel.ui.files import offer_file

T = TypeVar("T")

ICON = Path(__file__).with_name("icon.svg")
"""The picture in the browser's tab: a row of balls."""

TAKE = "Take these numbers (CSV)"
"""Stands on the button below a chart."""

STYLE = """
[data-testid=stHeading] h1 {font-size: var(--cm-heading); padding: 0.4rem 0}
h2[data-testid], [data-testid=stHeading] h2 {font-size: var(--cm-value); padding: 0.6rem 0 0.3rem}
[data-testid=stHeading] h3, [data-testid=stMarkdownContainer] h3 {font-size: var(--cm-title); padding: 0.5rem 0 0.3rem}
[data-testid=stMainBlockContainer] {padding-top: 0; padding-bottom: 3rem}
.st-key-cm-pair > * {flex: 1 1 0; min-width: 18rem}
.st-key-cm-heard {position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%)}
[data-testid=stMainBlockContainer]:has(.st-key-cm-heard) {padding-inline: max(1rem, min(1.25rem, 2vw))}
.st-key-cm-settled > :first-child {flex: 1 1 12rem; min-width: 0}
.st-key-my_hub button, .st-key-cm-settled [data-testid^=stPopover] button {min-height: 48px}
.st-key-cm-settled {margin-top: -10px}
.st-key-cm-settled [data-testid=stSelectbox] [role=group] {min-height: 48px; align-items: center}
[data-testid=stSelectbox] [role=group] {min-height: 44px; align-items: center}
[data-testid=stExpander] summary, [data-testid=stPageLink] a {min-height: 44px}
[data-testid=stRadio] [role=radiogroup] label, [data-testid=stCheckbox] label {min-height: 44px; align-items: center}
[data-testid=stDialog] button[aria-label=Close] {min-height: 48px; min-width: 48px}
.cm-known summary {min-height: 48px; padding: 0.7rem 0; cursor: pointer}
.st-key-closer label p {font-size: var(--cm-value); font-weight: 600}
[data-testid=stHtml] > h2 {font-size: var(--cm-value); font-weight: 600; padding: 0.8rem 0 0.3rem; margin: 0}
.cm-verdict + p {margin: 0.5rem 0 0}
.cm-verdict {display: flex; flex-wrap: wrap; gap: 0.3rem 1.6rem; align-items: baseline; margin: 0}
.cm-state {font-size: var(--cm-state); font-weight: 700; line-height: 1.15}
.cm-turn {font-size: var(--cm-value); font-weight: 600; line-height: 1.2}
.cm-sure {font-size: var(--cm-title); font-weight: 600; line-height: 1.25}
.cm-card {border-left: 4px solid; padding: 0.1rem 0 0.1rem 0.8rem; margin: 0.8rem 0}
.cm-card strong {display: block; font-size: var(--cm-value); line-height: 1.2}
.cm-stop {font-size: var(--cm-value); font-weight: 700}
.cm-stop {border: 3px solid; padding: 0.5rem 0.8rem; margin-bottom: 0.6rem}
.cm-table {overflow-x: auto}
.cm-table table {border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums}
.cm-table th, .cm-table td {padding: 0.28rem 0.55rem; text-align: right; border-bottom: 1px solid var(--cm-hair)}
.cm-table th:first-child, .cm-table td:first-child {text-align: left}
[data-testid^=stAlertContent] {border-left: 4px solid; padding-left: 0.7rem}
[data-testid^=stAlertContent] p:first-child::before {font-weight: 700; margin-right: 0.5em}
[data-testid=stAlertContentInfo] p:first-child::before {content: "\\25B8"}
[data-testid=stAlertContentSuccess] p:first-child::before {content: "\\2713"}
[data-testid=stAlertContentWarning] p:first-child::before {content: "\\26A0"}
[data-testid=stAlertContentError] p:first-child::before {content: "\\2717"}
[data-testid=stMarkdownContainer] .katex-display {overflow: visible !important}
[data-testid=stFileUploaderDropzoneInstructions] {display: none}
.cm-words td, .cm-words th {text-align: left !important; vertical-align: top}
.cm-table th {font-weight: 600; font-size: var(--cm-label)}
@media (max-width: 640px) {
  .st-key-cm-settled {gap: 0.3rem 0.5rem; margin-bottom: -6px}
  [data-testid=stMainBlockContainer]:has(.st-key-cm-heard) .st-key-cm-settled {margin-top: -22px}
  .st-key-cm-settled > :first-child, .st-key-cm-pair > * {flex-basis: 100%}
  .cm-turn {font-size: var(--cm-title)}
  .cm-table th, .cm-table td {padding: 0.25rem 0.3rem; font-size: var(--cm-label)}
}
"""


def style(*, dark: bool) -> str:
    """Return the style that every page shares, with words that can be read on the buttons of a dark or light page."""
    look = tones(dark=dark)
    hair = f":root {{--cm-hair: {look.dark_steel}; --cm-paper: {look.paper}}}"
    words = f"button[kind=primary]:enabled * {{color: {look.paper}}}"
    return f"<style>{type_style()}{hair}{STYLE}{TABLE_OF_TERMS}{bar_style(dark=dark)}{words}</style>"


def begin_page(title: str, lead: str = "") -> None:
    """Draw the head of a page: its title and one line on what it is for.

    Without that line the page begins with what is worked on, and its title is there for who hears the page only.
    """
    st.html(style(dark=st.context.theme.type == "dark"))
    with st.container(key="cm-title" if lead else "cm-heard"):
        st.title(title, anchor=False)
    if lead:
        st.markdown(lead)


def say_no_answer(error: object, to: str = "") -> None:
    """Say that the model found no answer, `to` what (" for these readings"), and that no entry is lost."""
    st.error(f"The model found no answer{to}: {for_page(str(error))}. Your entries are as they were.")


def end_page() -> None:
    """Draw the caution that stands below every page."""
    st.divider()
    st.caption(CAUTION)


def chart(
    spec: dict[str, Any],
    *,
    key: str,
    alt: str,
    moving: Mapping[str, list[dict[str, Any]]] | None = None,
) -> None:
    """Draw a Vega-Lite chart with its alternative text.

    Where nothing but the `moving` data changed, by their names, a browser keeps the chart and moves what they draw; any
    other change builds it anew. The frame turns data at the top of a chart into a table of its own, which costs more
    than all the rest; one level down it is left as it is.
    """
    inner = {name: spec[name] for name in ("data", "layer", "resolve") if name in spec}
    outer = {name: value for name, value in spec.items() if name not in inner}
    if moving:
        outer["datasets"] = dict(moving)
    st.vega_lite_chart(spec={**outer, "layer": [inner]}, key=key, alt=alt)


def take_csv(label: str, listed: Callable[[], Table[T]], name: str) -> None:
    """Draw a button that gives a table as a CSV file called `name`, worked out only when asked for."""
    offer_file(label, name, lambda: csv_text(listed()), key=f"take_{name}")


def table(listed: Table[T], *, turned: bool = False) -> None:
    """Draw a table; `turned` sets its columns one below the other."""
    st.html(table_html(listed, turned=turned))
