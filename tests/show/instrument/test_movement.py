"""What moves on the drawing: read off the paths, a drawn gap is the end play times the one factor of its hub.

The source of every expected number is geometry, and the end play that the core computes.
"""

import functools
import itertools

import numpy as np
import pytest

from conemodel.base.units import MM
from conemodel.parts.toml_files import load_scenario
from conemodel.show.instrument.drawing_of import DIAL_END, FACTORS, ROOM, drawing_of
from conemodel.show.instrument.thread import MOST_SLACK
from conemodel.solve.stages.terms import setting_terms
from conemodel.tasks.setting.travel import axle_end_moves
from tests.show.instrument.drawn import (
    STAGES,
    drawn_gap,
    group_of,
    outlines,
    part_of,
    placed,
    random_hub,
    scenario_of,
)

SEEDS = range(50)


@functools.cache
def touring(root):
    return load_scenario(root / "scenarios" / "touring-rear.toml")


@functools.cache
def random_drawing(root, seed):
    scenario = random_hub(touring(root), seed)
    terms = setting_terms(scenario)
    return scenario, drawing_of(scenario), [MM.from_si(terms.end_play(stage)) for stage in STAGES]


@pytest.mark.parametrize("seed", SEEDS)
def test_a_drawn_gap_is_the_play_times_the_factor(root, seed):
    _, drawing, plays = random_drawing(root, seed)
    for play in plays:
        gap = drawn_gap(drawing, {"cone": play, "clamp": 1.0, "off": 0.5})
        assert gap == pytest.approx(drawing.factor * play, abs=1e-6)


def test_the_order_of_drawn_gaps_is_that_of_the_plays(root):
    for seed in SEEDS:
        _, drawing, plays = random_drawing(root, seed)
        gaps = [drawn_gap(drawing, {"cone": play}) for play in plays]
        assert np.argsort(gaps, kind="stable").tolist() == np.argsort(plays, kind="stable").tolist()


def test_pushing_the_wheel_by_all_the_play_brings_the_ball_to_the_race(root):
    drawing = drawing_of(touring(root))
    assert drawn_gap(drawing, {"cone": 0.2, "rocked": 0.2}) == pytest.approx(0, abs=1e-9)
    assert drawn_gap(drawing, {"cone": 0.2, "rocked": 0.1}) == pytest.approx(0.1 * drawing.factor, abs=1e-9)


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_wheel_whose_rim_leans_to_the_adjusted_side_touches_at_its_upper_ball(root, side):
    """Statics: a rim pushed over lowers the hub's end on that side, and with it the cup over the upper ball."""
    touring_hub = touring(root)
    whole = drawing_of(touring_hub.replace(hub=touring_hub.hub.replace(adjustable_side=side))).plates["whole"]
    out = {"left": -1, "right": 1}[side]
    for rim, up in (("rim top", 1), ("rim bottom", -1)):
        assert np.sign(group_of(whole, rim).move["sway"]) == up * out
    # clockwise on screen takes what is above the middle to the right
    assert np.sign(group_of(whole, "wheel").turn["sway"]) == out


def test_the_factor_is_the_largest_at_which_the_play_at_the_dials_end_has_room(root):
    for seed in SEEDS:
        scenario, drawing, _ = random_drawing(root, seed)
        play = setting_terms(scenario.with_setting(back_off=DIAL_END)).end_play("backed_off")
        room = ROOM * scenario.hub.left.ball_diameter
        assert drawing.factor * play <= room
        larger = [factor for factor in FACTORS if factor > drawing.factor]
        assert all(factor * play > room for factor in larger)


@pytest.mark.parametrize("turn", [0.0, 0.5, 1.0, 2.0])
def test_a_cone_that_ran_in_with_its_locknut_stays_on_the_rule_and_in_view(root, turn):
    scenario = scenario_of(root, "unkeyed-locknut").with_setting(cone_held=False, back_off=turn)
    drawing, terms = drawing_of(scenario), setting_terms(scenario)
    held = drawing_of(scenario.with_setting(cone_held=True))
    assert drawing.factor < held.factor
    left, _, width, _ = drawing.plates["close"].view
    for stage in STAGES:
        play = MM.from_si(terms.end_play(stage))
        assert drawing.rule.tightest <= play <= drawing.rule.loosest
        cone = placed(drawing.plates["close"], "cone", {"cone": play})[:, 0]
        assert left < cone.min()
        assert cone.max() < left + width


def test_one_factor_serves_every_setting_of_a_hub(root):
    drawings = [
        drawing_of(touring(root).with_setting(back_off=turn, lock_torque=torque))
        for turn, torque in ((-0.5, 10.0), (0.0, 15.0), (2.0, 20.0))
    ]
    assert len({drawing.factor for drawing in drawings}) == 1
    assert len({str(drawing.as_json()["sheets"]) for drawing in drawings}) == 1


@pytest.mark.parametrize("seed", range(0, 50, 5))
def test_the_comb_stays_on_the_thread_while_the_cones_body_slides(root, seed):
    scenario, drawing, _ = random_drawing(root, seed)
    plate = drawing.plates["close"]
    for state in ({"clamp": 0.0}, {"clamp": 1.0}):
        teeth = [placed(plate, "cone-teeth", state | {"cone": play}) for play in (-0.1, 0.0, 0.3)]
        assert np.allclose(teeth[0], teeth[1])
        assert np.allclose(teeth[1], teeth[2])
    shortened = MM.from_si(axle_end_moves(scenario, setting_terms(scenario).clamp)) * drawing.factor
    moved = placed(plate, "axle", {"clamp": 1.0})[0, 0] - placed(plate, "axle", {})[0, 0]
    assert moved == pytest.approx(-drawing.out * shortened, abs=1e-9)


@pytest.mark.parametrize("seed", range(0, 50, 5))
@pytest.mark.parametrize("name", ["cone", "nut"])
def test_teeth_meet_the_axles_on_the_flank_that_carries_and_never_overlap(root, seed, name):
    """Slack between two flanks that face each other is the same at every radius, so one height tells all."""
    scenario, drawing, _ = random_drawing(root, seed)
    plate, slack = drawing.plates["close"], MM.from_si(scenario.axle.backlash) * drawing.factor
    lead = MM.from_si(scenario.axle.thread_pitch) * drawing.thread_coarser
    slack = min(slack, MOST_SLACK * lead)
    y = placed(plate, "axle", {})[:, 1].min() + 0.4  # inside the axle's crests and the comb's tips
    axle = crossings(placed(plate, "axle", {}), y)
    for flank, outboard in ((-1.0, 0.0), (1.0, slack), (0.0, slack / 2)):
        comb = crossings(placed(plate, f"{name}-teeth", {f"{name}_flank": flank}), y)
        left, right = min(
            zip(comb[::2], comb[1::2], strict=True), key=lambda tooth: abs(tooth[0] - drawing.out * 9)
        )
        room = {
            -1: left - max(x for x in axle if x < left + 0.02),
            1: min(x for x in axle if x > right - 0.02) - right,
        }
        assert room[drawing.out] == pytest.approx(outboard, abs=0.03)
        assert room[-drawing.out] == pytest.approx(slack - outboard, abs=0.03)


def crossings(line, y):
    """Return where a line crosses a height, from left to right."""
    found = [
        x0 + (x1 - x0) * (y - y0) / (y1 - y0)
        for (x0, y0), (x1, y1) in itertools.pairwise(line)
        if (y0 - y) * (y1 - y) < 0
    ]
    return sorted(found)


@pytest.mark.parametrize("sheet", ["close"])
def test_the_other_side_is_the_mirror_image(root, sheet):
    scenario = touring(root)
    left, right = (
        drawing_of(scenario.replace(hub=scenario.hub.replace(adjustable_side=side)), good=(-2e-5, 1e-5))
        for side in ("left", "right")
    )
    assert left.factor == right.factor
    assert left.rule.zero == pytest.approx(-right.rule.zero)
    for one, other in zip(left.plates[sheet].groups, right.plates[sheet].groups, strict=True):
        assert one.name == other.name
        assert {k: -v for k, v in one.move.items()} == pytest.approx(dict(other.move))
        for part, twin in zip(one.parts, other.parts, strict=True):
            for line, mirrored in zip(outlines(part.d), outlines(twin.d), strict=True):
                assert np.allclose(line * [-1, 1], mirrored, atol=0.011)


def test_the_dial_is_not_mirrored_because_both_threads_are_right_handed(root):
    scenario = touring(root)
    dials = [
        drawing_of(scenario.replace(hub=scenario.hub.replace(adjustable_side=side)), good_arc=(1.0, 1.2))
        for side in ("left", "right")
    ]
    assert dials[0].plates["dial"].as_json() == dials[1].plates["dial"].as_json()
    cone, nut = (group_of(dials[0].plates["dial"], name) for name in ("cone", "nut"))
    # out is anticlockwise, tightening a nut clockwise: common practice, no source
    assert cone.turn["angle"] < 0 < nut.turn["nut"]


def test_the_good_arc_lies_where_the_cone_stands_at_those_angles(root):
    drawing = drawing_of(touring(root), good_arc=(np.radians(40), np.radians(70)))
    _, part = part_of(drawing.plates["dial"], "good")
    points = outlines(part.d)[0]
    turned = np.degrees(np.arctan2(points[:, 0], -points[:, 1]))
    assert turned.min() == pytest.approx(-70, abs=0.1)
    assert turned.max() == pytest.approx(-40, abs=0.1)
