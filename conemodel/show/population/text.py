"""Studies of many hubs as text for a terminal: the answer first, the assumptions last."""

import textwrap
from collections.abc import Sequence

from conemodel.base.units import DEG, MM, MPA, NEWTON
from conemodel.parts import unknowns
from conemodel.show.formatting import MINUS, number
from conemodel.show.population.rows import Line, assumptions_rows
from conemodel.show.setting.text import WIDTH, table
from conemodel.tasks.population.sobol import Influence
from conemodel.tasks.population.study import Group, ManyHubs
from conemodel.tasks.wording import direction, fraction_of_turn

NO_BLIND_RECIPE = (
    "A fixed back-off is a first try. What decides is the play felt with the clamp closed, and the turn made "
    "after that."
)
"""Stands below every study."""


ASSUMED = {
    "hands.finger_torque": unknowns.FINGER_TORQUE.words,
    "hands.back_off_error": unknowns.BACK_OFF_ERROR.words,
    "hands.drift": unknowns.DRIFT.words,
    "hands.lock_torque": unknowns.LOCK_TORQUE.words,
    "threads.fit": f"{unknowns.THREAD_FIT.words}: 0 the tightest allowed, 1 the loosest",
    "threads.give": f"{unknowns.CORE_SHARE.words}, part of their core's stretch",
    "threads.friction": "friction in the threads",
    "face_friction": "friction under the locknut",
    "groove": f"{unknowns.GROOVE.words}, in ball diameters",
    "clamp_force.quick_release": unknowns.CLAMP_FORCE.words,
    "clamp_force.nuts": unknowns.NUT_FORCE.words,
    "clamp_force.thru_axle": unknowns.THRU_AXLE_FORCE.words,
    "tools.keyed_washer": unknowns.KEY_CLEARANCE.words,
    "tools.feeler": unknowns.FEELER_ERROR.words,
    "tools.dial_gauge": unknowns.DIAL_ERROR.words,
}
"""What each spread is of, by its place in the file."""


def many_text(study: ManyHubs, influences: Sequence[Influence]) -> str:
    """Return a study as text: how often the back-off lands, for which hub, what would help, what matters."""
    return "\n\n".join(
        (
            study.crowd.population.name,
            textwrap.fill(headline(study), WIDTH),
            "By kind of hub\n" + _kinds(study),
            "Clamped, by share of all hubs below\n" + _quantiles(study.all),
            "What a tool would buy\n" + _tools(study),
            "What matters, by share of the variance of the clamped end play\n" + _influences(influences),
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


def turn_words(angle: float) -> str:
    """Return a back-off [rad] in degrees and as a fraction of a turn, with its way where it is inwards."""
    way = "" if angle >= 0 else f" {direction(angle)}"
    return f"{DEG.from_si(abs(angle)):.0f}° ({fraction_of_turn(angle)}){way}"


def spread_words(row: Line) -> str:
    """Return the ends of a spread with their unit, from its row of the assumptions.

    >>> (
    ...     spread_words({"low": -10.0, "high": 10.0, "unit": "°"}),
    ...     spread_words({"low": 0.0, "high": 1.0, "unit": ""}),
    ... )
    ('−10° to 10°', '0 to 1')
    """
    low, unit = f"{row['low']:g}".replace("-", MINUS), row["unit"]
    return f"{low}{unit if unit == '°' else ''} to {_with_unit(row['high'], unit)}"


def shape_words(row: Line) -> str:
    """Return how likely the values of a spread are, from its row of the assumptions.

    >>> shape_words({"shape": "peaked", "likeliest": 3.0, "unit": "°"})
    'likeliest 3°'
    """
    if row["shape"] == "peaked":
        return f"likeliest {_with_unit(row['likeliest'], row['unit'])}"
    return {"even": "all equally likely", "bell": "likeliest in the middle", "known": "known"}[row["shape"]]


def _with_unit(value: float, unit: str) -> str:
    gap = "" if unit in ("", "°") else " "
    return f"{value:g}{gap}{unit}".replace("-", MINUS)


def percent(share: float, error: float = 0.0) -> str:
    """Return a share in percent, with what chance leaves open where that is given.

    >>> percent(0.0788, 0.0009), percent(0.74)
    ('7.9 ± 0.2 %', '74.0 %')
    """
    return f"{share * 100:.1f} ± {2 * error * 100:.1g} %" if error > 0 else f"{share * 100:.1f} %"


def _kinds(study: ManyHubs) -> str:
    """Return one line for each kind of hub and one for all."""
    head = ("hub", "hubs", "loose %", "right %", "tight %", "best back-off °", "then right %")
    rows = [
        (
            group.name,
            f"{group.number}",
            f"{group.shares.loose * 100:.1f}",
            f"{group.shares.right * 100:.1f}",
            f"{group.shares.tight * 100:.1f}",
            f"{DEG.from_si(group.curve.best[0]):.0f}",
            f"{group.curve.best[1] * 100:.1f}",
        )
        for group in (*study.kinds, study.all)
    ]
    return table(head, rows)


def _quantiles(group: Group) -> str:
    """Return end play, preload and pressure by share of hubs."""
    head = ("", *(f"{share * 100:g} %" for share in group.end_play))
    rows = [
        ("end play mm", *(f"{MM.from_si(value):+.3f}" for value in group.end_play.values())),
        ("preload N", *(f"{NEWTON.from_si(value):.0f}" for value in group.preload.values())),
        ("cone pressure MPa", *(f"{MPA.from_si(value):.0f}" for value in group.cone_pressure.values())),
    ]
    return table(head, rows)


def _tools(study: ManyHubs) -> str:
    """Return one line for each tool."""
    head = ("with", "right %", "each kind its own %", "back-off °")
    rows = [
        (
            tool.label,
            f"{tool.right * 100:.1f}",
            f"{tool.right_by_kind * 100:.1f}",
            f"{DEG.from_si(tool.back_off):.0f}",
        )
        for tool in study.tools
    ]
    return table(head, rows)


def _influences(influences: Sequence[Influence]) -> str:
    """Return one line for each input."""
    rows = [(each.label, number(each.first * 100, 1), number(each.total * 100, 1)) for each in influences]
    return table(("input", "by itself %", "with others %"), rows)


def _assumptions(study: ManyHubs) -> str:
    """Return one line for each spread, with its reason."""
    lines = (
        f"{row['where']}, {spread_words(row)}, {row['shape']}: {row['because']}"
        for row in assumptions_rows(study.crowd)
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
