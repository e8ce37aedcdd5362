"""The tables of a study of many hubs, each declared once: for CSV, JSON, a terminal and a page."""

from collections.abc import Iterable, Iterator

from conemodel.base.table import Column, Table, Words, table_of_words
from conemodel.base.units import DEG, MM, MPA, NEWTON, NEWTON_METRE, ONE, PERCENT, UM
from conemodel.parts.crowd import Crowd
from conemodel.show.formatting import number
from conemodel.show.population.wording import (
    ASSUMED,
    percent,
    shape_words,
    spread_words,
    turn_words,
    unbroken_percent,
)
from conemodel.tasks.population.histograms import BackOffCurve
from conemodel.tasks.population.sampling import Drawn
from conemodel.tasks.population.sobol import Influence
from conemodel.tasks.population.study import Group, ManyHubs, Tool

STATES = ("tight", "right", "loose")
"""Words for the states -1, 0 and 1 of a drawn hub, in order."""


def list_hubs(crowd: Crowd, parts: Iterable[Drawn]) -> Table[Drawn]:
    """Return the table of every hub of a study, drawn in parts that may come one by one."""
    names = crowd.population.hubs.files
    columns: tuple[Column[Drawn], ...] = (
        Column(lambda hubs: [names[kind] for kind in hubs.kind.tolist()], key="kind"),
        Column(lambda hubs: hubs.back_off, DEG, "back_off_deg"),
        Column(lambda hubs: hubs.drift, DEG, "drift_deg"),
        Column(lambda hubs: hubs.finger_torque, NEWTON_METRE, "finger_torque_nm"),
        Column(lambda hubs: hubs.lock_torque, NEWTON_METRE, "lock_torque_nm"),
        Column(lambda hubs: hubs.thread_slack, UM, "thread_slack_um"),
        Column(lambda hubs: hubs.thread_give, ONE, "thread_give"),
        Column(lambda hubs: hubs.thread_bridging, ONE, "thread_bridging"),
        Column(lambda hubs: hubs.thread_friction, ONE, "thread_friction"),
        Column(lambda hubs: hubs.face_friction, ONE, "face_friction"),
        Column(lambda hubs: hubs.groove, ONE, "groove"),
        Column(lambda hubs: hubs.clamp_force, NEWTON, "clamp_force_n"),
        Column(lambda hubs: hubs.end_play, MM, "end_play_clamped_mm"),
        Column(lambda hubs: hubs.preload, NEWTON, "preload_clamped_n"),
        Column(lambda hubs: hubs.cone_pressure, MPA, "cone_pressure_clamped_mpa"),
        Column(lambda hubs: hubs.tight_edge, MM, "tight_edge_mm"),
        Column(lambda hubs: hubs.loose_edge, MM, "loose_edge_mm"),
        Column(lambda hubs: [STATES[state + 1] for state in hubs.state.tolist()], key="state"),
    )
    return Table(columns, parts)


_GROUPS: tuple[Column[Group], ...] = (
    Column(lambda group: group.name, key="name", text="hub", page="Hub", left=True),
    Column(lambda group: group.number, key="hubs", text="hubs", page="Hubs", say="{:,}".format),
    Column(lambda group: group.shares.loose, key="loose", page="Loose", say=unbroken_percent),
    Column(lambda group: group.shares.right, key="right", page="Right", say=unbroken_percent),
    Column(lambda group: group.shares.tight, key="tight", page="Tight", say=unbroken_percent),
    Column(lambda group: group.shares.loose, PERCENT, text="loose %", form=".1f"),
    Column(lambda group: group.shares.right, PERCENT, text="right %", form=".1f"),
    Column(lambda group: group.shares.tight, PERCENT, text="tight %", form=".1f"),
    Column(lambda group: group.standard_error, key="right_standard_error"),
    Column(lambda group: group.curve.best[0], DEG, "best_back_off_deg", text="best back-off °", form=".0f"),
    Column(lambda group: f"{DEG.from_si(group.curve.best[0]):.0f}°", page="Best back-off"),
    Column(lambda group: group.curve.best[1], key="right_at_best", page="Then right", say=unbroken_percent),
    Column(lambda group: group.curve.best[1], PERCENT, text="then right %", form=".1f"),
)


def list_groups(study: ManyHubs) -> Table[Group]:
    """Return the table of each kind of hub, and of all together last."""
    caption = "Loose, right and tight by kind of hub, and the best fixed back-off of each"
    return Table(_GROUPS, (*study.kinds, study.all), caption=caption)


_TOOLS: tuple[Column[Tool], ...] = (
    Column(lambda tool: tool.name, key="name"),
    Column(lambda tool: tool.label, key="label", text="with", page="With", left=True),
    Column(lambda tool: tool.right, key="right", page="Right", say=unbroken_percent),
    Column(
        lambda tool: tool.right_by_kind,
        key="right_by_kind",
        page="Each kind its own back-off",
        say=unbroken_percent,
    ),
    Column(lambda tool: tool.right, PERCENT, text="right %", form=".1f"),
    Column(lambda tool: tool.right_by_kind, PERCENT, text="each kind its own %", form=".1f"),
    Column(lambda tool: tool.back_off, DEG, "back_off_deg", text="back-off °", form=".0f"),
    Column(lambda tool: f"{DEG.from_si(tool.back_off):.0f}°", page="Back-off"),
)


def list_tools(study: ManyHubs) -> Table[Tool]:
    """Return the table of what each tool would buy, the plain best back-off first."""
    return Table(_TOOLS, study.tools, caption="Share of hubs in the good range with each tool")


def list_quantiles(group: Group) -> Table[float]:
    """Return the table of what lies above each share of hubs; turned, a line each quantity, for reading."""
    columns: tuple[Column[float], ...] = (
        Column(lambda share: share, key="share"),
        Column(lambda share: f"{share * 100:g} %", text=""),
        Column(lambda share: f"{share * 100:g} % below", page="Clamped"),
        Column(
            lambda share: group.end_play[share],
            MM,
            "end_play_mm",
            text="end play mm",
            page="End play, mm",
            form="+.3f",
        ),
        Column(
            lambda share: group.preload[share],
            NEWTON,
            "preload_n",
            text="preload N",
            page="Preload, N",
            form=".0f",
        ),
        Column(
            lambda share: group.cone_pressure[share],
            MPA,
            "cone_pressure_mpa",
            text="cone pressure MPa",
            page="Pressure on the cone, MPa",
            form=".0f",
        ),
    )
    return Table(columns, list(group.end_play), caption="Values below which a share of all hubs lies")


_INFLUENCES: tuple[Column[Influence], ...] = (
    Column(lambda each: each.name, key="name"),
    Column(lambda each: each.label, key="label", text="input", left=True),
    Column(lambda each: each.first, key="first"),
    Column(lambda each: each.total, key="total"),
    Column(lambda each: number(each.first * 100, 1), text="by itself %"),
    Column(lambda each: number(each.total * 100, 1), text="with others %"),
)


def list_influences(influences: Iterable[Influence]) -> Table[Influence]:
    """Return the table of the inputs, most important first."""
    return Table(_INFLUENCES, influences)


def list_back_offs(group: Group) -> Table[BackOffCurve]:
    """Return the table of the shares of hubs that each degree of back-off leaves loose, right and tight."""
    columns: tuple[Column[BackOffCurve], ...] = (
        Column(lambda curve: curve.angle, DEG, "back_off_deg"),
        Column(lambda curve: curve.loose, ONE, "loose"),
        Column(lambda curve: curve.right, ONE, "right"),
        Column(lambda curve: curve.tight, ONE, "tight"),
    )
    return Table(columns, (group.curve,))


def list_assumptions(crowd: Crowd, *, technique: str, contact: str) -> Table[Words]:
    """Return the table of every assumption of a population: what, its value, how that spreads, and why it is taken.

    `technique`: how the cone is locked, `contact`: what finger contact is found with, both in words.
    """
    told = (*_known(crowd, technique, contact), *_spread(crowd))
    return table_of_words("Every assumption, with its reason", ("What", "Value", "Spread", "Because"), told)


def _known(crowd: Crowd, technique: str, contact: str) -> Iterator[Words]:
    """Yield what does not spread."""
    hubs, hands, tools = crowd.population.hubs, crowd.population.hands, crowd.population.tools
    for kind, share in zip(crowd.kinds, crowd.shares, strict=True):
        yield f"share of hubs: {kind.name}", percent(share), "known", hubs.because
    known = (
        ("cone turned out from finger contact", turn_words(hands.back_off), "where the slider starts"),
        ("how it is locked", technique, "the axle stands in a vice"),
        (
            "finger contact found with",
            contact,
            "snug, the cone falls back by its thread's slack when it is backed off",
        ),
        ("first try before a dial gauge is read", turn_words(tools.first_back_off), "it must leave play"),
    )
    for what, value, because in known:
        yield what, value, "known", because


def _spread(crowd: Crowd) -> Iterator[Words]:
    """Yield what spreads."""
    for where, spread in crowd.population.assumptions:
        yield ASSUMED[where], spread_words(spread), shape_words(spread), spread.because
