"""How long an exercise took at the bench, as counted in this visit."""

from time import monotonic

import streamlit as st

from conemodel.tasks.practice.plan.bench_clock import BenchClock
from conemodel.ui.practice.session import Stand


def count_time(stand: Stand) -> None:
    """Count the time up to now; to be called after each act. Of a bench taken up half done it is not known."""
    key = _key(stand)
    if key not in st.session_state:
        st.session_state[key] = BenchClock() if not stand.bench.log else None
    if (clock := st.session_state[key]) is not None:
        st.session_state[key] = clock.at(monotonic())


def time_taken(stand: Stand) -> float | None:
    """Return how long it took [s], None where that is not known."""
    clock: BenchClock | None = st.session_state.get(_key(stand))
    return clock.spent if clock is not None else None


def _key(stand: Stand) -> str:
    return f"{stand.name} clock"
