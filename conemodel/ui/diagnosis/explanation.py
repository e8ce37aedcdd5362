"""What stands behind a checked hub's result: what was assumed, and every number with its spread."""

import streamlit as st

from conemodel.base.plain_text import for_page
from conemodel.base.units import MM
from conemodel.show.diagnosis.tables import list_beliefs, list_numbers
from conemodel.show.setting.tables import list_unknowns
from conemodel.tasks.diagnosis.diagnose import Diagnosis
from conemodel.ui.frame import table
from conemodel.ui.setting.explanation import ASSUMED_OF_HUB


def show_explanation(diagnosis: Diagnosis) -> None:
    """Draw what was assumed and what is believed of each number, folded away."""
    folded = st.expander(
        "Why: what was assumed, and every number with its spread", key="check_why", on_change="rerun"
    )
    if not folded.open:
        return
    with folded:
        hub = diagnosis.scenario
        st.markdown(
            f"Worked out for **{for_page(hub.name)}**, with what was measured laid over it; spanner "
            f"{MM.from_si(hub.assumed.spanner_length):.0f} mm."
        )
        if (numbers := list_numbers(diagnosis)).records:
            table(numbers)
        st.markdown("Only assumed of this hub; *Set the cone* changes it.")
        table(list_unknowns(hub.unknowns.values(), caption=ASSUMED_OF_HUB))
        st.markdown("Taken as likely before anyone looked: judgement, not a count of hubs.")
        table(list_beliefs())
