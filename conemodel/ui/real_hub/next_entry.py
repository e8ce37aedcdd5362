"""The next thing to do at a hub that is measured, entered by thumb: a play under two pushes, or a turn made."""

import streamlit as st

from conemodel.base.units import MINUTE, MM
from conemodel.parts.measured_hub import MOST_PLAY, PLACES, Mark, MeasuredHub, ReadBy
from conemodel.parts.real_hub import LEAST_COUNT, MOST_COUNT, STATES, State
from conemodel.parts.toml_files import read_part, write_part
from conemodel.show.real_hub.doubt_words import confirm_words, mend_words
from conemodel.show.real_hub.measured_wording import push_words
from conemodel.tasks.real_hub.count_doubt import CountDoubt
from conemodel.tasks.real_hub.next_reading import Measuring, NextReading
from conemodel.tasks.real_hub.play_doubt import PlayDoubt
from conemodel.ui.own_file import OwnFile

MEASURED: OwnFile[MeasuredHub] = OwnFile(
    what="measured hub",
    place="measured",
    read=lambda text, name: read_part(MeasuredHub, text, name=name),
    write=write_part,
)
"""What was read so far: carried in the address, so that a reload and a link hold it."""

HUNDREDTH = 0.01
"""What a dial is read to, and entered in [mm]."""

PLAY = "measured_play"
"""How the names of the places for plays begin."""

FIELDS = {state: name for name, state in STATES.items()}

CHIPS: dict[ReadBy, str] = {
    "dial along the axle": "Dial, axle end",
    "dial at the rim": "Dial, rim",
    "ruler at the rim": "Ruler, rim",
}


def found_so_far() -> MeasuredHub:
    """Return what was read so far in this visit, or with the address."""
    return MEASURED.brought() or MeasuredHub()


def ask_how_read(found: MeasuredHub) -> MeasuredHub:
    """Draw what the play is read by, and return the hub so read; it can change only while nothing was read."""
    fixed = any(mark.is_read for mark in found.marks)
    if fixed:
        st.caption(f"Read by: {CHIPS[found.read_by].lower()}.")
        return found
    chosen = st.segmented_control(
        "The play is read by",
        list(CHIPS),
        default=found.read_by,
        format_func=lambda name: CHIPS[name],
        key="measured_by",
        required=True,
    )
    return found.replace(read_by=chosen)


def ask_next(measuring: Measuring) -> None:
    """Draw the places for what is to be done next, and the button that keeps it."""
    step, found = measuring.next, measuring.found
    if step.what in ("make safe", "leave", "start over"):
        return
    if measuring.doubt:
        _ask_again(found, measuring.doubt)
        return
    if step.what in ("turn", "back off"):
        count = _ask_count(step)
        st.button(
            "I turned it, drew the line",
            type="primary",
            on_click=_keep_mark,
            args=(found, count),
            width="stretch",
        )
        return
    new = step.mark >= len(found.marks)
    count = _ask_count(step) if new else step.count
    by_ruler = found.read_by == "ruler at the rim"
    with st.container(horizontal=True, key="cm-plays"):
        pushes = found.pushes[: 1 if by_ruler else 2]
        unit = 1.0 if by_ruler else HUNDREDTH
        plays = [_ask_play(step, number, push_words(found, number), unit) for number in range(len(pushes))]
    read = tuple(play for play in plays if play is not None)
    st.button(
        "Write it down",
        type="primary",
        on_click=_keep_plays,
        args=(found, step, count, read),
        disabled=not read,
        width="stretch",
    )
    if step.what == "read again" and len(found.marks) < len(PLACES):
        # what reads the same again is locked once more at its pen line, and read as a mark of its own
        st.button("It reads the same: locked anew", on_click=_keep_mark, args=(found, count), width="stretch")


def _ask_again(found: MeasuredHub, doubt: CountDoubt | PlayDoubt) -> None:
    """Draw the buttons that confirm a count or plays in doubt, or correct them."""
    with st.container(horizontal=True):
        if words := mend_words(doubt):
            st.button(words, type="primary", on_click=_take_mended, args=(found, doubt))
        st.button(confirm_words(doubt), on_click=_take_confirmed, args=(found, doubt))


def _take_mended(found: MeasuredHub, doubt: CountDoubt | PlayDoubt) -> None:
    MEASURED.take(doubt.mended(found))


def _take_confirmed(found: MeasuredHub, doubt: CountDoubt | PlayDoubt) -> None:
    MEASURED.take(doubt.confirmed(found))


def _ask_count(step: NextReading) -> float:
    """Draw where the cone then stands, as it is asked for unless something else is entered [rad]."""
    value = st.number_input(
        "It then stands at, minutes out of finger contact",
        LEAST_COUNT,
        MOST_COUNT,
        MINUTE.from_si(step.count),
        0.5,
        format="%g",
        key=f"measured_count_{step.mark}",
    )
    return MINUTE.to_si(value)


def _ask_play(step: NextReading, number: int, label: str, unit: float) -> float | None:
    """Draw the place for one play [m], entered in `unit`s of a millimetre."""
    key = f"{PLAY}_{step.mark}_{FIELDS[step.state]}_{number}"
    most = MM.from_si(MOST_PLAY) / unit
    value = st.number_input(
        label, 0.0, most, None, 0.5 if unit == 1 else 1.0, format="%g", key=key, placeholder="–"
    )
    return None if value is None else MM.to_si(round(value * unit, 4))


def _keep_mark(found: MeasuredHub, count: float) -> None:
    MEASURED.take(found.at_marks((*found.marks, Mark(count=count))))


def _keep_plays(found: MeasuredHub, step: NextReading, count: float, plays: tuple[float, ...]) -> None:
    if step.mark >= len(found.marks):
        found = found.at_marks((*found.marks, Mark(count=count)))
    for key in [key for key in st.session_state if str(key).startswith(PLAY)]:
        del st.session_state[key]  # the next reading begins empty
    MEASURED.take(found.with_mark(step.mark, **{FIELDS[step.state]: plays}))


def take_back() -> None:
    """Take back what was written down last: the plays of one state, or a mark at which nothing was read."""
    found = found_so_far()
    *before, last = found.marks
    read: list[State] = [state for state, plays in last.plays.items() if plays]
    if read:
        last = last.replace(**{FIELDS[read[-1]]: ()})
    kept = (*before, last) if last.is_read or (before and read) else tuple(before)
    MEASURED.take(found.at_marks(kept))


def clear() -> None:
    """Clear every reading; how they are read stays."""
    MEASURED.take(MeasuredHub(read_by=found_so_far().read_by))
