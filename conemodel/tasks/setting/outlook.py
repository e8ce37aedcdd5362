"""The outlook of a hub: all about it that does not depend on where its cone stands, what is assumed included."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from conemodel.base.batch_cache import keep_answers
from conemodel.parts.scenario import Scenario
from conemodel.parts.setting import State
from conemodel.solve.curves.hub_tables import HubTables
from conemodel.solve.stages.terms import setting_terms
from conemodel.tasks.headline import Answer
from conemodel.tasks.setting.aim import Aim, aim_of
from conemodel.tasks.setting.assumption import Assumption
from conemodel.tasks.setting.assumptions import assumptions_of
from conemodel.tasks.setting.defects import defects_of
from conemodel.tasks.setting.drawn_hubs import DrawnHubs, Solved, draw_hubs
from conemodel.tasks.setting.good_range import Window, window_in, windows_in
from conemodel.tasks.setting.obstacle import obstacle_of
from conemodel.tasks.setting.safety import dangers_of
from conemodel.tasks.setting.scenario_tables import tables_with_variants


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """One assumption and the turns it leads to.

    Attributes:
        name: stable name; label: in words; span: the assumed range in words.
        low, high: least and most turn it alone leads to, along the axle [m], positive out.
        states: verdict at the low and at the high end of the assumption.
    """

    name: str
    label: str
    span: str
    low: float
    high: float
    states: tuple[State, State]

    @property
    def width(self) -> float:
        """How far it moves the turn [m]."""
        return self.high - self.low


class _Case(NamedTuple):
    """One assumption, and at both its ends the hub as solved."""

    assumption: Assumption
    ends: tuple[Solved, Solved]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """All about a scenario that does not depend on where the cone stands.

    Attributes:
        tables: of its hub; window: its good range.
        cases: every assumption, for a cone where the fingers left it; back-off only adds to the end play.
        drawn: hubs drawn over all assumptions together, their cones where the fingers left them.
        aim: where a turn of the cone should end; obstacle: why no turn helps, None where one may.
        unsafe: reasons not to ride; unsound: what is wrong with the hub itself; most serious first.
    """

    tables: HubTables
    window: Window
    cases: tuple[_Case, ...]
    drawn: DrawnHubs
    aim: Aim
    obstacle: Answer | None
    unsafe: tuple[Answer, ...]
    unsound: tuple[Answer, ...]

    def spreads(self, moved: float) -> tuple[Spread, ...]:
        """Return what each assumption alone does with the cone backed off by `moved` [m], widest first."""
        return tuple(sorted((_spread(case, moved) for case in self.cases), key=lambda spread: -spread.width))


def moved_out(scenario: Scenario) -> float:
    """Return how far the scenario's cone is backed off along the axle [m]; an axle nothing holds turns with it."""
    held = scenario.setting.axle_held != "nothing"
    return scenario.setting.back_off * scenario.axle.lead_per_radian if held else 0.0


def outlook_of(scenario: Scenario) -> Outlook:
    """Return what holds for every position of the cone; it is cached.

    Raises:
        NotConverged: no balance of forces was found.
    """
    return _outlook(scenario.with_setting(back_off=0.0))


@keep_answers(size=64)
def _outlook(scenario: Scenario) -> Outlook:
    """Return the outlook of a scenario whose cone stands where the fingers left it.

    The hub is solved together with its variants: one batch costs little more than one hub.
    """
    assumptions = tuple(assumptions_of(scenario))
    own, *others = solve_with_variants(scenario, [end for each in assumptions for end in each.ends])
    ends = zip(others[::2], others[1::2], strict=True)
    cases = tuple(_Case(*each) for each in zip(assumptions, ends, strict=True))
    drawn, terms = draw_hubs(scenario, own, cases), setting_terms(scenario)
    return Outlook(
        tables=own.tables,
        window=own.window,
        cases=cases,
        drawn=drawn,
        aim=aim_of(drawn),
        obstacle=obstacle_of(scenario, terms, own.window, own.tables),
        unsafe=dangers_of(scenario, terms),
        unsound=tuple(each.answer for each in defects_of(scenario) if each.answer is not None),
    )


def solve_with_variants(scenario: Scenario, variants: Sequence[Scenario]) -> list[Solved]:
    """Return a scenario and its variants as solved, all together.

    Raises:
        NotConverged: no balance of forces was found.
    """
    tables, *others = tables_with_variants(scenario, variants)
    windows = (
        window_in(tables, scenario.limits),
        *windows_in(others, [variant.limits for variant in variants]),
    )
    ridden = (setting_terms(each).judged_end_play for each in (scenario, *variants))
    return [Solved(*each) for each in zip((tables, *others), windows, ridden, strict=True)]


def _spread(case: _Case, moved: float) -> Spread:
    """Return the spread of one assumption for a cone that is `moved` out along the axle [m]."""
    turns = [end.window.target - end.end_play - moved for end in case.ends]
    low, high = (end.window.state(end.end_play + moved) for end in case.ends)
    return Spread(
        name=case.assumption.name,
        label=case.assumption.label,
        span=case.assumption.span,
        low=min(turns),
        high=max(turns),
        states=(low, high),
    )
