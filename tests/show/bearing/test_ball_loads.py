"""Both rings of balls: every ball drawn, every load told, seen from outside; and the loads in words.

Expected values are geometry and the balance of forces: the road pushes the shell up, so balls below the axle carry.
"""

import re
from functools import cache

import numpy as np
import pytest

from conemodel.parts.toml_files import load_scenario
from conemodel.show.bearing.ball_loads import place_words, rings_svg, rings_words
from conemodel.show.bearing.under_rider import rider_lead, rider_lines
from conemodel.tasks.bearing.ball_loads import loads_of


@cache
def hub(root):
    return load_scenario(root / "scenarios" / "touring-rear.toml")


def numbers(svg):
    return [int(n) for n in re.findall(r'<text class="number"[^>]*>(\d+)</text>', svg)]


def test_every_ball_is_drawn_and_every_loaded_one_has_its_number(root):
    loads = loads_of(hub(root), "side", end_play=-10e-6)
    svg = rings_svg(loads, hub(root))
    drawn = len(re.findall(r'<circle class="ball"', svg)) + len(re.findall(r'class="idle"', svg))
    assert drawn == 18
    carried = np.concatenate((loads.left.ball_load, loads.right.ball_load))
    assert sorted(numbers(svg)) == sorted(round(float(load)) for load in carried if load >= 0.5)
    assert svg.count('class="hardest"') == 1


def test_pointers_are_as_long_as_the_loads(root):
    loads = loads_of(hub(root), "straight")
    svg = rings_svg(loads, hub(root))
    lengths = []
    for points in re.findall(r'class="load" points="([^"]*)"', svg):
        tip, one, other = (np.array(p.split(","), dtype=float) for p in points.split())
        lengths.append(float(np.linalg.norm((one + other) / 2 - tip)))
    found = numbers(svg)
    most = max(found)
    for length, load in zip(lengths, found, strict=True):
        assert length / max(lengths) == pytest.approx(load / most, abs=0.03)


def test_the_road_presses_the_balls_below_the_axle(root):
    """The shell is pushed up: the cups close on the balls under the axle."""
    loads = loads_of(hub(root), "straight")
    for row in (loads.left, loads.right):
        assert place_words(float(row.azimuth[np.argmax(row.ball_load)])) == "below the axle"
    svg = rings_svg(loads, hub(root))
    middle = [float(y) for y in re.findall(r'class="axle" cx="[^"]*" cy="([^"]*)"', svg)]
    bold = re.search(r'class="number" x="[^"]*" y="([^"]*)" [^>]*bold', svg)
    assert bold
    assert float(bold[1]) > max(middle)


def test_the_two_ends_are_seen_from_outside(root):
    """What is towards +z lies on the right seen from the left end, and on the left seen from the right end."""
    loads = loads_of(hub(root), "straight")
    svg = rings_svg(loads, hub(root))
    across = [float(x) for x in re.findall(r'class="axle" cx="([^"]*)"', svg)]
    centres = [float(x) for x in re.findall(r'class="ball" cx="([^"]*)"', svg)]
    expected = [
        (side, float(np.sin(psi)))
        for side, row in ((1, loads.left), (-1, loads.right))
        for psi, load in zip(row.azimuth, row.ball_load, strict=True)
        if load >= 0.5
    ]
    assert len(centres) == len(expected)
    for x, (side, z) in zip(centres, expected, strict=True):
        middle = across[0] if side == 1 else across[1]
        if abs(z) > 0.1:
            assert np.sign(x - middle) == np.sign(side * z)


def test_words_of_the_rings_go_clockwise_from_the_top(root):
    loads = loads_of(hub(root), "straight")
    said = rings_words(loads)
    for row in re.findall(r"clockwise from the top: ([^.]*) N", said):
        each = [int(n) for n in row.split(", ")]
        assert len(each) == 9
        assert np.argmax(each) in (4, 5)  # half way round


def test_without_load_and_loose_nothing_is_pointed_at(root):
    loads = loads_of(hub(root), "none")
    svg = rings_svg(loads, hub(root))
    assert numbers(svg) == []
    assert "no load on the wheel" in svg
    assert "no ball carries anything" in rider_lead(loads)
    assert list(rider_lines(loads, hub(root))) == []


def test_the_lead_names_ball_pressure_and_dent(root):
    straight, impact = (loads_of(hub(root), case) for case in ("straight", "impact"))
    assert "below the axle" in rider_lead(straight)
    assert "No dent that can be felt" in rider_lead(straight)
    # 12 kN is far above the static limit of any such hub: 2.8 to 9.5 kN by groove (worked out by hand).
    wheel = hub(root).wheel.replace(impact_load=12000.0)
    ruined = rider_lead(loads_of(hub(root).replace(wheel=wheel), "impact"))
    assert "A dent stays that can be felt" in ruined
    assert rider_lead(impact) != ruined
    said = " ".join(rider_lines(straight, hub(root)))
    for words in ("assumption", "Contact angle", "ellipse", "µm", "4200 MPa"):
        assert words in said
