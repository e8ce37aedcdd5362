"""Travel: what one hub becomes at every stage for the whole range of its cone, and what is to be said of it there."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from conemodel.base.units import DEG, Array
from conemodel.parts.scenario import Scenario
from conemodel.solve.curves.hub_tables import road_load
from conemodel.solve.equilibrium.pair import PairSolution
from conemodel.solve.equilibrium.wheel_positions import solve_positions
from conemodel.solve.stages.clamp import ClampState
from conemodel.solve.stages.inputs import inputs_over
from conemodel.solve.stages.locknut import SHARE_OF_NUT, other_side
from conemodel.solve.stages.terms import STAGES, SettingTerms, pair_of, setting_terms
from conemodel.tasks.setting.advice import SEEN
from conemodel.tasks.setting.answers_over import Run, answers_over
from conemodel.tasks.setting.drawn_hubs import DrawnHubs
from conemodel.tasks.setting.felt_curve import FeltCurve, felt_curve
from conemodel.tasks.setting.good_range import Window
from conemodel.tasks.setting.outlook import outlook_of

TRAVEL = DEG.to_si(-60.0), DEG.to_si(240.0)
"""Cone positions that are covered, out from finger contact [rad]: well past too tight and past any back-off taught."""

STEP = DEG.to_si(2.5)
"""Distance of the positions, at most [rad]."""

MOST_MISSED = 0.5e-6
"""By how much a straight line between two positions may miss an end play [m]."""

LEFT_OUT = 0.1
"""Share of the drawn hubs beyond either end of what is called assumed [-]: 80 % lie within."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Travel:
    """One hub over the position of its cone, whatever back-off its scenario has.

    Attributes:
        cone_angle: turned out from finger contact, evenly from first to last of `TRAVEL` (n,) [rad].
        end_play: by stage, signed, at each position (n,) [m]; straight lines between positions serve.
        felt: preload and free play over end play, without load.
        window: the good range.
        assumed: by stage, how far below and above `end_play` what nobody measured may put it [m]: 80 % of the drawn
            hubs lie between, each measured against its own good range.
        unmeasured: what nobody measured, in words, what matters most first.
        axle_end_moves: how far the clamp moves the axle's end on the adjustable side inboard [m].
        took: by stage, what took or gave play, in words.
        ball_load: on the most loaded ball under the rider, over the end plays of `felt` (k,) [N].
        runs: what is to be said, position after position; the first begins at the first position.
    """

    cone_angle: Array
    end_play: Mapping[str, Array]
    felt: FeltCurve
    window: Window
    assumed: Mapping[str, tuple[float, float]]
    unmeasured: tuple[str, ...]
    axle_end_moves: float
    took: Mapping[str, str]
    ball_load: Array
    runs: tuple[Run, ...]


def travel_of(scenario: Scenario) -> Travel:
    """Return what a scenario's hub becomes for the whole range of its cone.

    Raises:
        NotConverged: no balance of forces was found.

    >>> from conemodel.parts.toml_files import load_scenario
    >>> travel = travel_of(load_scenario("scenarios/touring-rear.toml"))
    >>> travel.runs[0].verdict.state, travel.runs[-1].verdict.state
    ('tight', 'loose')
    """
    hub = scenario.with_setting(back_off=0.0)
    outlook, pair, terms = outlook_of(hub), pair_of(hub), setting_terms(hub)
    angle = _positions(hub, terms)
    over = setting_terms(hub, inputs_over(hub, back_off=angle))
    end_play = {name: np.broadcast_to(over.end_play(name), angle.shape) for name in STAGES}
    tight, loose = (float(end(list(end_play.values()))) for end in (np.min, np.max))
    felt = felt_curve(hub, pair, outlook.tables, tight=tight, loose=loose, ridden=False)
    ridden = felt
    if terms.lengths["ridden"]:
        ridden = felt_curve(hub, pair, outlook.tables, tight=tight, loose=loose, ridden=True)
    return Travel(
        cone_angle=angle,
        end_play=end_play,
        felt=felt,
        window=outlook.window,
        assumed=assumed_ends(outlook.drawn, {name: terms.end_play(name) for name in STAGES}, outlook.window),
        unmeasured=tuple(each.label for each in outlook.spreads(0.0) if each.width > SEEN),
        axle_end_moves=axle_end_moves(hub, terms.clamp),
        took=took_words(hub, terms),
        ball_load=most_loaded(
            solve_positions(pair, end_play=felt.end_play, load=road_load(hub.wheel, side=True))
        ),
        runs=answers_over(hub, outlook, {"clamped": felt, "ridden": ridden}, ends=TRAVEL),
    )


def took_words(scenario: Scenario, terms: SettingTerms[float]) -> dict[str, str]:
    """Return what took or gave play in each stage that did, in words; a stage that changed nothing is left out."""
    changed = {name: sum(each.values()) for name, each in terms.lengths.items()}
    handle = scenario.clamp.traits.taker
    riding = " and ".join(_RIDING[key] for key in terms.lengths["ridden"])
    locks = "cone" if SHARE_OF_NUT[scenario.setting.technique] == 0.0 else "nut"
    doers = {"locked": locks, "clamped": handle, "ridden": riding}
    words = {
        name: f"{doer} {'took' if changed[name] < 0 else 'gave'}" for name, doer in doers.items() if doer
    }
    return {"contact": "fingers squeezed", "backed_off": "you turned", **words}


_RIDING = {"heat": "heat", "cup_moved": "cups that crept"}
"""Who takes play in riding, by the term."""


def most_loaded(solution: PairSolution) -> Array:
    """Return the load of the most loaded ball of both rows at any position of the wheel [N], for each case."""
    rows = (solution.left, solution.right)
    return np.asarray(np.max([row.ball_load.max(axis=(-2, -1)) for row in rows], axis=0))


def _positions(scenario: Scenario, terms: SettingTerms[float]) -> Array:
    """Return positions of the cone [rad], close enough where end play does not run straight over them."""
    low, high = TRAVEL
    step = STEP
    if terms.joint.runs_in:
        # where the balls begin to stop it its curve is bent: there the line of a step misses by a quarter of it
        step = min(step, 4 * MOST_MISSED / scenario.axle.lead_per_radian)
    return np.linspace(low, high, 1 + int(np.ceil((high - low) / step)))


def axle_end_moves(scenario: Scenario, clamp: ClampState[float]) -> float:
    """Return how far the clamp moves the axle's end on the adjustable side inboard [m], the far cone on its balls.

    The axle is shortened between the cones, and slides outboard through the far cone by what its thread gives.
    """
    return clamp.shortening + clamp.sides[other_side(scenario.hub.adjustable_side)].push


def assumed_ends(
    drawn: DrawnHubs, end_play: Mapping[str, float], window: Window
) -> dict[str, tuple[float, float]]:
    """Return by stage how far below and above its `end_play` what nobody measured may put it [m].

    The high end tells how far each drawn hub is from its own loose edge, the low end from its own tight edge: so the
    span reaches beyond an edge of the hub's own range where more than `LEFT_OUT` of the drawn hubs do.
    """
    found = {}
    for name, nominal in end_play.items():
        plays = drawn.end_plays[name]
        low = np.quantile(plays - drawn.tight_edge, LEFT_OUT) - (nominal - window.tight_edge)
        high = np.quantile(plays - drawn.loose_edge, 1 - LEFT_OUT) - (nominal - window.loose_edge)
        found[name] = (float(min(low, high)), float(max(low, high)))
    return found
