"""An impossible part cannot be made, and the message names field, value and limit."""

import copy
import math
import pickle
from typing import Any

import pytest

import conemodel as cm
from conemodel.base.errors import InputProblems
from conemodel.base.units import DEG, MM
from conemodel.parts.axle import Axle
from conemodel.parts.schema import PartProblems
from conemodel.parts.setting import Assumed

ROW: dict[str, Any] = {
    "ball_diameter": 6.35e-3,
    "ball_count": 9,
    "pitch_diameter": 20e-3,
    "contact_angle": DEG.to_si(40),
}
AXLE: dict[str, Any] = {
    "thread_diameter": 10e-3,
    "thread_pitch": 1e-3,
    "bore": 5.1e-3,
    "length": 0.146,
}


def test_a_row_takes_the_constructor_that_people_script_against() -> None:
    """The full list of names promised in the documentation of the package."""
    row = cm.Row(
        **ROW,
        cone_conformity=0.56,
        cup_conformity=0.56,
        young=208e9,
        poisson=0.3,
        ball_oversize=0.0,
        cone_tilt=(0.0, 0.0),
        cup_tilt=(0.0, 0.0),
        phase=0.0,
    )
    pair = cm.Pair(left=row, right=row, row_spacing=60e-3, axial_compliance=1.5e-8)
    assert pair.left == pair.right == cm.Row(**ROW)
    assert hash(pair) == hash(cm.Pair(left=row, right=row, row_spacing=60e-3, axial_compliance=1.5e-8))


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("ball_diameter", -1.0, "above"),
        ("ball_diameter", math.nan, "finite"),
        ("pitch_diameter", math.inf, "finite"),
        ("ball_count", 9.5, "whole number"),
        ("ball_count", "nine", "whole number"),
        ("contact_angle", "steep", "number"),
        ("cone_conformity", 0.5, "above"),
        ("ball_oversize", (1e-6, 2e-6), "9 balls"),
        ("ball_oversize", 1.0, "within"),
        ("cone_tilt", (0.2, 0.0), "within"),
    ],
)
def test_what_cannot_be_is_refused_by_name(field: str, value: object, said: str) -> None:
    with pytest.raises(InputProblems) as refused:
        cm.Row(**{**ROW, field: value})
    (problem,) = refused.value.problems
    assert problem.where == f"Row.{field}"
    assert said in problem.limit


def test_ten_balls_where_nine_fit() -> None:
    """Nine 1/4 in balls on a 20 mm pitch circle leave 0.72 of a ball: closed form, π/asin(D/dm) = 9.72."""
    with pytest.raises(InputProblems, match="at most 9 such balls fit"):
        cm.Row(**{**ROW, "ball_count": 10})
    cm.Row(**ROW)


def test_every_mistake_is_reported_at_once() -> None:
    with pytest.raises(InputProblems) as refused:
        Axle(**{**AXLE, "bore": 9e-3, "length": -1.0, "material": "cheese"})
    fields = {problem.where.removeprefix("Axle.") for problem in refused.value.problems}
    assert fields == {"bore", "length", "material"}


def test_a_bore_must_leave_metal_under_the_thread() -> None:
    """Root of M10 × 1 is 8.773 mm. Source: ISO 68-1 (basic profile), computed."""
    with pytest.raises(InputProblems, match="smaller than the thread root"):
        Axle(**{**AXLE, "bore": 8.78e-3})
    Axle(**{**AXLE, "bore": 8.76e-3})


def test_a_part_stays_as_it_is_and_copies_are_checked() -> None:
    axle = Axle(**AXLE)
    with pytest.raises(ValueError, match="frozen"):
        setattr(axle, "bore", 0.0)  # noqa: B010 - a frozen field cannot even be written out
    assert axle.replace(bore=4e-3).bore == 4e-3
    with pytest.raises(InputProblems):
        axle.replace(bore=20e-3)


def test_equal_parts_hash_alike_whatever_was_asked_of_them_before() -> None:
    """What is worked out once, the hash itself too, is no part of a part; a hash would be wrong elsewhere."""
    known: dict[str, Any] = {
        "thread_diameter": 10e-3,
        "thread_pitch": 1e-3,
        "length": 0.14,
        "bore": 5.1e-3,
    }
    fresh, used = Axle(**known), Axle(**known)
    assert used.backlash_range[0] > 0
    before = hash(used)
    assert before == hash(used) == hash(fresh) == hash(fresh.replace()) == hash(copy.deepcopy(used))
    assert fresh == used
    assert hash(used.replace(bore=used.bore * 1.01)) != before
    assert str(before).encode() not in pickle.dumps(used, protocol=0)
    assert pickle.loads(pickle.dumps(used)) == used


def test_a_range_cannot_be_upside_down() -> None:
    with pytest.raises(InputProblems, match="must not be above drift_high"):
        Assumed(drift_low=0.2)


def test_limits_are_said_in_the_unit_of_the_file() -> None:
    with pytest.raises(PartProblems) as refused:
        Axle(**{**AXLE, "bore": -1e-3})
    said = Axle.say(refused.value.mistakes[0])
    assert (said.where, said.value, said.limit) == ("bore_mm", "-1", "must be at least 0 mm")


def test_backlash_follows_from_the_tolerance_classes() -> None:
    """6g/6H on M10 × 1: 0.0150 to 0.1663 mm. Source: ISO 965-1 limits, axial backlash Δd2 tan 30°, computed."""
    low, high = Axle(**AXLE).backlash_range
    assert MM.from_si(low) == pytest.approx(0.0150, abs=5e-5)
    assert MM.from_si(high) == pytest.approx(0.1663, abs=5e-5)
    assert Axle(**AXLE, thread_clearance=0.0).backlash == 0.0


def test_balls_too_large_to_go_in_are_refused() -> None:
    """Grooves side by side leave A (1 - cos α), A = 0.12 × 6.35 mm: 0.178 mm. Geometry."""
    with pytest.raises(InputProblems, match="do not go in between cone and cup"):
        cm.Row(**ROW, ball_oversize=0.17e-3)
    cm.Row(**ROW, ball_oversize=0.15e-3)
