"""Exercises that are under way in the record: found by the address, offered to be gone on with, or left."""

from collections.abc import Callable, Mapping
from contextlib import suppress

import streamlit as st

from conemodel.base.errors import ConemodelError
from conemodel.base.plain_text import for_page
from conemodel.record.database import Database, RecordError
from conemodel.record.journal import KeptBench, bench_of_link, count_starts, leave_bench, unfinished
from conemodel.tasks.practice.playback import CannotPlayBack
from conemodel.ui.practice.keeping import Keeping
from conemodel.ui.practice.session import Sitting
from conemodel.ui.practice.sit_down import go_on_with
from conemodel.ui.visit import NAME, typed_name, visit

MOST_OFFERED = 8
"""Most that are offered at once, the latest."""

NUMBERS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")


def find_in_address(code: str | None, exercise: str) -> KeptBench | None:
    """Return the bench that the address has under way, None where it has none or the record cannot be read.

    That is the visit's bench of a link; without a link, the latest of the exercise. The name it is kept under is taken
    for typed, where none was.
    """
    with suppress(RecordError):
        found = bench_of_link(visit(), code, Database()) if code else latest_of(exercise)
        if found is not None and found.opening.name and not typed_name():
            st.session_state[NAME] = found.opening.name
        return found
    return None


def latest_of(exercise: str) -> KeptBench | None:
    """Return the latest bench of an exercise, or of any, that is not finished: of the name typed or of the visit."""
    with suppress(RecordError):
        mine = unfinished(visit(), typed_name(), Database())
        return next((one for one in mine if not exercise or one.opening.exercise == exercise), None)
    return None


def go_on(kept: KeptBench) -> Sitting:
    """Return a bench of the record as it was left.

    Raises:
        ConemodelError: it cannot be gone on with, in words.
    """
    try:
        return go_on_with(kept)
    except CannotPlayBack as error:
        raise ConemodelError(f"The exercise under way cannot be gone on with: {error}.") from error


def leave(sitting: Sitting) -> None:
    """Leave a bench that is under way for another start; where the record cannot be used, it stays offered."""
    if sitting.keeping.id is not None and not sitting.stand.bench.finished:
        with suppress(RecordError):
            leave_bench(sitting.keeping.id, Database())


def offer_unfinished(
    now: Keeping | None, titles: Mapping[str, str], go_on_at: Callable[[KeptBench], None]
) -> None:
    """Draw a way back to what is under way, if anything is, but for the bench that is shown now.

    Raises:
        RecordError: the record could not be read.
    """
    mine = unfinished(visit(), typed_name(), Database())
    others = [one for one in mine if now is None or one.id != now.id][:MOST_OFFERED]
    if not others:
        return
    with st.popover(f"Unfinished: {len(others)}", width="content"):
        for one in others:
            title = titles.get(one.opening.exercise, one.opening.exercise)
            label = f"Go on with {for_page(title)}, {_which(one.hub)}"
            st.button(label, key=f"go on {one.id}", on_click=go_on_at, args=(one,), width="stretch")


def say_state(sitting: Sitting, start_over: Callable[[], None]) -> None:
    """Say what is to be known of how a bench is kept, mostly nothing; and that it was taken up, until it is used."""
    bench = sitting.stand.bench
    if sitting.keeping.trouble:
        st.warning(for_page(sitting.keeping.trouble))
    if sitting.stand.notice:
        st.info(sitting.stand.notice)
    if sitting.resumed_at != len(bench.log):
        return
    which = _which(bench.current) if len(bench.hubs) > 1 else "as it stood"
    with st.container(key="cm-resumed", horizontal=True, vertical_alignment="center"):
        st.markdown(f"**Going on where it was left**, {which}.", width="content")
        if st.button("Start afresh"):
            start_over()
            st.rerun()


def say_how_often(exercise: str) -> None:
    """Say how often an exercise was started, and how often brought to its end.

    Raises:
        RecordError: the record could not be read.
    """
    starts = count_starts(visit(), typed_name(), exercise, Database())
    who = "under this name" if typed_name() else "in this visit"
    if starts.started:
        st.caption(
            f"This exercise, {who}: started {_times(starts.started)}, finished {_times(starts.finished)}."
        )


def _which(hub: int) -> str:
    return f"{NUMBERS[hub]} hub" if hub < len(NUMBERS) else f"hub {hub + 1}"


def _times(number: int) -> str:
    return {0: "never", 1: "once", 2: "twice"}.get(number, f"{number} times")
