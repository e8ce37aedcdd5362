"""What nobody measured of a hub: the values it is computed with, and the ranges a turn is advised over."""

from math import floor, log10

import streamlit as st

from conemodel.base.units import KILONEWTON, MM
from conemodel.parts.scenario import Scenario
from conemodel.parts.schema import PartProblems, reach_of
from conemodel.parts.setting import Assumed
from conemodel.parts.unknowns.unknown import Unknown
from conemodel.solve.stages.clamp_force import ASSUMED, clamp_force
from conemodel.ui.files import say_problems
from conemodel.ui.url_state import choice, kept_number, number

AS_DESCRIBED = "as described"
"""The choice that leaves a thing as the hub's description has it."""

_FORCES = (0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 15, 20)
_SLACKS = (0.015, 0.03, 0.05, 0.07, 0.09, 0.11, 0.13, 0.15, 0.17, 0.2, 0.25)
CLAMP_FORCES = {f"{force:g}": f"{force:g} kN" for force in _FORCES}
THREAD_SLACKS = {f"{slack:g}": f"{slack:g} mm" for slack in _SLACKS}

RANGE_KEYS = tuple(name for name in Assumed.model_fields if name.endswith(("_low", "_high")))
"""Under which names the ends of the ranges stand in the address."""


def ask_values(hub: Scenario, given: dict[str, str]) -> None:
    """Ask which clamp force and thread slack to compute with."""
    kind = hub.clamp.traits
    newtons, source = clamp_force(hub)
    force = choice(
        st.select_slider,
        "Clamp force",
        _left_end(f"{KILONEWTON.from_si(newtons):.2g} kN", assumed=source == ASSUMED) | CLAMP_FORCES,
        key="clamp",
        default=AS_DESCRIBED,
        help=f"Not measured on your wheel. Usual for {kind.words}: {kind.force.range_in_words(KILONEWTON)}. "
        "Move it and watch.",
    )
    if force != AS_DESCRIBED:
        given["clamp-force"] = str(KILONEWTON.to_si(float(force)))
    slack = choice(
        st.select_slider,
        "Thread slack of the cone",
        _left_end(f"{MM.from_si(hub.axle.backlash):.2g} mm", assumed=hub.axle.thread_clearance is None)
        | THREAD_SLACKS,
        key="slack",
        default=AS_DESCRIBED,
        help="How far the cone slides on its thread before the flanks bear. The locknut takes it up.",
    )
    if slack != AS_DESCRIBED:
        given["thread-slack"] = slack


def _left_end(value: str, *, assumed: bool) -> dict[str, str]:
    """Return the choice that leaves a value as the hub's description has it, in words."""
    return {AS_DESCRIBED: f"{value} ({'assumed' if assumed else 'as given'}) · change"}


def ask_ranges(hub: Scenario) -> Scenario:
    """Draw the range of everything that is only assumed, folded away; return the hub in the ranges that are set."""
    folded = st.popover("What is only assumed", width="content", key="ranges", on_change="rerun")
    if folded.open:
        with folded:
            st.caption("Not measured on your hub. The turn advised allows for all of these.")
            for name, unknown in hub.unknowns.items():
                _ask_range(name, unknown)
            st.button("Put all of these back", key="ranges_back", on_click=forget_ranges, width="stretch")
    return in_ranges(hub)


def in_ranges(hub: Scenario) -> Scenario:
    """Return a hub in the ranges set for it on any page; where they cannot be, say so and return it as it is."""
    changes = {}
    for name, unknown in hub.unknowns.items():
        for end in ("low", "high"):
            key, usual = f"{name}_{end}", _rounded(getattr(unknown, end))
            value = kept_number(*_reach(key), key=key, default=usual)
            if value != usual:
                changes[key] = unknown.unit.to_si(value)
    if not changes:
        return hub
    try:
        assumed = hub.assumed
        if "clamp_force_low" in changes or "clamp_force_high" in changes:  # the other end stays as shown
            assumed = hub.with_ranges().assumed
        return hub.replace(assumed=assumed.replace(**changes))
    except PartProblems as error:
        problems = "\n".join(str(Assumed.say(mistake)) for mistake in error.mistakes)
        say_problems("These ranges are not possible. The hub keeps the ones it came with.", problems)
        return hub


def forget_ranges() -> None:
    """Let every range be again as the hub is described."""
    for key in RANGE_KEYS:
        st.session_state.pop(key, None)
        st.query_params.pop(key, None)


def _ask_range(name: str, unknown: Unknown) -> None:
    """Draw both ends of one range, and why it is taken."""
    unit = f" [{unknown.unit.symbol}]" if unknown.unit.symbol else ""
    step = 10.0 ** (floor(log10(unknown.high - unknown.low)) - 1) if unknown.high > unknown.low else 0.01
    with st.container(horizontal=True, gap="small"):
        for end, word in (("low", "least"), ("high", "most")):
            key = f"{name}_{end}"
            number(
                st.number_input,
                f"{unknown.words[:1].upper()}{unknown.words[1:]}, {word}{unit}",
                *_reach(key),
                key=key,
                default=_rounded(getattr(unknown, end)),
                step=step,
                format="%g",
            )
    st.caption(f"Usual {unknown.usual_in_words}: {unknown.because}.")


def _reach(key: str) -> tuple[float, float]:
    """Return the limits of an end of a range, in the unit it is asked in."""
    low, high = map(_rounded, reach_of(Assumed.model_fields[key]))
    return low, high


def _rounded(value: float) -> float:
    """Return a number without the last digits that a change of units leaves."""
    return float(f"{value:.6g}")
