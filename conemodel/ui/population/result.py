"""What a study of many hubs has to say: the sentence, the pictures, the tables, and all of it as files."""

from collections.abc import Callable

import streamlit as st

from conemodel.base.units import DEG, MM, MPA, NEWTON
from conemodel.show.formatting import number
from conemodel.show.population.charts import alt_text_many, back_off_chart, influence_chart, spread_chart
from conemodel.show.population.rows import back_off_rows, many_csv, many_json
from conemodel.show.population.text import NO_BLIND_RECIPE, headline, percent
from conemodel.tasks.population.sampling import draws
from conemodel.tasks.population.sobol import Influence
from conemodel.tasks.population.study import CHUNK, ManyHubs
from conemodel.ui.frame import chart, table

MOST_LINES = 200_000
"""Most hubs whose every line is offered from the page; the command line writes any number."""


def answers(study: ManyHubs, influences: tuple[Influence, ...]) -> None:
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
    _kinds(study)
    _tools(study)
    chart(influence_chart(influences), key="many-matters", alt=_matters_words(influences))
    _quantiles(study)
    _files(study, influences)


def _matters_words(influences: tuple[Influence, ...]) -> str:
    each = "; ".join(f"{one.label} {percent(max(one.total, 0.0))}" for one in influences)
    return f"Share of the variance of the clamped end play, together with others: {each}."


def _kinds(study: ManyHubs) -> None:
    """Draw how each kind of hub does, and its best back-off."""
    rows = [
        [
            group.name,
            f"{group.number:,}",
            *(percent(share) for share in (group.shares.loose, group.shares.right, group.shares.tight)),
            f"{DEG.from_si(group.curve.best[0]):.0f}°",
            percent(group.curve.best[1]),
        ]
        for group in (*study.kinds, study.all)
    ]
    st.header("By kind of hub", anchor=False)
    table(
        ["Hub", "Hubs", "Loose", "Right", "Tight", "Best back-off", "Then right"],
        _unbroken(rows),
        caption="Loose, right and tight by kind of hub, and the best fixed back-off of each",
    )


def _unbroken(rows: list[list[str]]) -> list[list[str]]:
    """Return rows in which no percent sign is parted from its number."""
    return [[cell.replace(" %", "\N{NO-BREAK SPACE}%") for cell in row] for row in rows]


def _tools(study: ManyHubs) -> None:
    """Draw what better tools would buy."""
    rows = [
        [tool.label, percent(tool.right), percent(tool.right_by_kind), f"{DEG.from_si(tool.back_off):.0f}°"]
        for tool in study.tools
    ]
    st.header("What a tool would buy", anchor=False)
    table(
        ["With", "Right", "Each kind its own back-off", "Back-off"],
        _unbroken(rows),
        caption="Share of hubs in the good range with each tool",
    )


def _quantiles(study: ManyHubs) -> None:
    """Draw end play, preload and pressure by share of hubs, folded away."""
    whole = study.all
    rows = [
        ["End play, mm", *(number(MM.from_si(value), 3, sign=True) for value in whole.end_play.values())],
        ["Preload, N", *(f"{NEWTON.from_si(value):.0f}" for value in whole.preload.values())],
        [
            "Pressure on the cone, MPa",
            *(f"{MPA.from_si(value):.0f}" for value in whole.cone_pressure.values()),
        ],
    ]
    with st.expander("Why: end play, preload and pressure by share of hubs"):
        table(
            ["Clamped", *(f"{share * 100:g} % below" for share in whole.end_play)],
            rows,
            caption="Values below which a share of all hubs lies",
        )


def _files(study: ManyHubs, influences: tuple[Influence, ...]) -> None:
    """Offer everything shown as files."""
    files: dict[str, tuple[str, str, Callable[[], str | bytes]]] = {
        "Numbers (JSON)": ("many-hubs.json", "application/json", lambda: many_json(study, influences)),
        "Back-off curve (CSV)": ("back-off.csv", "text/csv", lambda: _curve(study)),
        "Every hub (CSV)": ("many-hubs.csv", "text/csv", lambda: _every_hub(study)),
        "Picture (PNG)": ("many-hubs.png", "image/png", lambda: _picture(study, influences)),
    }
    if study.all.number > MOST_LINES:
        del files["Every hub (CSV)"]
    folded = st.popover("Take it with you", width="stretch", key="many-take", on_change="rerun")
    if not folded.open:
        return
    with folded:
        st.caption("The address of this page holds what was asked: send it as a link.")
        for label, (name, mime, data) in files.items():
            st.download_button(label, data, name, mime, on_click="ignore", width="stretch")
        if len(files) < 4:
            st.caption(f"A line for every hub: up to {MOST_LINES:,} here, any number on the command line.")


def _curve(study: ManyHubs) -> str:
    rows = back_off_rows(study.all)
    lines = [",".join(rows[0]), *(",".join(repr(value) for value in row.values()) for row in rows)]
    return "\n".join(lines) + "\n"


def _every_hub(study: ManyHubs) -> str:
    drawn = draws(study.crowd, hubs=study.all.number, seed=study.seed, back_off=study.back_off, chunk=CHUNK)
    return "".join(many_csv(study.crowd, drawn))


def _picture(study: ManyHubs, influences: tuple[Influence, ...]) -> bytes:
    from conemodel.show.population.charts import many_figure  # brings matplotlib: only when asked
    from conemodel.show.setting.setting_sheet import to_png

    return to_png(many_figure(study, influences))
