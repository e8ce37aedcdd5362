"""A hub by what is known of it is a whole and possible one, or is refused by the name of a value that was entered."""

from typing import Any

import pytest
from hypothesis import given, settings

from conemodel.base.units import MM
from conemodel.parts.axle import NOT_KNOWN
from conemodel.parts.hub_families import FAMILIES, THREADS
from conemodel.parts.known_hub import KnownHub
from conemodel.parts.known_scenario import KnownScenario
from conemodel.parts.library import SCENARIOS
from conemodel.parts.scenario import Scenario
from conemodel.parts.schema import FieldError, PartProblems, unit_of
from conemodel.parts.toml_files import load_scenario, read_scenario, write_part
from conemodel.solve.stages.clamp_force import clamp_force
from conemodel.tasks.setting.predict import predict
from conemodel.ui.own_file import LONGEST
from conemodel.ui.packed_text import pack, unpack
from tests.parts.known_hubs import ENTERED

SIZES = ("hub", "axle", "stack", "clamp", "frame")


def entered(name: str, **known: Any) -> tuple[KnownScenario, Scenario]:
    """Return a hub by what is known of it, and a ready one."""
    return KnownScenario.of(KnownHub(**known)), load_scenario(SCENARIOS / f"{name}.toml")


@settings(max_examples=200)
@given(ENTERED)
def test_what_can_be_entered_makes_a_hub_or_is_named(values: dict[str, Any]) -> None:
    refused: tuple[FieldError, ...] = ()
    try:
        hub = KnownScenario.of(KnownHub(**values))
    except PartProblems as error:
        refused = error.mistakes
    assert {mistake.field for mistake in refused} <= set(values)
    if refused:
        return
    for name, value in values.items():
        millionth = unit_of(KnownHub.model_fields[name]).to_si(1e-6)  # as a part keeps it
        near = pytest.approx(value, abs=millionth, rel=0) if isinstance(value, float) else value
        assert getattr(hub.known, name) == near
    text = write_part(hub)
    assert text.count("=") == len([value for value in values.values() if value is not None])
    assert read_scenario(text, name="mine") == hub
    packed = pack(text)
    assert len(packed) < LONGEST / 4
    assert read_scenario(unpack(packed, name="link"), name="link") == hub


@settings(max_examples=20)
@given(ENTERED)
def test_every_hub_that_can_be_entered_is_solved(values: dict[str, Any]) -> None:
    try:
        hub = KnownScenario.of(KnownHub(**values))
    except PartProblems:
        return
    prediction = predict(hub)
    assert prediction.window.tight_edge < prediction.window.loose_edge


@pytest.mark.parametrize(
    ("name", "known"),
    [
        ("touring-rear", {"family": "usual rear", "over_locknut_width": 0.135}),
        ("road-front", {"family": "usual front"}),
    ],
)
def test_a_ready_hub_entered_by_what_is_known_gives_its_numbers(name: str, known: dict[str, Any]) -> None:
    mine, ready = entered(name, **known)
    assert [getattr(mine, part) for part in SIZES] == [getattr(ready, part) for part in SIZES]
    one, other = (predict(hub.replace(wheel=ready.wheel, setting=ready.setting)) for hub in (mine, ready))
    assert one.window == other.window
    for stage, result in one.stages.items():
        assert (result.end_play, result.rim_play) == (
            other.stages[stage].end_play,
            other.stages[stage].rim_play,
        )


def test_a_nutted_hub_entered_by_its_measures_gives_the_numbers_of_the_ready_one() -> None:
    city = load_scenario(SCENARIOS / "city-nutted.toml")
    slack, force = city.axle.backlash, clamp_force(city)[0]
    mine = KnownScenario.of(KnownHub(family="nutted rear", thread_slack=slack, clamp_force=force))
    one, other = (predict(hub.with_setting(back_off=city.setting.back_off)) for hub in (mine, city))
    assert one.window.loose_edge == pytest.approx(other.window.loose_edge, rel=1e-9)
    # the inch thread's pitch, 25.4 mm / 26, is rounded in that file to 4e-6 of itself
    assert one.stages["ridden"].end_play == pytest.approx(other.stages["ridden"].end_play, rel=1e-4)


def test_the_thru_axle_hub_has_the_sizes_of_the_ready_one() -> None:
    mine, ready = entered("thru-axle", family="thru-axle rear")
    for part in ("hub", "axle", "stack", "frame"):
        assert getattr(mine, part) == getattr(ready, part)


@pytest.mark.parametrize("family", sorted(FAMILIES))
def test_every_family_is_a_hub_within_its_own_ranges(family: str) -> None:
    usual = FAMILIES[family]
    for size in (usual.ball_count, usual.ball_diameter, usual.over_locknut_width, usual.protrusion):
        assert size.low <= size.usual <= size.high
    hub = KnownScenario.of(KnownHub(family=family))
    assert (hub.axle.thread_diameter, hub.axle.thread_pitch) == THREADS[usual.thread]
    assert hub.clamp.kind == usual.clamp
    assert (hub.axle.bore > hub.clamp.rod_diameter) == (usual.clamp != "nuts")


@pytest.mark.parametrize(
    ("values", "field", "words"),
    [
        ({"family": "thru-axle rear", "thread": "M10 x 1"}, "thread", "too slender for a thru-axle"),
        ({"family": "nutted front", "protrusion_left": 6e-3}, "protrusion_left", "at least 9 mm"),
        ({"family": "nutted front", "dropout_thickness": 18e-3}, "dropout_thickness", "at most 16 mm"),
        ({"family": "usual rear", "dropout_width": 0.1, "over_locknut_width": 0.13}, "dropout_width", "within 10 mm"),
        ({"family": "usual rear", "ball_count_left": 24, "ball_diameter_left": 10e-3}, "ball_count_left", "60 mm"),
        ({"family": "usual rear", "thread_slack_error": 1e-5}, "thread_slack_error", "without a thread_slack"),
        ({"family": "usual rear", "clamp_force": 10.0, "clamp_force_error": 20.0}, "clamp_force_error", "above what"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_named_with_its_limit(values: dict[str, Any], field: str, words: str) -> None:
    with pytest.raises(PartProblems) as error:
        KnownHub(**values)
    assert error.value.mistakes[0].field == field
    said = str(KnownHub.say(error.value.mistakes[0]))
    assert words in said


def test_the_right_side_is_as_the_left_where_only_that_is_known() -> None:
    hub = KnownScenario.of(KnownHub(family="usual rear", ball_count_left=10, protrusion_left=6e-3))
    assert hub.hub.right == hub.hub.left
    assert hub.stack.right.protrusion == 6e-3
    assert hub.axle.length == pytest.approx(0.142)
    other = KnownScenario.of(KnownHub(family="usual rear", ball_count_left=10, ball_count_right=9))
    assert (other.hub.left.ball_count, other.hub.right.ball_count) == (10, 9)


def test_a_measured_slack_and_force_narrow_what_is_assumed() -> None:
    usual = KnownScenario.of(KnownHub(family="usual rear"))
    known = usual.known.replace(
        thread_slack=MM.to_si(0.08),
        thread_slack_error=MM.to_si(0.01),
        clamp_force=5e3,
        clamp_force_error=200.0,
    )
    measured = KnownScenario.of(known)
    assert measured.axle.backlash_range == pytest.approx((0.07e-3, 0.09e-3))
    assert measured.unknowns["clamp_force"].span == pytest.approx((4800, 5200))
    wide, narrow = (predict(hub).verdict.turn for hub in (usual, measured))
    assert wide is not None
    assert narrow is not None
    assert narrow.high - narrow.low < 0.7 * (wide.high - wide.low)
    assert {"thread_slack", "clamp_force"} <= {spread.name for spread in narrow.spreads}


def test_nobody_knows_the_classes_of_an_inch_thread() -> None:
    hub = KnownScenario.of(KnownHub(family="nutted rear"))
    assert hub.axle.axle_thread_class == NOT_KNOWN
    assert hub.axle.thread_clearance is None
    assert hub.axle.backlash_range == pytest.approx((0.015e-3, 0.166e-3))
