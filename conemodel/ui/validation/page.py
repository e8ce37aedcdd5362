"""Method: the equations, where they come from, what is left out, and published values computed again now."""

from itertools import groupby

import streamlit as st

from conemodel.base.errors import ConemodelError
from conemodel.base.plain_text import for_page
from conemodel.base.sources import SOURCES
from conemodel.base.table import table_of_words
from conemodel.parts.scenario import Scenario
from conemodel.parts.unknowns import UNKNOWNS
from conemodel.show.bearing.tables import list_checks
from conemodel.show.formatting import degrees, millimetres
from conemodel.show.setting.tables import list_unknowns
from conemodel.show.validation.equations import EQUATIONS
from conemodel.show.validation.sums_by_hand import sums_by_hand
from conemodel.tasks.validation.edge_sizes import edge_sizes
from conemodel.tasks.validation.method import (
    LEFT_OUT,
    STATUS_WORDS,
    PublishedCheck,
    published_checks,
    whole_hub_check,
)
from conemodel.ui.cache import cached_prediction
from conemodel.ui.choose_hub import choose_hub, ready_hubs
from conemodel.ui.frame import begin_page, end_page, say_no_answer, table, take_csv
from conemodel.ui.own_hub import FIRST_HUB, say_lost_hub
from conemodel.ui.validation.calibration import draw_calibration


def page() -> None:
    """Draw the page."""
    begin_page(
        "Method",
        "How the numbers come about, what they are checked against, and what they leave out. Everything is computed "
        "from measures, elasticity and friction; nothing is fitted.",
    )
    _checks()
    draw_calibration()
    _this_hub()
    _left_out()
    _unknowns()
    _equations()
    _sources()
    end_page()


def _checks() -> None:
    """Draw published values beside what is computed now."""
    st.header("Published values, computed again now", anchor=False)
    try:
        checks = _computed()
    except ConemodelError as error:
        st.error(f"The checks could not be computed: {error}.")
        return
    holding = sum(each.holds for each in checks)
    sign = "✓" if holding == len(checks) else "✗"
    st.html(
        f'<p class="cm-verdict"><span class="cm-turn"><span aria-hidden="true">{sign}</span> '
        f"{holding} of {len(checks)} hold</span></p>"
    )
    _whole_hub(checks[-1])
    for status, words in STATUS_WORDS.items():
        st.markdown(f"- **{status}**: {words} ({sum(each.status == status for each in checks)} of them)")
    with st.expander("All of them, one by one", expanded=False):
        table(list_checks(checks))
    take_csv("Take the checks (CSV)", lambda: list_checks(checks), "checks.csv")


def _whole_hub(check: PublishedCheck) -> None:
    factor = check.computed / check.published
    st.markdown(
        "The roughest check is a whole hub, the first one offered, in the middle of its good range: "
        f"{for_page(check.what)} comes out **{factor:.2f} times** the quoted {check.published:.1f} {check.unit} "
        f"({for_page(check.reason)})."
    )


def _computed() -> tuple[PublishedCheck, ...]:
    """Return the checks, computed now; the whole hub last."""
    return (*published_checks(), whole_hub_check(ready_hubs()[FIRST_HUB]))


def _this_hub() -> None:
    """Draw the sums of the chosen hub, and the size of the effects that are usually negligible."""
    st.header("This hub, worked again", anchor=False)
    say_lost_hub()
    hub = choose_hub()
    _sums(hub)
    _edges(hub)


def _edges(hub: Scenario) -> None:
    st.header("At the edges, for this hub", anchor=False)
    try:
        sizes = edge_sizes(hub)
    except ConemodelError as error:
        st.error(f"The sizes could not be computed: {error}.")
        return
    lines = (
        (each.what, each.when, millimetres(each.length, sign=True), degrees(each.angle, sign=True))
        for each in sizes
    )
    caption = "What heat, frame and loose cups add to this hub's end play"
    table(table_of_words(caption, ("What", "When", "End play", "Of cone"), lines))
    st.caption(
        "Each is part of the sum only where the hub's description asks for it. Heat rests on how far the cups follow "
        "their shell, dropouts on what frame and stack give: both are assumed."
    )


def _sums(hub: Scenario) -> None:
    """Draw the chain of a hub as sums to work again."""
    try:
        sums = sums_by_hand(cached_prediction(hub))
    except ConemodelError as error:
        say_no_answer(error, " for this hub")
        return
    lines = ((each.what, each.how, each.numbers, millimetres(each.length, sign=True)) for each in sums)
    table(
        table_of_words("This hub's end play, term by term", ("What moved", "How", "Numbers", "Here"), lines)
    )
    st.caption(
        "Every sum is in millimetres and needs a pocket calculator. Rounded as printed they come within 0.00001 mm of "
        "the model's."
    )


def _left_out() -> None:
    st.header("What is left out", anchor=False)
    lines = ((each.what, each.size, each.advice) for each in LEFT_OUT)
    table(table_of_words("What the model leaves out, with sizes", ("What", "How much", "What to do"), lines))
    st.caption("Sizes were computed by hand beside the program; the advice is common practice, no source.")


def _unknowns() -> None:
    st.header("What nobody measures", anchor=False)
    table(
        list_unknowns(UNKNOWNS, caption="Every quantity that is only assumed, with its range and the reason")
    )
    st.caption("Each stands once, whichever screen assumes it. *Set the cone* changes the ranges of a hub.")


def _equations() -> None:
    """Draw every equation with its words and its source."""
    st.header("Equations", anchor=False)
    for topic, group in groupby(EQUATIONS, key=lambda each: each.topic):
        with st.expander(topic):
            for each in group:
                st.markdown(for_page(each.words))
                st.latex(each.latex)
                st.caption("Derived." if each.source == "derived" else f"{for_page(SOURCES[each.source])}.")


def _sources() -> None:
    st.header("Sources", anchor=False)
    for key, text in SOURCES.items():
        st.markdown(f"- **{key}**: {for_page(text)}")
