"""What is entered of somebody's own hub while the form is open: kept until it is used, whatever is wrong with it."""

from typing import Any

import streamlit as st

from conemodel.base.errors import Problem
from conemodel.parts.hub_families import FAMILIES, family_of
from conemodel.parts.known_hub import KnownHub
from conemodel.parts.known_scenario import KnownScenario, is_front
from conemodel.parts.scenario import Scenario
from conemodel.parts.schema import PartProblems, reach_of, unit_of
from conemodel.show.known_hub import Size, label_of, sizes_of, value_words
from conemodel.ui.own_hub import OWN_HUB, take_own_hub

ENTERED = "my_hub_entered"
"""Where what is entered is kept: fields of `KnownHub` [SI]."""

STARTED = "my_hub_started"
"""Where the form's entries are kept as they were when it was begun."""

STEPS = {
    "ball_count_left": 1,
    "ball_count_right": 1,
    "over_locknut_width": 0.5,
    "protrusion_left": 0.5,
    "protrusion_right": 0.5,
    "dropout_width": 0.5,
    "dropout_thickness": 0.5,
    "thread_slack": 0.01,
    "clamp_force": 500,
}
"""What is entered by steps, and how large a step is, in the unit of its field in a file."""


def begin(hub: Scenario) -> None:
    """Start from what is known of a hub, or from the family it is most like."""
    if isinstance(hub, KnownScenario):
        start = {"family": hub.known.family, **hub.known.known}
    else:
        start = {"family": family_of(front=is_front(hub), clamp=hub.clamp.kind)}
    st.session_state[ENTERED], st.session_state[STARTED] = start, dict(start)


def go_on_or_begin(hub: Scenario) -> None:
    """Go on with what was entered and not used, or start from a hub: a form that was closed has lost nothing."""
    if not is_begun():
        begin(hub)


def is_begun() -> bool:
    """Return whether something was entered that no screen has yet."""
    return ENTERED in st.session_state and entered() != st.session_state.get(STARTED)


def entered() -> dict[str, Any]:
    """Return what is entered [SI]."""
    found: dict[str, Any] = st.session_state.setdefault(ENTERED, {"family": next(iter(FAMILIES))})
    return found


def set_to(field: str, value: Any) -> None:
    """Enter a value [SI]; None takes back what was entered, with how far it might be out."""
    known = entered()
    if value is None:
        known.pop(f"{field}_error", None)
        known.pop(field, None)
    else:
        known[field] = value


def step(field: str, steps: int) -> None:
    """Enter a value some steps beside the one that is shown, within the limits of its field."""
    info, size = KnownHub.model_fields[field], STEPS[field]
    unit, (low, high) = unit_of(info), reach_of(info)
    at = unit.from_si(entered().get(field, sizes()[field].value)) / size
    moved = min(max((round(at) + steps) * size, low), high)
    set_to(field, int(moved) if field.startswith("ball_count") else unit.to_si(round(moved, 6)))


def whole() -> KnownScenario:
    """Return the hub that is entered, or that of its family where what is entered cannot be."""
    try:
        return KnownScenario.of(KnownHub(**entered()))
    except PartProblems:
        return KnownScenario.of(KnownHub(family=entered()["family"]))


def sizes() -> dict[str, Size]:
    """Return everything that can be entered, as it is entered or assumed."""
    return {size.field: size for size in sizes_of(whole())}


def problems() -> list[Problem]:
    """Return what is wrong with what is entered, by the words of the form."""
    try:
        KnownHub(**entered())
    except PartProblems as error:
        return [
            Problem(
                where=label_of(mistake.field),
                value=value_words(mistake.field, mistake.value),
                limit=KnownHub.say(mistake).limit,
                remedy=mistake.remedy,
            )
            for mistake in error.mistakes
        ]
    return []


def take() -> None:
    """Make what is entered the hub of every screen; what was set of it before stays, where it can."""
    brought, known = OWN_HUB.brought(), KnownHub(**entered())
    try:
        hub = brought.with_known(known) if isinstance(brought, KnownScenario) else KnownScenario.of(known)
    except PartProblems:
        hub = KnownScenario.of(known)
    take_own_hub(hub)
    st.session_state[STARTED] = dict(entered())
