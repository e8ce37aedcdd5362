"""Studies of many hubs as text for a terminal: the answer first, the assumptions last."""

import textwrap
from collections.abc import Sequence

from conemodel.base.plain_text import one_line
from conemodel.base.units import DEG
from conemodel.show.population.tables import list_groups, list_influences, list_quantiles, list_tools
from conemodel.show.population.wording import percent, spread_words, turn_words
from conemodel.show.setting.text import WIDTH
from conemodel.show.tables import table_text
from conemodel.tasks.population.sobol import Influence
from conemodel.tasks.population.study import ManyHubs

NO_BLIND_RECIPE = (
    "A fixed back-off is a first try. What decides is the play felt with the clamp closed, and the turn made "
    "after that."
)
"""Stands below every study."""


def many_text(study: ManyHubs, influences: Sequence[Influence]) -> str:
    """Return a study as text: how often the back-off lands, for which hub, what would help, what matters."""
    return "\n\n".join(
        (
            one_line(study.crowd.population.name),
            textwrap.fill(headline(study), WIDTH),
            "By kind of hub\n" + table_text(list_groups(study)),
            "Clamped, by share of all hubs below\n" + table_text(list_quantiles(study.all), turned=True),
            "What a tool would buy\n" + table_text(list_tools(study)),
            "What matters, by share of the variance of the clamped end play\n"
            + table_text(list_influences(influences)),
            "Assumed, all of it in the population's file\n" + _assumptions(study),
            textwrap.fill(" ".join((NO_BLIND_RECIPE, *_beyond(study))), WIDTH),
        )
    )


def headline(study: ManyHubs) -> str:
    """Return the answer in two sentences."""
    shares, error = study.all.shares, study.all.standard_error
    angle = study.back_off
    best, right = study.all.curve.best
    return (
        f"Backed off {turn_words(angle)}, {percent(shares.right, error)} of {study.all.number:,} hubs land in the "
        f"good range once clamped; {percent(shares.loose)} are loose and {percent(shares.tight)} tight. The best "
        f"fixed back-off for all of them together is {DEG.from_si(best):.0f}°: {percent(right)} right."
    )


def _assumptions(study: ManyHubs) -> str:
    """Return one line for each spread, with its reason."""
    lines = (
        f"{where}, {spread_words(spread)}, {spread.shape if spread.low < spread.high else 'known'}: {spread.because}"
        for where, spread in study.crowd.population.assumptions
    )
    return "\n".join(
        textwrap.fill(line, WIDTH, initial_indent="- ", subsequent_indent="  ") for line in lines
    )


def _beyond(study: ManyHubs) -> Sequence[str]:
    """Return a warning where some hubs are tighter than the tables reach."""
    if study.beyond == 0:
        return ()
    return (
        f"{percent(study.beyond)} of the hubs are tighter than was solved for; their preload is higher still.",
    )
