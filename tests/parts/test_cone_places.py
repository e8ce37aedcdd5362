"""Where cones and locknuts stand: lengths laid end to end along the axle, by hand."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import conemodel as cm
from conemodel.parts import library
from conemodel.parts.cone import Cone
from conemodel.parts.hub import SIDES
from conemodel.parts.scenario import Scenario
from conemodel.parts.schema import PartProblems

TOURING = cm.load_scenario(library.SCENARIOS / "touring-rear.toml")


def with_sizes(*, rows: float, distance: float | None = None, width: float = 135e-3, **cone: Any) -> Scenario:
    """Return the touring hub with other sizes [m]; `cone` for both its cones."""
    stacks = {side: TOURING.stack.side(side).replace(cone=Cone(**cone)) for side in SIDES}
    return TOURING.replace(
        hub=TOURING.hub.replace(row_spacing=rows, over_locknut_width=width),
        axle=TOURING.axle.replace(cone_distance=distance),
        stack=TOURING.stack.replace(**stacks),
    )


@pytest.mark.parametrize(
    ("name", "distance", "separation"),
    [
        ("touring-rear", 88 + 2 * (12.75 - 15.5 / 2), (135 - 5 - 98) / 2),
        ("mixed-rows", 88 + (12.75 - 15.5 / 2) + (11.5 - 13 / 2), (135 - 5 - 98) / 2),
        ("road-front", 54 + 2 * (11.5 - 11 / 2), (100 - 5 - 66) / 2),
        ("city-nutted", 72 + 2 * (12.75 - 15.5 / 2), (120 - 6 - 82) / 2),
        ("thru-axle", 94 + 2 * (11.5 - 13 / 2), (142 - 6 - 104) / 2),
    ],
)
def test_the_threads_of_shipped_hubs_stand_where_their_measures_put_them(
    name: str, distance: float, separation: float
) -> None:
    hub = cm.load_scenario(library.SCENARIOS / f"{name}.toml")
    assert hub.cone_distance * 1e3 == pytest.approx(distance, abs=1e-9)
    for side in SIDES:
        assert hub.thread_separation(side) * 1e3 == pytest.approx(separation, abs=1e-9)


def test_no_shipped_hub_types_in_what_follows() -> None:
    for path in sorted(library.SCENARIOS.glob("*.toml")):
        assert cm.load_scenario(path).axle.cone_distance is None


def test_rows_sixty_apart_have_their_threads_seventy_apart() -> None:
    """A hub for a screwed-on freewheel: 60 + 2 · 5 mm, and 30 mm from there to each locknut. By hand."""
    hub = with_sizes(rows=60e-3)
    assert hub.cone_distance == pytest.approx(70e-3)
    assert hub.thread_separation("left") == pytest.approx(30e-3)


@given(
    rows=st.floats(30e-3, 70e-3),
    length=st.floats(10e-3, 20e-3),
    place=st.floats(0.1, 1),
    thread=st.floats(0.3, 1),
    moved=st.floats(-0.9, 0.9),
)
def test_from_the_middle_out_the_lengths_add_up(
    rows: float, length: float, place: float, thread: float, moved: float
) -> None:
    """Rows, cone, its thread, washers and locknut end to end are half the width, a distance given or not."""
    cone = {"length": length, "ball_place": place * length, "thread_length": thread * length}
    by_measure = with_sizes(rows=rows, **cone)
    room = 2 * length * min(place, 1 - place)
    given_one = with_sizes(rows=rows, distance=by_measure.cone_distance + moved * room, **cone)
    for hub in (by_measure, given_one):
        outer_end = rows / 2 + hub.ball_place("left")
        thread_middle = outer_end - cone["thread_length"] / 2
        assert thread_middle == pytest.approx(hub.cone_distance / 2)
        assert thread_middle + hub.thread_separation("left") + 2.5e-3 == pytest.approx(135e-3 / 2)
        assert 0 <= hub.ball_place("left") <= length


def refused(**sizes: Any) -> str:
    with pytest.raises(PartProblems) as error:
        with_sizes(**sizes)
    (mistake,) = error.value.mistakes
    return str(Scenario.say(mistake))


def test_a_distance_that_no_cone_reaches_is_refused_with_the_one_that_follows() -> None:
    """Balls at the inner end of cones 15.5 mm long: 60 + 2 (15.5 - 7.75) = 75.5 mm; at the outer: 44.5. By hand."""
    far, near = refused(rows=60e-3, distance=100e-3), refused(rows=60e-3, distance=44e-3)
    assert "axle.cone_distance_mm" in far
    assert "100" in far
    assert "at most 75.5 mm" in far
    assert "from hub.row_spacing_mm and the cones' measures it is 70 mm" in far
    assert "at least 44.5 mm" in near
    assert with_sizes(rows=60e-3, distance=75e-3).ball_place("right") == pytest.approx(15.25e-3)


def test_rows_so_near_that_the_cones_would_lie_in_one_another_are_refused() -> None:
    """Threads 15.5 mm long whose middles stand 7.65 mm inboard of their balls: 15.3 mm. By hand."""
    said = refused(rows=15.2e-3, ball_place=0.1e-3)
    assert "hub.row_spacing_mm" in said
    assert "above 15.3 mm" in said


def test_a_width_in_which_the_locknuts_find_no_room_is_refused() -> None:
    """88 + 2 (12.75 + 5) = 123.5 mm. By hand."""
    said = refused(rows=88e-3, width=123e-3)
    assert "hub.over_locknut_width_mm" in said
    assert "at least 123.5 mm" in said
    assert with_sizes(rows=88e-3, width=124e-3).thread_separation("left") > 0


def test_an_axle_shorter_than_the_distance_and_a_plain_part_longer_are_refused_together() -> None:
    with pytest.raises(PartProblems) as error:
        TOURING.replace(axle=TOURING.axle.replace(length=97e-3, plain_length=99e-3, plain_diameter=10e-3))
    said = [str(Scenario.say(mistake)) for mistake in error.value.mistakes]
    assert [line.split(":")[0].split(" ")[0] for line in said] == ["axle.length_mm", "axle.plain_length_mm"]
    assert all("98 mm" in line for line in said)


@pytest.mark.parametrize("name", ["ball_place", "thread_length"])
def test_balls_and_thread_lie_on_their_cone(name: str) -> None:
    with pytest.raises(PartProblems, match="must not be above the length of the cone"):
        Cone(length=10e-3, **{"ball_place": 8e-3, "thread_length": 8e-3, name: 11e-3})
