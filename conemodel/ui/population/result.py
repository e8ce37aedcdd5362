"""The result of a study of many hubs: sentence, charts, tables, and all of it as files."""

import streamlit as st

from conemodel.base.table import csv_text
from conemodel.show.population.charts import alt_text_many, back_off_chart, influence_chart, spread_chart
from conemodel.show.population.study_json import many_json
from conemodel.show.population.tables import (
    list_back_offs,
    list_groups,
    list_hubs,
    list_quantiles,
    list_tools,
)
from conemodel.show.population.text import NO_BLIND_RECIPE, headline
from conemodel.show.population.wording import percent
from conemodel.tasks.population.sampling import draws
from conemodel.tasks.population.sobol import Influence
from conemodel.tasks.population.study import CHUNK, ManyHubs
from conemodel.ui.files import Data, offer_files
from conemodel.ui.frame import chart, table

MOST_LINES = 200_000
"""Most hubs whose every line is offered from the page; the command line writes any number."""


def show_study(study: ManyHubs, influences: tuple[Influence, ...]) -> None:
    """Draw a study."""
    with st.container(border=True, key="cm-headline"):
        st.markdown(headline(study))
    st.markdown(NO_BLIND_RECIPE)
    if study.beyond:
        st.markdown(
            f"{percent(study.beyond)} of the hubs are tighter than was solved for; their preload is higher still."
        )
    chart(
        spread_chart(study),
        key="many-spread",
        alt=f"How many hubs end up with which end play. {headline(study)}",
    )
    chart(back_off_chart(study), key="many-back-off", alt=alt_text_many(study, influences))
    st.header("By kind of hub", anchor=False)
    table(list_groups(study))
    st.header("What a tool would buy", anchor=False)
    table(list_tools(study))
    chart(influence_chart(influences), key="many-matters", alt=_matters_words(influences))
    with st.expander("Why: end play, preload and pressure by share of hubs"):
        table(list_quantiles(study.all), turned=True)
    _files(study, influences)


def _matters_words(influences: tuple[Influence, ...]) -> str:
    each = "; ".join(f"{one.label} {percent(max(one.total, 0.0))}" for one in influences)
    return f"Share of the variance of the clamped end play, together with others: {each}."


def _files(study: ManyHubs, influences: tuple[Influence, ...]) -> None:
    """Offer everything shown as files."""
    files: dict[str, tuple[str, Data]] = {
        "Numbers (JSON)": ("many-hubs.json", lambda: many_json(study, influences)),
        "Back-off curve (CSV)": ("back-off.csv", lambda: csv_text(list_back_offs(study.all))),
        "Every hub (CSV)": ("many-hubs.csv", lambda: _every_hub(study)),
        "Picture (PNG)": ("many-hubs.png", lambda: _picture(study, influences)),
    }
    foot = ""
    if study.all.number > MOST_LINES:
        del files["Every hub (CSV)"]
        foot = f"A line for every hub: up to {MOST_LINES:,} here, any number on the command line."
    lead = "The address of this page holds what was asked: send it as a link."
    offer_files(lead, files, key="many-take", foot=foot)


def _every_hub(study: ManyHubs) -> str:
    drawn = draws(study.crowd, hubs=study.all.number, seed=study.seed, back_off=study.back_off, chunk=CHUNK)
    return csv_text(list_hubs(study.crowd, drawn))


def _picture(study: ManyHubs, influences: tuple[Influence, ...]) -> bytes:
    from conemodel.show.paper.files import to_png
    from conemodel.show.population.sheet import many_figure  # loads matplotlib, so only when needed

    return to_png(many_figure(study, influences))
