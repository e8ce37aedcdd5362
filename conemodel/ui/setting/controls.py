"""The controls of a setting, kept in the address bar, and the scenario they ask for."""

import streamlit as st

from conemodel.base.units import DEG
from conemodel.parts.scenario import Scenario
from conemodel.parts.unknowns.hands import DRIFT
from conemodel.parts.unknowns.senses import PRELOAD_TORQUE
from conemodel.tasks.setting.overrides import apply_overrides
from conemodel.tasks.wording import CLOCK_MINUTE, clock_minutes, firm_hand, fraction_of_turn
from conemodel.ui.setting.unmeasured import ask_ranges, ask_values, forget_ranges
from conemodel.ui.url_state import choice, flag, kept_numbers, number

FRACTIONS = {"1/16": 22.5, "1/8": 45.0, "3/16": 67.5, "1/4": 90.0, "5/16": 112.5, "3/8": 135.0}
"""Back-offs by their usual names [°]."""

MINUTES = {"in 5": -5, "in 1": -1, "out 1": 1, "out 5": 5}
"""Small turns by minutes on a clock face; out counts up."""

STEP, LEAST_TURN, MOST_TURN = 1.0, -60.0, 240.0
"""Step and ends of the back-off slider [°]."""

TURNS_MADE, MOST_UNDONE = "turns_made", 30
"""Where the cone stood before each turn, the latest last, and how many of these are kept [°]."""

CONTACTS = {
    "nut loose": "the locknut run back",
    "nut snug": "the locknut run up to the cone",
}
"""How finger contact was found; snug, the cone falls back by its thread's slack when it is backed off."""

TECHNIQUES = {
    "nut turned": "nut turned, cone held",
    "cone turned out": "cone backed onto a held nut",
    "both": "both against each other",
}
AXLE_HELD = {"vice": "in a vice", "far spanners": "by spanners on the far side", "nothing": "by nothing"}
SEATS = {
    "dropouts": "in the frame",
    "spacers on locknuts": "spacers on both locknuts",
    "spacer on axle end": "spacer on the axle end",
    "one side in frame": "one side in the frame",
}
"""Where axle nuts can press."""

_YES_NO = {True: "yes", False: "no"}
_SETTING_KEYS = (
    "turn",
    "technique",
    "held",
    "drift",
    "torque",
    "axle",
    "seat",
    "contact",
    "clamp",
    "slack",
    TURNS_MADE,
)


def ask_by_numbers(hub: Scenario) -> Scenario:
    """Draw everything that can be set by numbers and words, and return the hub with it.

    Raises:
        InputProblems: the setting cannot be.
    """
    given: dict[str, str] = {}
    kept_numbers(LEAST_TURN, MOST_TURN, key=TURNS_MADE, most=MOST_UNDONE)
    with st.container(horizontal=True, key="cm-given"):
        undo_button()
        with st.popover("How it is locked", width="content"):
            _ask_locking(hub, given)
        with st.popover("What counts as good", width="content"):
            _ask_limits(hub, given)
        hub = ask_ranges(hub)
    with st.container(key="cm-by-numbers"):
        turned, measured = st.columns(2, gap="large")
        with turned:
            _ask_turn(hub, given)
        with measured:
            ask_values(hub, given)
    return apply_overrides(hub, given)


def undo_button() -> None:
    """Draw the button that takes the last turn back."""
    st.button(
        "Undo the last turn",
        disabled=not st.session_state[TURNS_MADE],
        on_click=undo_turn,
        shortcut="Ctrl+Z",
    )


def start_setting(hub: Scenario, name: str) -> None:
    """Reset the controls when another hub is chosen; the first hub of a visit keeps what its address asks."""
    if st.session_state.setdefault("setting_of", name) != name:
        st.session_state.setting_of = name
        for key in _SETTING_KEYS:
            st.session_state.pop(key, None)
            st.query_params.pop(key, None)
        forget_ranges()


def turn_to(angle: float) -> None:
    """Turn the cone to an angle out from finger contact [°], remembering where it stood."""
    turned = nearest_turn(angle)
    if turned != st.session_state.turn:
        st.session_state[TURNS_MADE].append(st.session_state.turn)
        st.session_state.turn = turned


def nearest_turn(angle: float) -> float:
    """Return the turn that the slider can show which is nearest to an angle [°]."""
    return min(max(round(angle / STEP) * STEP, LEAST_TURN), MOST_TURN)


def undo_turn() -> None:
    """Put the cone back where it stood before the last turn."""
    if made := st.session_state[TURNS_MADE]:
        st.session_state.turn = made.pop()


def _ask_turn(hub: Scenario, given: dict[str, str]) -> None:
    """Ask how far the cone stands out from finger contact."""
    turn = number(
        st.slider,
        "Cone turned out from finger contact",
        LEAST_TURN,
        MOST_TURN,
        key="turn",
        default=round(DEG.from_si(hub.setting.back_off) / STEP) * STEP,
        step=STEP,
        format="%d°",
        help="0° is finger contact: the cone screwed in by hand until the balls are just pinched. Out is "
        "anticlockwise, seen from the cone's side. Below 0° is further in.",
    )
    angle = DEG.to_si(turn)
    way = "out" if turn >= 0 else "in"
    exactly = "" if turn % 22.5 == 0 or abs(turn) < 11.25 else "about "
    st.caption(
        f"{abs(turn):.0f}° {way}: {exactly}{fraction_of_turn(angle)}, {clock_minutes(angle)} on a clock face"
    )
    st.pills(
        "Turn it by minutes on a clock face",
        list(MINUTES),
        key="minutes",
        on_change=_take_minutes,
        help="One minute on a clock face is 6°. In is clockwise, seen from the cone's side.",
    )
    st.pills(
        "Back off by a fraction of a turn",
        list(FRACTIONS),
        key="fraction",
        on_change=_take_fraction,
        help="A quarter turn is the usual first try: common practice, no source.",
    )
    given["back-off"] = f"{turn:g}deg"


def _take_minutes() -> None:
    chosen = st.session_state.minutes
    if chosen in MINUTES:
        turn_to(st.session_state.turn + DEG.from_si(MINUTES[chosen] * CLOCK_MINUTE))
    st.session_state.minutes = None


def _take_fraction() -> None:
    chosen = st.session_state.fraction
    if chosen in FRACTIONS:
        turn_to(FRACTIONS[chosen])
    st.session_state.fraction = None


def _ask_locking(hub: Scenario, given: dict[str, str]) -> None:
    """Ask what is turned and what is held."""
    setting = hub.setting
    given["technique"] = choice(
        st.radio, "What is turned to lock", TECHNIQUES, key="technique", default=setting.technique
    )
    held = flag("A spanner holds the cone", key="held", default=setting.cone_held)
    given["cone-held"] = _YES_NO[held]
    drift = number(
        st.number_input,
        "Held, the cone still creeps in by [°]",
        0.0,
        90.0,
        key="drift",
        default=DEG.from_si(setting.drift),
        step=1.0,
        format="%.0f",
        help=f"Slack in the spanner and give in the hand: usually {DRIFT.range_in_words()}.",
    )
    torque = number(
        st.number_input,
        "Torque at the locknut [N·m]",
        0.0,
        60.0,
        key="torque",
        default=setting.lock_torque,
        step=1.0,
        format="%.0f",
        help=f"{firm_hand(hub.assumed.spanner_length)}. On a thin cone spanner it is not measured.",
    )
    given["drift"], given["lock-torque"] = f"{drift:g}", f"{torque:g}"
    given["axle-held"] = choice(
        st.radio, "The axle is held", AXLE_HELD, key="axle", default=setting.axle_held
    )
    seats: dict[str, str] = {seat: SEATS[seat] for seat in hub.clamp.traits.seats}
    given["clamp-seat"] = choice(st.radio, "Clamped on", seats, key="seat", default=setting.clamp_seat)
    given["contact-found"] = choice(
        st.radio, "Finger contact found with", CONTACTS, key="contact", default=setting.contact_found
    )


def _ask_limits(hub: Scenario, given: dict[str, str]) -> None:
    """Ask for the limits of the good range; they start as the hub's description has them."""
    st.caption("These are judgement, not measurement. On each side the first limit met ends the good range.")
    limits = hub.limits
    for option, key, label, (low, high, step), default in (
        (
            "limit-rim-play",
            "lim_play",
            "Play at the rim that counts as none [mm]",
            (0.01, 1.0, 0.05),
            limits.rim_play * 1e3,
        ),
        (
            "limit-torque",
            "lim_torque",
            "Turning torque from preload [N·mm]",
            (1.0, 500.0, 1.0),
            limits.torque * 1e3,
        ),
        (
            "limit-pressure",
            "lim_pressure",
            "Pressure on the cone [MPa]",
            (200.0, 4200.0, 100.0),
            limits.cone_pressure / 1e6,
        ),
        ("limit-life", "lim_life", "Share of the best fatigue life", (0.05, 0.95, 0.05), limits.life_ratio),
    ):
        form = "%.2f" if step < 1 else "%.0f"
        value = number(st.number_input, label, low, high, key=key, default=default, step=step, format=form)
        given[option] = f"{value:g}"
    torque, why = PRELOAD_TORQUE.range_in_words(), PRELOAD_TORQUE.because
    st.caption(f"Turning torque: {torque} may be good, because {why}.")
