"""What stands behind a checked hub's result: what was assumed, and every number with its spread."""

import streamlit as st

from conemodel.base.units import MM
from conemodel.parts.priors import Beliefs
from conemodel.parts.schema import unit_of
from conemodel.show.formatting import millimetres, newtons
from conemodel.tasks.diagnosis.diagnose import Diagnosis
from conemodel.ui.frame import plain, table


def why(diagnosis: Diagnosis) -> None:
    """Draw what was assumed and what is believed of each number, folded away."""
    folded = st.expander(
        "Why: what was assumed, and every number with its spread", key="check_why", on_change="rerun"
    )
    if not folded.open:
        return
    with folded:
        hub = diagnosis.scenario
        st.markdown(
            f"Worked out for **{plain(hub.name)}**, with what was measured laid over it; spanner "
            f"{MM.from_si(hub.assumed.spanner_length):.0f} mm."
        )
        _numbers(diagnosis)
        st.markdown("Believed before anybody looked: judgement, no count of hubs stands behind it.")
        beliefs = Beliefs()
        rows = []
        for name, field in Beliefs.model_fields.items():
            unit, value = unit_of(field), getattr(beliefs, name)
            many = value if isinstance(value, tuple) else (value,)
            shown = ", ".join(f"{unit.from_si(one):.4g}" for one in many)
            rows.append([field.description or name, f"{shown} {unit.symbol}".strip()])
        table(["Believed", "Value"], rows, caption="What is believed beforehand", words=True)


def _numbers(diagnosis: Diagnosis) -> None:
    """Draw each number's middle and where it lies four times in five."""
    named = (
        ("End play, clamp open", diagnosis.opened, True),
        ("End play, clamp closed", diagnosis.closed, True),
        ("Taken by the clamp", diagnosis.shift, True),
        ("Clamp force", diagnosis.clamp_force, False),
        ("Thread slack", diagnosis.slack, True),
    )
    rows = []
    for label, one, length in named:
        if one is not None:
            low, high = one.intervals[0.8]
            ends = [millimetres(end) if length else newtons(end) for end in (one.median, low, high)]
            rows.append([label, ends[0], f"{ends[1]} to {ends[2]}"])
    if rows:
        table(["Number", "Most likely", "Four times in five"], rows, caption="Every number with its spread")
