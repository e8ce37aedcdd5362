"""Today's plan for whoever is practising: read from the record by their name, or by their visit."""

from contextlib import suppress
from datetime import datetime, timedelta, timezone, tzinfo

import streamlit as st

from conemodel.parts.exercise import Exercise
from conemodel.record.attempts import Attempt, attempts
from conemodel.record.database import Database, RecordError
from conemodel.record.rounds import rounds_of
from conemodel.tasks.practice.catalogue import ladder
from conemodel.tasks.practice.plan.confusions import mix_of
from conemodel.tasks.practice.plan.today import Today, plan_today
from conemodel.ui.visit import known_visit, recall_name

FOLLOWS = "follows_plan"
"""Where it stands whether the plan is followed."""


def done_so_far() -> tuple[Attempt, ...]:
    """Return what was done under the name of this visit, or without one in this visit; oldest first.

    Raises:
        RecordError: the record could not be read.
    """
    if name := recall_name():
        return attempts(Database(), name=name)
    visit = known_visit()
    return attempts(Database(), nameless_of=visit) if visit else ()


def read_today() -> Today:
    """Return today's plan.

    Raises:
        RecordError: the record could not be read.
    """
    zone = _zone()
    return plan_today(ladder(), rounds_of(done_so_far(), zone), datetime.now(zone).date())


def _zone() -> tzinfo | None:
    """Return how the trainee's clock stands to the world's, as the browser told it; None for this computer's."""
    minutes = st.context.timezone_offset
    return None if minutes is None else timezone(timedelta(minutes=-minutes))


def mix_for(exercise: Exercise) -> str:
    """Return by which cards a hub is to be dealt to whoever is practising; evenly where the record cannot be read."""
    with suppress(RecordError):
        return mix_of(exercise, [hub for one in done_so_far() for hub in one.hubs])
    return ""


def follow(*, plan: bool) -> None:
    """Follow the plan from here on, or go one's own way."""
    st.session_state[FOLLOWS] = plan


def follows_plan() -> bool:
    """Return whether the plan is followed."""
    return bool(st.session_state.get(FOLLOWS))
