"""The travel of a hub's cone says what predictions made one by one say, at every stage and of every hub."""

from typing import Any

import numpy as np
import pytest

import conemodel as cm
from conemodel.base.units import DEG, MM
from conemodel.parts import library
from conemodel.parts.scenario import Scenario
from conemodel.show.instrument.numbers import numbers_json
from conemodel.solve.stages.terms import STAGES, setting_terms
from conemodel.tasks.setting.outlook import outlook_of
from conemodel.tasks.setting.travel import travel_of

SCENARIOS = sorted(library.SCENARIOS.glob("*.toml"))
MICROMETRE = 1e-3
"""[mm]: what the browser may differ from a prediction by, and how near to a limit it may name another state."""


def hub(name: str, **setting: object) -> Scenario:
    return cm.load_scenario(library.SCENARIOS / f"{name}.toml").with_setting(**setting)


def random_hub(random: np.random.Generator) -> Scenario:
    """Return a shipped hub with other threads, clamp and hands, some of them careless."""
    scenario = cm.load_scenario(SCENARIOS[random.integers(len(SCENARIOS))])
    if random.random() < 0.5:
        slack = random.uniform(0, 0.15e-3)
        scenario = scenario.replace(axle=scenario.axle.replace(thread_clearance=slack))
    force = random.uniform(2000, 9000)
    scenario = scenario.replace(clamp=scenario.clamp.replace(force=force, torque=None, pick_up=None))
    return scenario.with_setting(
        finger_torque=random.uniform(0.0, 0.3),
        lock_torque=random.uniform(1.0, 30.0),
        technique=random.choice(["nut turned", "cone turned out", "both"]),
        cone_held=bool(random.random() < 0.7),
        contact_found=random.choice(["nut loose", "nut snug"]),
        axle_held=random.choice(["vice", "vice", "far spanners", "nothing"]),
        clamp_seat=random.choice(scenario.clamp.traits.seats),
    )


def read(numbers: dict[str, Any], values: Any, angle: float) -> float:
    """Return what a browser reads at an angle [°] from a stage's numbers: a straight line between two of its grid."""
    if isinstance(values, float):
        return values
    grid = np.linspace(numbers["from"], numbers["to"], len(values))
    assert grid[1] - grid[0] == pytest.approx(numbers["step"])
    return float(np.interp(angle, grid, values))


def rows_about(answers: dict[str, Any], low: float, high: float) -> list[dict[str, Any]]:
    """Return what is said anywhere from `low` to `high` [°]."""
    first, last = (int(np.searchsorted(answers["from"], end, side="right")) - 1 for end in (low, high))
    names = ("question", "state", "words", "certainty", "act")
    return [
        {**{name: answers["texts"][answers[name][row]] for name in names}, "aim": answers["aim"][row]}
        for row in range(max(first, 0), last + 1)
    ]


def assert_as_predicted(scenario: Scenario, angles: np.ndarray) -> None:
    """Assert that a hub's numbers say at each angle [°] what a prediction says."""
    numbers = numbers_json(travel_of(scenario))
    near = float(DEG.from_si(MM.to_si(MICROMETRE) / scenario.axle.lead_per_radian))
    for angle in angles:
        told = cm.predict(scenario.with_setting(back_off=float(DEG.to_si(angle))))
        for name in STAGES:
            played = read(numbers, numbers["end_play"][name], angle)
            assert played == pytest.approx(MM.from_si(told.stages[name].end_play), abs=MICROMETRE)
        answer, turn = told.verdict.headline.answer, told.verdict.turn_to_make
        rows = rows_about(numbers["answers"], angle - near, angle + near)
        adjusted = told.verdict.headline.question == "adjustment"
        state = told.verdict.named if adjusted else None
        # Beside a turn the act is said from the turn itself.
        act = answer.act if turn is None else None
        expected = {"state": state, "words": answer.words, "certainty": answer.certainty, "act": act}
        for name, said in expected.items():
            assert said in [row[name] for row in rows], (angle, name)
        aim = None if turn is None else DEG.from_si(told.scenario.setting.back_off + turn.angle)
        assert (None if aim is None else pytest.approx(aim, abs=0.01)) in [row["aim"] for row in rows]


def test_random_hubs_are_told_over_the_whole_range_as_predicted_one_by_one() -> None:
    random = np.random.default_rng(12)
    for _ in range(20):
        assert_as_predicted(random_hub(random), random.uniform(-60, 240, 3))


@pytest.mark.slow
def test_two_hundred_random_hubs_are_told_as_predicted_one_by_one() -> None:
    random = np.random.default_rng(13)
    for _ in range(200):
        assert_as_predicted(random_hub(random), random.uniform(-60, 240, 3))


@pytest.mark.parametrize(
    "scenario",
    [
        hub("touring-rear"),
        hub("unkeyed-locknut", cone_held=False),
        hub("touring-rear", axle_held="nothing"),
        hub("skew-fork"),
    ],
    ids=["rear", "cone runs in", "axle free", "warm"],
)
def test_it_is_so_close_by_where_the_cone_is_aimed_and_stopped(scenario: Scenario) -> None:
    """Where states follow each other closely, and where a cone that nothing holds begins to meet the balls."""
    assert_as_predicted(scenario, np.arange(-60.0, 120.0, 7.3))


@pytest.mark.parametrize("name", ["touring-rear", "thru-axle", "big-ball", "bent-axle"])
def test_what_is_felt_lies_on_straight_lines_within_a_hundredth_or_a_micrometre(name: str) -> None:
    scenario = hub(name)
    felt = numbers_json(travel_of(scenario))["felt"]
    assert (np.diff(felt["end_play"]) > 0).all()
    for angle in np.radians(np.linspace(20.0, 130.0, 12)):
        for stage in list(cm.predict(scenario.with_setting(back_off=float(angle))).stages.values())[:4]:
            play = float(MM.from_si(stage.end_play))
            for column, exact in (
                ("preload", stage.preload),
                ("rim", MM.from_si(stage.rim_play)),
                ("axle_end", MM.from_si(stage.axle_end_play)),
            ):
                low, told, high = np.interp(
                    [play - MICROMETRE, play, play + MICROMETRE], felt["end_play"], felt[column]
                )
                allowed = max(0.01 * abs(exact), abs(high - low) / 2, 1e-4)
                assert told == pytest.approx(exact, abs=allowed), (name, play, column)


@pytest.mark.parametrize("name", ["touring-rear", "road-front", "city-nutted", "skew-fork"])
def test_what_is_assumed_reaches_beyond_a_limit_where_a_tenth_of_such_hubs_does(name: str) -> None:
    """What the width of a pointer shows and what the chances say are one."""
    scenario = hub(name)
    travel, outlook = travel_of(scenario), outlook_of(scenario)
    low, high = travel.assumed["ridden"]
    for angle, end_play in zip(travel.cone_angle, travel.end_play["ridden"], strict=True):
        chances = outlook.drawn.chances_at(float(angle) * scenario.axle.lead_per_radian)
        if abs(chances.loose - 0.1) > 1e-3:
            assert (end_play + high > travel.window.loose_edge) == (chances.loose > 0.1)
        if abs(chances.tight - 0.1) > 1e-3:
            assert (end_play + low < travel.window.tight_edge) == (chances.tight > 0.1)


@pytest.mark.parametrize("name", ["touring-rear", "city-nutted", "thru-axle"])
def test_the_axles_end_and_the_cone_on_its_thread_move_by_what_the_clamp_takes(name: str) -> None:
    """The far cone stands on its balls, so the near one comes in by all of it. Closed form."""
    scenario = hub(name)
    terms = setting_terms(scenario)
    near = terms.clamp.sides[scenario.hub.adjustable_side]
    taken = terms.end_play("locked") - terms.end_play("clamped")
    assert travel_of(scenario).axle_end_moves + near.push == pytest.approx(taken, abs=1e-12)


def test_what_took_play_is_said_by_what_the_hand_closes() -> None:
    took = {name: travel_of(hub(name)).took for name in ("touring-rear", "city-nutted", "thru-axle")}
    assert [each["clamped"] for each in took.values()] == ["lever took", "axle nuts took", "thru-axle took"]
    assert travel_of(hub("touring-rear", technique="cone turned out")).took["locked"] == "cone gave"
    assert "ridden" not in took["touring-rear"]
    assert travel_of(hub("skew-fork")).took["ridden"] == "heat took"
