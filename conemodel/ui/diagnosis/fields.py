"""One field for each reading that can be measured; empty where nobody looked."""

from collections.abc import Sequence
from contextlib import nullcontext
from typing import get_args

import streamlit as st

from conemodel.parts.checks import Answer
from conemodel.parts.readings import Thread
from conemodel.show.diagnosis.field_names import label_of
from conemodel.tasks.diagnosis.looks import PARTS
from conemodel.tasks.diagnosis.readings import READINGS
from conemodel.tasks.diagnosis.readings.reading import WHEEL_OUT, NumberField, WordField
from conemodel.ui.diagnosis.declared import DECLARED, NEXT
from conemodel.ui.diagnosis.entries import keep, widget

SIZES = (
    "protrusion_left",
    "protrusion_right",
    "dropout_thickness",
    "over_locknut_width",
    "axle_length",
    "dropout_width",
    "thread_slack",
)
HINTS = {
    "protrusion_left": "How far the axle stands out of the locknut. A quick release's must stay below the dropout's "
    "thickness.",
    "dropout_thickness": "At the axle slot, paint and all.",
    "over_locknut_width": "From outside of one locknut to outside of the other.",
    "dropout_width": "Between the inner faces, the wheel out.",
    "thread_slack": "How far the cone moves along the axle on its thread, the locknut loose: by feeler or dial.",
    "pitch_diameter": "The circle through the middles of the balls.",
    "cone_out": "In turns; below 0 is further in. By a pen mark made before it was unlocked.",
}


def ask_readings(group: str, prefix: str) -> None:
    """Ask for the readings of a group: what is measured and how far it may be off, below it the words."""
    for reading in READINGS.values():
        if reading.group != group:
            continue
        for asked in reading.asked:
            if isinstance(asked, NumberField):
                _ask_measured(asked, prefix)
        words = [asked for asked in reading.asked if isinstance(asked, WordField)]
        with st.container(horizontal=True) if len(words) < len(reading.asked) else nullcontext():
            for asked in words:
                ask_word(prefix + asked.name, asked.label, asked.words, default=asked.default)
    if group == "play":
        st.caption(f"{WHEEL_OUT} Play at the rim that was measured stands instead of the word for it.")


def _ask_measured(asked: NumberField, prefix: str) -> None:
    name = prefix + asked.name
    if asked.uncertainty is None:
        return ask_number(
            name,
            label_of(asked.name),
            step=asked.step,
            form=asked.form,
            empty=asked.usual,
            hint=asked.hint,
        )
    return with_uncertainty(
        name,
        prefix + asked.uncertainty,
        step=asked.step,
        form=asked.form,
        usual=asked.usual,
        hint=asked.hint,
    )


def ask_balls() -> None:
    """Ask for the balls of each side and their pitch circle."""
    for side in ("left", "right"):
        number = widget(f"balls_{side}.count")
        keep(
            f"balls_{side}.count",
            st.number_input(
                f"Balls on the {side}, counted twice",
                value=None,
                step=1,
                key=number,
                placeholder="not counted",
            ),
        )
        with_uncertainty(
            f"balls_{side}.diameter.size", f"balls_{side}.diameter.uncertainty", step=0.01, form="%.3f"
        )
    ask_size("pitch_diameter")


def ask_sizes() -> None:
    """Ask for axle, dropouts and thread."""
    for name in SIZES:
        ask_size(name)
    ask_word("thread", "Thread of the axle, gauged", get_args(Thread))


def ask_size(name: str) -> None:
    """Ask for a length and how far it may be off."""
    with_uncertainty(f"{name}.size", f"{name}.uncertainty", step=0.1)


def ask_looks() -> None:
    """Ask what was found by inspection."""
    for name, look in PARTS.items():
        ask_word(f"checks.{name}", look.asked, get_args(Answer))
        if look.hint:
            st.caption(look.hint)


def ask_marked() -> None:
    """Ask where the cone stood as found."""
    with_uncertainty("cone_out", "cone_out_uncertainty", step=0.05)


def with_uncertainty(
    field: str,
    other: str,
    *,
    step: float,
    form: str = "%.2f",
    usual: str | None = None,
    hint: str | None = None,
) -> None:
    """Ask for a number and, beside it, for its uncertainty."""
    first, second = st.columns([3, 2], vertical_alignment="bottom")
    with first:
        ask_number(field, label_of(field.removeprefix(f"{NEXT}.")), step=step, form=form, hint=hint)
    with second:
        fine = step >= 1
        ask_number(other, "±", step=step if fine else step / 10, form=form if fine else "%.3g", empty=usual)


def ask_number(
    field: str,
    label: str,
    *,
    step: float,
    form: str = "%.2f",
    empty: str | None = None,
    hint: str | None = None,
) -> None:
    """Ask for a number in its everyday unit; no limit here, so that all mistakes are reported together."""
    declared = DECLARED[field]
    value = st.number_input(
        f"{label} [{declared.unit.symbol}]",
        value=None,
        step=step,
        format=form,
        key=widget(field, declared.usual),
        placeholder=empty or "not measured",
        help=hint or HINTS.get(field.split(".")[-2 if field.endswith(".size") else -1]),
    )
    keep(field, value)


def ask_word(field: str, label: str, words: Sequence[str], *, default: str | None = None) -> None:
    """Ask for one of some words, or none."""
    keep(field, st.pills(label, words, key=widget(field, default), required=default is not None, wrap=True))
