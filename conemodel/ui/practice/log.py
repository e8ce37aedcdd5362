"""The log of the bench: each action and what was felt, seen and heard, in words."""

import streamlit as st

from conemodel.base.plain_text import for_html
from conemodel.tasks.practice.commitment import read
from conemodel.tasks.practice.next_step import next_step
from conemodel.tasks.practice.session import Bench, Event
from conemodel.ui.practice.session import Stand
from conemodel.ui.practice.steps import STEPS, list_visible_states
from conemodel.ui.widgets.whole_bench_mount import Said

STYLE = """
<style>
.cm-log {max-height: 26rem; overflow-y: auto; line-height: 1.35}
.cm-log p {margin: 0; padding: 0.35rem 0; border-bottom: 1px solid var(--cm-hair)}
.cm-log b {font-weight: 600}
.cm-standing {display: grid; grid-template-columns: auto 1fr; gap: 0.15rem 0.9rem; margin: 0}
.cm-standing, .cm-standing dt, .cm-standing dd {margin: 0 !important; padding: 0 !important}
.cm-standing dt {font-weight: 400} .cm-standing dd {font-weight: 600}
.cm-goal {margin: 0}
.cm-next {font-size: var(--cm-title); line-height: 1.35; margin: 0}
.st-key-cm-bench-head h1 {font-size: var(--cm-value); padding: 0}
@media (min-width: 641px) {
  /* what hands do fits the window of a projector: labels stand before their buttons */
  .st-key-cm-hands .stButtonGroup {display: flex; align-items: center; gap: 0.7rem}
  .st-key-cm-hands .stButtonGroup > label {margin: 0; min-height: 0; flex: 0 0 auto}
}
@media (max-width: 640px) {
  [class*="step"][class*="st-key-bench"] button {padding-left: 0.55rem; padding-right: 0.55rem}
}
</style>
"""


def set_styles() -> None:
    """Set how the words of the bench look; once a page."""
    st.html(STYLE)


def last_answer(stand: Stand) -> Said:
    """Return the answer to the latest action."""
    number = len(stand.bench.log)
    if not number:
        return Said(number=0, done="", told="Nothing done yet.")
    return Said(number=number, done=_action_words(stand, number - 1), told=read(stand.bench, number - 1))


def show_log(stand: Stand, *, label: str = "What was done and what was felt") -> None:
    """Draw all of it, the latest on top; feeling the same again is drawn once, with how often."""
    lines: list[tuple[str, int]] = []
    for number, event in enumerate(stand.bench.log):
        line = _line(stand, number, event)
        if lines and lines[-1][0] == line and not event.counts:
            lines[-1] = line, lines[-1][1] + 1
        else:
            lines.append((line, 1))
    body = (
        "".join(f"<p>{line}{_times_words(times)}</p>" for line, times in reversed(lines))
        or "<p>Nothing yet.</p>"
    )
    st.html(
        f'<div class="cm-log" role="log" tabindex="0" aria-label="{for_html(label)}" '
        f'data-said="{len(stand.bench.log)}">{body}</div>'
    )


def _times_words(times: int) -> str:
    return f" ({times} times)" if times > 1 else ""


def show_next_step(bench: Bench) -> None:
    """Draw what is usually done next."""
    following = next_step(bench)
    st.html(f'<p class="cm-next"><b>Next → {STEPS[following.step]}:</b> {for_html(following.words)}</p>')


def show_bench(stand: Stand) -> None:
    """Draw the visible state of the bench."""
    rows = "".join(
        f"<dt>{for_html(name)}</dt><dd>{for_html(state)}</dd>"
        for name, state in list_visible_states(stand.bench)
    )
    st.html(f'<dl class="cm-standing">{rows}</dl>')


def _action_words(stand: Stand, number: int) -> str:
    words = stand.own_words.get(number, stand.bench.log[number].action)
    return f"{words[:1].upper()}{words[1:]}"


def _line(stand: Stand, number: int, event: Event) -> str:
    if event.kind == "Take" and not event.refused:
        return f"<b>{for_html(event.told)}</b>"
    words = for_html(_action_words(stand, number))
    if len(stand.bench.hubs) > 1:
        words = f"Hub {event.hub + 1}: {words}"
    if event.undone:
        return f"<s>{words}</s> (taken back)"
    note = " (not possible)" if event.refused else ""
    return f"{words}{note}<br><b>{for_html(read(stand.bench, number))}</b>"
