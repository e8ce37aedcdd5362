"""Faults stand where they are."""

import itertools

import numpy as np
import pytest

from conemodel.parts.hub import SIDES
from conemodel.show.instrument.drawing_of import drawing_of
from tests.show.instrument.drawn import group_of, names, outlines, part_of, placed, scenario_of

FAULTS = ("dent", "dent-mark", "bent", "ball-missing", "proud")


def test_a_sound_hub_shows_no_fault(root):
    for plate in drawing_of(scenario_of(root, "touring-rear")).plates.values():
        assert not set(FAULTS) & set(names(plate))


def test_a_dented_track_is_marked_on_its_race_and_its_side(root):
    cone, cup = (drawing_of(scenario_of(root, name)) for name in ("dented-cone", "pitted-cup"))
    group, dent = part_of(cone.plates["close"], "dent")
    assert dent.title == "dented track of the left cone"
    assert group.move == group_of(cone.plates["close"], "cone").move
    hollow = outlines(dent.d)[0]
    assert abs(hollow[:, 0].mean() - cone.rule.zero) < 0.5
    # the right cup is not on the close view of the left side
    assert "dent" not in names(cup.plates["close"])
    _, far = part_of(cup.plates["whole"], "dent")
    assert far.title == "dented track of the right cup"
    assert outlines(far.d)[0][:, 0].mean() > 30


def test_a_bent_axle_leans_on_its_side_and_carries_its_stack_with_it(root):
    straight, bent = (
        drawing_of(scenario_of(root, name)).plates["whole"] for name in ("touring-rear", "bent-axle")
    )
    axles = [placed(plate, "axle", {}) for plate in (straight, bent)]
    low = [axle[axle[:, 0] < -60] for axle in axles]
    assert abs(low[0][:, 1].mean() - low[1][:, 1].mean()) > 0.5
    right = [axle[axle[:, 0] > 60] for axle in axles]
    assert np.allclose(right[0], right[1], atol=0.1)
    nuts = [outlines(part.d)[0] for part in group_of(bent, "nut").parts if part.name == "locknut"]
    assert np.ptp(nuts[1][:, 0]) > np.ptp(nuts[1][:2, 0]) > 0
    assert "bent" in names(bent)


def test_one_ball_short_leaves_its_place_empty(root):
    dial = drawing_of(scenario_of(root, "one-ball-short")).plates["dial"]
    _, missing = part_of(dial, "ball-missing")
    assert len(outlines(missing.d)) == 1


def test_a_worn_thread_has_thin_round_teeth(root):
    sound, worn = (drawing_of(scenario_of(root, name)) for name in ("touring-rear", "worn-thread"))
    assert worn.thread_coarser > sound.thread_coarser
    share = []
    for drawing in (sound, worn):
        axle = placed(drawing.plates["close"], "axle", {})
        height = -axle[:, 1].min() - 0.3
        wide = [(x0, x1) for (x0, y0), (x1, y1) in itertools.pairwise(axle) if -y0 > height < -y1]
        share.append(np.mean([abs(x1 - x0) for x0, x1 in wide]) / drawing.thread_coarser)
    assert share[1] < share[0]


def test_a_proud_axle_is_red_at_both_faces_and_the_clamp_stands_off_the_dropouts(root):
    scenario = scenario_of(root, "proud-axle")
    plate = drawing_of(scenario).plates["whole"]
    for side in SIDES:
        assert group_of(plate, f"proud {side}").when == ("locked", "clamped", "ridden")
    clamp, dropout = (placed(plate, name, {"clamp": 1.0, "lever": 1.0}) for name in ("clamp", "dropout"))
    stands_out = 1e3 * (scenario.stack.left.protrusion - scenario.frame.dropout_thickness)
    assert stands_out > 0
    assert dropout[:, 0].min() - clamp[:, 0].max() == pytest.approx(stands_out, abs=0.11)
