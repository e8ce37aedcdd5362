"""One drawing of a hub for all its settings and stages."""

from math import pi

import numpy as np

from conemodel.base.units import DEG, MM
from conemodel.parts.scenario import Scenario
from conemodel.physics.packing import balls_that_fit
from conemodel.show.instrument.close import close_plate
from conemodel.show.instrument.close_up import CloseUp, shortened
from conemodel.show.instrument.dial import Arc, dial_plate
from conemodel.show.instrument.drawing import Drawing, Rule
from conemodel.show.instrument.faults import dents_of
from conemodel.show.instrument.measures import Half, half_of
from conemodel.show.instrument.paths import Place
from conemodel.show.instrument.rule_scale import PAGE, RuleScale, rule_plate
from conemodel.show.instrument.thread import thread_of
from conemodel.show.instrument.whole import whole_plate
from conemodel.solve.stages.clamp_force import GIVEN
from conemodel.solve.stages.terms import STAGES, setting_terms
from conemodel.tasks.setting.outlook import outlook_of
from conemodel.tasks.setting.travel import axle_end_moves

FACTORS = (50, 20, 10, 5)
"""How many times larger than parts movement may be drawn."""
DIAL_END = 2 * pi / 3
"""How far out the cone is turned at the dial's end, twenty minutes of a clock face [rad]; it fixes the enlargement."""
FURTHEST = 4 * pi / 3
"""How far out the cone is ever turned [rad]."""
ROOM = 1.5
"""Ball diameters that the play at the dial's end may be drawn as."""
ON_RULE = (8.0, -4.0)
"""Loosest and tightest end play on the rule, as drawn beside a ball of 6.35 mm [mm]."""
SMALL_PLAY = 1e-4
"""End play at which play at the rim is compared with it [m]."""


def drawing_of(
    scenario: Scenario,
    *,
    good: tuple[float, float] | None = None,
    good_arc: Arc | None = None,
    factor: int | None = None,
) -> Drawing:
    """Return the drawing of a hub; its setting's turn does not change it.

    Args:
        scenario: the hub.
        good: tight and loose edge of the good range, clamped [m of end play], or None where it may not be seen.
        good_arc: between which angles of the cone the setting is right [rad], or None where it may not be seen.
        factor: how many times larger movement is drawn; the hub's own if None.

    Raises:
        NotConverged: the finger preload cannot be found.
    """
    side = scenario.hub.adjustable_side
    half, terms = half_of(scenario, side), setting_terms(scenario)
    out = -1 if side == "left" else 1
    factor = factor or factor_of(scenario)
    thread, coarser = thread_of(half, slack=MM.from_si(scenario.axle.backlash), factor=factor)
    near = shortened(half)
    close = CloseUp(
        half=near,
        broken=near != half,
        place=Place(0.0, out),
        thread=thread,
        factor=factor,
        shortens=MM.from_si(axle_end_moves(scenario, terms.clamp)),
        most=MM.from_si(FURTHEST * scenario.axle.lead_per_radian),
        force=f"{'' if terms.clamp.source == GIVEN else '≈ '}{_kilonewtons(terms.clamp.force)}",
        dents=dents_of(scenario, side),
        good=None if good is None else (MM.from_si(good[0]), MM.from_si(good[1])),
    )
    row = getattr(scenario.hub, side)
    fits = int(balls_that_fit(ball_diameter=row.ball_diameter, pitch_diameter=row.pitch_diameter))
    places = row.ball_count + 1 if row.ball_count < fits else row.ball_count
    arc = None if good_arc is None else (DEG.from_si(good_arc[0]), DEG.from_si(good_arc[1]))
    loosest, tightest = rule_ends(half, factor)
    rule = Rule(zero=out * half.contact[0], loosest=loosest, tightest=tightest)
    scale = RuleScale(rule=rule, factor=factor, out=out, spacing=PAGE)
    return Drawing(
        side=side,
        factor=factor,
        thread_coarser=coarser,
        plates={
            "close": close_plate(close),
            "whole": whole_plate(scenario, factor=factor, rim_play=_rim_play(scenario)),
            "dial": dial_plate(half, balls=(row.ball_count, places), good=arc),
            "rule": rule_plate(scale, close.good),
        },
        rule=rule,
    )


def rule_ends(half: Half, factor: int) -> tuple[float, float]:
    """Return the loosest and the tightest end play on the rule of a side, enlarged by `factor` [mm]."""
    loosest, tightest = (end / factor * half.scale for end in ON_RULE)
    return loosest, tightest


def factor_of(scenario: Scenario) -> int:
    """Return the enlargement of a hub's movement: the largest at which what the dial's end leads to has room.

    That is the play there, and the squeeze of a cone that nobody held and that ran in with its locknut.
    """
    terms = setting_terms(scenario.with_setting(back_off=DIAL_END))
    plays = [MM.from_si(terms.end_play(stage)) for stage in STAGES]
    half = half_of(scenario, scenario.hub.adjustable_side)
    most = ROOM * half.ball / max(plays)
    fits = (factor for factor in FACTORS if factor <= most and rule_ends(half, factor)[1] <= min(plays))
    return next(fits, FACTORS[-1])


def _kilonewtons(force: float) -> str:
    """Return a force [N] in kN, to two figures: no clamp is known better."""
    return f"{force / 1e3:.{0 if force >= 9.95e3 else 1}f}".removesuffix(".0") + " kN"


def _rim_play(scenario: Scenario) -> float:
    """Return play at the rim for each of end play [-]."""
    rim, _ = outlook_of(scenario).tables.play_at(np.array([SMALL_PLAY]))
    return float(rim[0]) / SMALL_PLAY
