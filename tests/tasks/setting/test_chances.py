"""Chances over everything assumed: against hubs drawn and predicted one by one, and what they may be called."""

from collections.abc import Iterator

import numpy as np
import pytest

import conemodel as cm
from conemodel.parts import library
from conemodel.parts.scenario import Scenario
from conemodel.solve.stages.clamp_force import clamp_force
from conemodel.solve.stages.terms import setting_terms
from conemodel.tasks.setting.adjustment import certainty_words, state_words
from conemodel.tasks.setting.aim import MOST_TIGHT
from conemodel.tasks.setting.chances import Chances
from conemodel.tasks.setting.good_range import windows_in
from conemodel.tasks.setting.scenario_tables import tables_with_variants
from conemodel.tasks.setting.turn import FULL

FOLDER = library.SCENARIOS
SETTINGS: tuple[tuple[str, float, dict[str, float | str]], ...] = (
    ("touring-rear", 80.0, {}),
    ("touring-rear", 100.0, {"axle_clearance": 45e-6}),
    ("road-front", 70.0, {}),
    ("road-front", 75.0, {"technique": "cone turned out"}),
    ("light-axle", 95.0, {}),
    ("city-nutted", 55.0, {}),
    ("thru-axle", 80.0, {}),
    ("unkeyed-locknut", 85.0, {}),
    ("dented-cone", 70.0, {"clamp_force": 4500.0}),
    ("small-ball", 75.0, {}),
)
"""Scenario, back-off [°], and what else is given: a technique, a clearance [m], a clamp force [N]."""


def setting(name: str, back_off: float, changes: dict[str, float | str]) -> Scenario:
    scenario = cm.load_scenario(FOLDER / f"{name}.toml")
    changes = dict(changes)
    clearance, force = changes.pop("axle_clearance", None), changes.pop("clamp_force", None)
    if clearance:
        scenario = scenario.replace(axle=scenario.axle.replace(thread_clearance=clearance))
    if force:
        scenario = scenario.replace(clamp=scenario.clamp.replace(force=force))
    return scenario.with_setting(back_off=np.radians(back_off), **changes)


def triangle(random: np.random.Generator, low: float, top: float, high: float) -> float:
    """Draw from a triangle with its top where the scenario has it, its range reaching that far."""
    low, high = min(low, top), max(high, top)
    return low if low == high else float(random.triangular(low, top, high))


def bell(random: np.random.Generator, low: float, high: float) -> float:
    """Draw from a normal spread cut off at two standard deviations, by throwing away what lies outside."""
    while abs(deviate := random.standard_normal()) > 2:
        pass
    return float((low + high) / 2 + deviate * (high - low) / 4)


def drawn(scenario: Scenario, random: np.random.Generator) -> Scenario:
    """Return one hub that may be the scenario's: everything assumed drawn anew, with code that shares none of it."""
    known, axle, clamp, setting_ = scenario.assumed, scenario.axle, scenario.clamp, scenario.setting
    force = clamp.force
    if force is not None:
        force = bell(random, 0.9 * force, 1.1 * force)
    else:
        low, high = (9000.0, 20000.0) if clamp.kind == "nuts" else (3000.0, 8000.0)
        torque_force = clamp_force(scenario)[0]
        force = triangle(random, low, torque_force, high)
    clearance = axle.thread_clearance
    if clearance is None:
        clearance = bell(random, *axle.pitch_clearance_range)
    groove = triangle(random, known.conformity_low, 0.56, known.conformity_high)
    side = scenario.hub.adjustable_side
    stack = scenario.stack.side(side).replace(
        thread_friction=bell(random, known.friction_low, known.friction_high),
        face_friction=bell(random, known.friction_low, known.friction_high),
        key_clearance=random.uniform(known.key_clearance_low, known.key_clearance_high),
    )
    rows = {
        name: getattr(scenario.hub, name).replace(cone_conformity=groove, cup_conformity=groove)
        for name in ("left", "right")
    }
    return scenario.replace(
        hub=scenario.hub.replace(**rows),
        axle=axle.replace(
            thread_clearance=clearance,
            thread_core_share=random.uniform(known.core_share_low, known.core_share_high),
            thread_bridging=random.uniform(0.0, 1.0),
        ),
        stack=scenario.stack.replace(**{side: stack}),
        clamp=clamp.replace(force=force, torque=None, pick_up=None),
        setting=setting_.replace(
            finger_torque=triangle(
                random, known.finger_torque_low, setting_.finger_torque, known.finger_torque_high
            ),
            lock_torque=triangle(random, known.lock_torque_low, setting_.lock_torque, known.lock_torque_high),
            drift=triangle(random, known.drift_low, setting_.drift, known.drift_high),
        ),
    )


@pytest.mark.slow
@pytest.mark.parametrize(("name", "back_off", "changes"), SETTINGS)
def test_hubs_drawn_and_predicted_one_by_one_come_out_as_often_as_said(
    name: str, back_off: float, changes: dict[str, float | str]
) -> None:
    """500 draws: each share within three standard errors, both draws' counted.

    Every hub is solved anew, all together; that this is what `predict` says is seen on the first twenty.
    """
    scenario = setting(name, back_off, changes)
    said = cm.predict(scenario).verdict.chances
    assert said is not None
    random = np.random.default_rng(11)
    draws = 500
    hubs = [drawn(scenario, random) for _ in range(draws)]
    windows = windows_in(tables_with_variants(hubs[0], hubs[1:]), [hub.limits for hub in hubs])
    found = [
        window.state(setting_terms(hub).judged_end_play) for window, hub in zip(windows, hubs, strict=True)
    ]
    assert found[:20] == [cm.predict(hub).verdict.state for hub in hubs[:20]]
    for state, chance in said.by_state.items():
        error = np.sqrt(max(chance * (1 - chance), 0.004) * (1 / draws + 1 / 2048))
        assert abs(found.count(state) / draws - chance) < 3 * error, state


def random_hubs(number: int) -> Iterator[Scenario]:
    """Yield hubs and settings at random, slack and clamp force given as measured."""
    random = np.random.default_rng(3)
    names = ("touring-rear", "road-front", "light-axle", "thru-axle", "unkeyed-locknut")
    for _ in range(number):
        scenario = cm.load_scenario(FOLDER / f"{random.choice(names)}.toml")
        low, high = scenario.axle.pitch_clearance_range
        yield scenario.replace(
            axle=scenario.axle.replace(thread_clearance=random.uniform(low, high)),
            clamp=scenario.clamp.replace(force=random.uniform(3000, 8000), torque=None, pick_up=None),
        ).with_setting(back_off=np.radians(random.uniform(20, 160)))


def test_with_slack_and_clamp_force_measured_the_state_is_nearly_always_named() -> None:
    """Wanted: on four of five of 200 random hubs."""
    chances = [cm.predict(scenario).verdict.chances for scenario in random_hubs(200)]
    assert sum(each is not None and each.named is not None for each in chances) >= 160


def test_a_quarter_turn_on_a_usual_rear_hub_is_not_called_right() -> None:
    """Nobody knows its slack or its clamp: no fixed setting of it is right on more than half of such hubs."""
    for back_off in range(30, 130, 10):
        verdict = cm.predict(setting("touring-rear", back_off, {})).verdict
        assert verdict.chances is not None
        assert verdict.chances.right < 0.55
        assert "Leave it." not in verdict.sentence


def test_the_turn_advised_seldom_ends_tight_and_says_when_it_is_only_a_step() -> None:
    for scenario in random_hubs(12):
        verdict = cm.predict(scenario).verdict
        assert verdict.turn is not None
        assert verdict.turn.tight <= MOST_TIGHT + 0.001
        assert verdict.turn.cautious is (verdict.turn.right < FULL)
        if verdict.turn_to_make is not None:
            assert ("feel it clamped again" in verdict.headline.answer.act) is verdict.turn.cautious


def test_measuring_the_slack_makes_the_answer_surer() -> None:
    unknown = cm.predict(setting("touring-rear", 65.0, {})).verdict.chances
    known = cm.predict(setting("touring-rear", 65.0, {"axle_clearance": 52e-6})).verdict.chances
    assert unknown is not None
    assert known is not None
    assert max(known.by_state.values()) > max(unknown.by_state.values())


@pytest.mark.parametrize(
    ("chances", "words", "certainty"),
    [
        ((0.97, 0.03, 0.0), "Loose", "almost surely"),
        ((0.93, 0.07, 0.0), "Probably loose", "on 9 of 10 such hubs"),
        ((0.02, 0.7, 0.28), "Probably right", "on 7 of 10 such hubs"),
        ((0.5, 0.45, 0.05), "Loose or right", "loose on 5, right on 4, too tight on 1 of 10 such hubs"),
        (
            (0.04, 0.5, 0.46),
            "Right or too tight",
            "right on 5, too tight on 5 of 10 such hubs",
        ),
        (
            (0.3, 0.4, 0.3),
            "Cannot tell without the thread slack",
            "loose on 3, right on 4, too tight on 3 of 10 such hubs",
        ),
    ],
)
def test_a_state_is_named_from_two_thirds_on(
    chances: tuple[float, float, float], words: str, certainty: str
) -> None:
    turn = cm.predict(setting("touring-rear", 65.0, {})).verdict.turn
    assert turn is not None
    given = Chances(loose=chances[0], right=chances[1], tight=chances[2])
    assert state_words(given, turn) == words
    assert certainty_words(given) == certainty
