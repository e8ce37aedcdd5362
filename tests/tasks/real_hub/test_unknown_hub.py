"""The unknown hub shows what every prediction of the same hub says: there is one sum of terms."""

from dataclasses import replace
from typing import Literal

import numpy as np
import pytest
from scipy.special import ndtri

from conemodel.base.units import MINUTE, MM, Array
from conemodel.parts.library import SCENARIOS
from conemodel.parts.toml_files import load_scenario
from conemodel.solve.stages.clamp_force import clamp_force
from conemodel.tasks.real_hub.readings import ROUGH, Felt, Measured
from conemodel.tasks.real_hub.unknown_hub import STAGE_OF, unknown_hub
from conemodel.tasks.setting.predict import predict

HUBS = ("touring-rear", "road-front", "city-nutted", "thru-axle", "light-axle")


def at_its_own(hub):
    """Return the place `z` of the hub as its scenario describes it, found spread by spread."""
    own = {
        "clamp_force": clamp_force(hub.scenario)[0],
        "core_share": hub.scenario.axle.thread_core_share,
        "thread_bridging": hub.scenario.axle.thread_bridging,
        "backlash": hub.scenario.axle.backlash,
        "finger_torque": hub.scenario.setting.finger_torque,
        "lock_torque": hub.scenario.setting.lock_torque,
        "drift": hub.scenario.setting.drift,
    }
    side = hub.scenario.stack.side(hub.scenario.hub.adjustable_side)
    own |= {"thread_friction": side.thread_friction, "face_friction": side.face_friction}
    shares = np.linspace(1e-6, 1 - 1e-6, 200_001)
    z = np.zeros(hub.size)
    for place, (name, spread) in enumerate(hub.spreads.items()):
        if name in own and spread.high > spread.low:
            z[place] = ndtri(np.interp(own[name], spread.at(shares), shares))
    return z


@pytest.mark.parametrize("name", HUBS)
def test_end_play_in_every_state_is_the_predictions(name):
    hub = unknown_hub(load_scenario(SCENARIOS / f"{name}.toml"))
    shown = hub.show(at_its_own(hub)[None])
    count = MINUTE.to_si(9)
    stages = predict(hub.scenario.with_setting(back_off=count)).stages
    for state, stage in STAGE_OF.items():
        found = shown.end_play[state][0] + count * hub.lead
        assert found == pytest.approx(stages[stage].end_play, abs=0.05e-6)


def test_what_is_felt_is_read_off_the_hubs_own_curves():
    hub = unknown_hub(load_scenario(SCENARIOS / "touring-rear.toml"))
    shown = hub.show(np.zeros((1, hub.size)))
    stages = predict(hub.scenario.with_setting(back_off=MINUTE.to_si(13))).stages
    assert hub.rim_play(np.array([stages["locked"].end_play]))[0] == pytest.approx(
        stages["locked"].rim_play, rel=1e-3
    )
    assert shown.felt_play[0] == pytest.approx(MM.to_si(0.1))  # the middle of what is assumed of hands
    assert hub.rim_play(shown.felt_play_at)[0] == pytest.approx(shown.felt_play[0], rel=1e-3)


def test_a_wheel_that_is_pushed_gives_as_its_spokes_and_its_balls_do():
    """Springs in series (closed form), and 0.04 mm of the bearing at ± 5 N without play: worked out by hand."""
    hub = unknown_hub(load_scenario(SCENARIOS / "touring-rear.toml"))
    give = hub.rim_give(np.array([5.0]), np.array([60e3]))[0]
    assert give - 10.0 / 60e3 == pytest.approx(MM.to_si(0.04), rel=0.45)
    assert hub.rim_give(np.array([0.0]), np.array([60e3]))[0] == 0.0


def test_an_edge_lies_half_a_step_inside_the_count_it_was_found_at():
    hub = unknown_hub(load_scenario(SCENARIOS / "touring-rear.toml"))
    shown = hub.show(np.zeros((1, hub.size)))
    edges: tuple[tuple[Literal["play", "drag"], Array, float], ...] = (
        ("play", shown.felt_play_at, 0.5),
        ("drag", shown.felt_drag_at, -0.5),
    )
    for what, edge, inside in edges:
        count = (edge - shown.end_play["locked"])[0] / hub.lead + inside * MINUTE.to_si(1)
        reading = Felt(what=what, state="locked", count=float(count), step=MINUTE.to_si(1))
        assert reading.miss(hub, shown)[0] == pytest.approx(0.0, abs=1e-9)


def test_play_along_the_axle_is_end_play_and_none_where_balls_are_squeezed():
    hub = unknown_hub(load_scenario(SCENARIOS / "touring-rear.toml"))
    shown = hub.show(np.zeros((1, hub.size)))
    tight = Measured(place="axle", state="locked", count=0.0, play=0.0, error=1e-5)
    loose = replace(tight, count=MINUTE.to_si(20))
    # the corner where play ends is rounded over ROUGH: a little of that is left on both sides
    left = pytest.approx(0.0, abs=ROUGH / 10)
    assert loose.miss(hub, shown)[0] + shown.end_play["locked"][0] + MINUTE.to_si(20) * hub.lead == left
    assert tight.miss(hub, shown)[0] == left
