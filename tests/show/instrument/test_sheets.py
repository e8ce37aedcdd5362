"""Every sheet of every shipped hub: sound outlines, to the measure of the scenario, light enough to send."""

import functools
import json
import re
import xml.etree.ElementTree as ET

import numpy as np
import pytest

from conemodel.parts.library import SCENARIOS
from conemodel.parts.toml_files import load_scenario
from conemodel.show.instrument.drawing import VARIABLES
from conemodel.show.instrument.drawing_of import drawing_of
from conemodel.show.instrument.paints import COLOURS, PAINTS
from conemodel.show.instrument.still import still_svg
from tests.show.instrument.drawn import STAGES, outlines, part_of, placed

SHEETS = ("close", "whole", "dial")


HUBS = sorted(path.stem for path in SCENARIOS.glob("*.toml"))


@functools.cache
def drawn(root, name):
    scenario = load_scenario(root / "scenarios" / f"{name}.toml")
    return scenario, drawing_of(scenario, good=(-3e-5, 1e-5), good_arc=(1.0, 1.2))


def crosses_itself(line):
    """Tell whether any two sides of a closed outline that are not neighbours cross."""
    a, b = line, np.roll(line, -1, axis=0)
    n = len(a)
    for i in range(n - 2):
        j = np.arange(i + 2, n if i else n - 1)
        d, e = b[i] - a[i], b[j] - a[j]
        cross = d[0] * e[:, 1] - d[1] * e[:, 0]
        w = a[j] - a[i]
        with np.errstate(divide="ignore", invalid="ignore"):
            s = (w[:, 0] * e[:, 1] - w[:, 1] * e[:, 0]) / cross
            t = (w[:, 0] * d[1] - w[:, 1] * d[0]) / cross
        if np.any((cross != 0) & (s > 1e-9) & (s < 1 - 1e-9) & (t > 1e-9) & (t < 1 - 1e-9)):
            return True
    return False


@pytest.mark.parametrize("name", HUBS)
def test_no_outline_crosses_itself(root, name):
    _, drawing = drawn(root, name)
    for plate in drawing.plates.values():
        for group in plate.groups:
            for part in group.parts:
                for line in outlines(part.d):
                    if part.d.endswith("Z"):
                        assert not crosses_itself(line), (group.name, part.name)


@pytest.mark.parametrize("name", HUBS)
def test_every_group_hangs_together(root, name):
    _, drawing = drawn(root, name)
    for plate in drawing.plates.values():
        seen = set()
        for group in plate.groups:
            assert group.name not in seen
            assert group.parent is None or group.parent in seen
            assert group.when is None or set(group.when) <= set(STAGES)
            assert {part.paint for part in group.parts} <= PAINTS.keys()
            assert {*group.move, *group.turn, group.fade} <= VARIABLES.keys() | {None}
            seen.add(group.name)
        assert {label.group for label in plate.labels} <= seen | {None}


@pytest.mark.parametrize("name", HUBS)
def test_the_sheets_are_light_enough_to_send(root, name):
    _, drawing = drawn(root, name)
    assert len(json.dumps(drawing.as_json(), separators=(",", ":"))) < 42_000


def test_every_paint_is_made_of_colours_that_are_there():
    for paint in PAINTS.values():
        used = {paint["fill"], paint["stroke"], paint.get("hatch", {}).get("colour")} - {None}
        assert used <= COLOURS["light"].keys()
    assert COLOURS["light"].keys() == COLOURS["dark"].keys()


@pytest.mark.parametrize("name", HUBS)
def test_the_whole_hub_is_to_the_measure_of_the_scenario(root, name):
    scenario, drawing = drawn(root, name)
    plate = drawing.plates["whole"]
    axle = placed(plate, "axle", {})
    stood_out = sum(scenario.stack.side(side).protrusion for side in ("left", "right"))
    assert np.ptp(axle[:, 0]) == pytest.approx(1e3 * (scenario.hub.over_locknut_width + stood_out), abs=0.11)
    assert axle[:, 1].max() == pytest.approx(500 * scenario.axle.thread_diameter, abs=0.06)
    balls = [
        outlines(part.d)[0].mean(axis=0)
        for group in plate.groups
        for part in group.parts
        if part.name == "ball"
    ]
    assert len(balls) == 2
    assert abs(balls[1][0] - balls[0][0]) == pytest.approx(1e3 * scenario.hub.row_spacing, abs=0.02)
    assert -balls[0][1] == pytest.approx(500 * scenario.hub.left.pitch_diameter, abs=0.01)


@pytest.mark.parametrize("name", HUBS)
def test_ball_and_cone_of_the_close_view_are_to_the_measure_of_the_scenario(root, name):
    scenario, drawing = drawn(root, name)
    plate, side = drawing.plates["close"], scenario.hub.adjustable_side
    ball, cone = (outlines(part_of(plate, part)[1].d)[0] for part in ("ball", "cone"))
    row, measured = getattr(scenario.hub, side), scenario.stack.side(side).cone
    assert np.ptp(ball[:, 1]) == pytest.approx(1e3 * row.ball_diameter, rel=2e-3)
    assert np.ptp(cone[:, 0]) == pytest.approx(1e3 * measured.length, abs=0.011)
    assert (
        drawing.out * cone[:, 0].max()
        if drawing.out > 0
        else -cone[:, 0].min() == pytest.approx(1e3 * measured.ball_place, abs=0.011)
    )


def test_a_long_spacer_is_broken_so_that_the_locknut_stays_in_view(root):
    scenario = load_scenario(root / "scenarios" / "touring-rear.toml")
    narrow = scenario.replace(hub=scenario.hub.replace(row_spacing=0.056))
    plates = [drawing_of(each).plates["close"] for each in (scenario, narrow)]
    breaks = [
        [part.name for group in plate.groups for part in group.parts].count("break") for plate in plates
    ]
    assert breaks == [0, 1]
    for plate in plates:
        nut = placed(plate, "locknut", {"cone": 0.25})
        assert plate.view[0] < nut[:, 0].min()


@pytest.mark.parametrize("name", HUBS)
def test_all_of_the_ball_and_its_cup_are_in_view(root, name):
    _, drawing = drawn(root, name)
    plate = drawing.plates["close"]
    left, top, width, height = plate.view
    for part in ("ball", "cup"):
        x, y = placed(plate, part, {}).T
        assert left < x.min() < x.max() < left + width
        assert top < y.min() < y.max() < top + height


@pytest.mark.parametrize("sheet", SHEETS)
@pytest.mark.parametrize("stage", STAGES)
def test_a_still_is_sound_svg_and_shows_only_what_its_stage_has(root, sheet, stage):
    _, drawing = drawn(root, "touring-rear")
    state = {"cone": 0.1, "clamp": 1.0, "nut": 1.0, "load": 1.0, "lever": 1.0}
    svg = still_svg(drawing, state, stage=stage, sheet=sheet, title="a < b")
    picture = ET.fromstring(svg)
    shown = {group.get("data-group") for group in picture.iter() if group.get("data-group")}
    hidden = {
        group.name
        for group in drawing.plates[sheet].groups
        if group.when is not None and stage not in group.when
    }
    assert shown
    assert not shown & hidden


def test_light_and_dark_differ_in_colour_only(root):
    _, drawing = drawn(root, "touring-rear")
    light, dark = (still_svg(drawing, {"cone": 0.1}, stage="locked", dark=dark) for dark in (False, True))
    assert light != dark
    assert re.sub(r"#[0-9a-f]{6}", "", light) == re.sub(r"#[0-9a-f]{6}", "", dark)
