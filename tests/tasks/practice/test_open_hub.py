"""What may be drawn of a hidden hub says nothing of what was drawn by lot."""

from typing import get_args

from conemodel.parts.exercise import Fault
from conemodel.parts.library import SCENARIOS
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.practice.actions import FitClamp, HoldAxle, ScrewIn
from conemodel.tasks.practice.open_hub import open_hub
from tests.tasks.practice.hands import do
from tests.tasks.practice.hubs import bench_of


def test_every_fault_every_state_and_every_seed_look_alike():
    published = open_hub(bench_of())
    for fault in get_args(Fault):
        for seed, state in enumerate(("loose", "right", "tight")):
            bench = bench_of(seed=seed, start="locked", prior={"faults": (fault,), "states": (state,)})
            assert bench.secret.fault == fault
            alike = open_hub(bench) == published
            assert alike, (fault, state)


def test_what_the_file_says_of_races_and_setting_is_left_out_as_well():
    bench = bench_of(scenario="dented-cone")
    named = load_scenario(SCENARIOS / "dented-cone.toml")
    assert (
        named.condition != open_hub(bench).condition == load_scenario(SCENARIOS / "road-front.toml").condition
    )
    assert open_hub(do(bench, HoldAxle("vice"), ScrewIn())).setting.back_off == 0


def test_what_hands_did_in_the_open_is_taken_over():
    bench = do(bench_of(), HoldAxle("nothing"), FitClamp("spacers on locknuts"))
    assert open_hub(bench).setting.clamp_seat == "spacers on locknuts"
    assert open_hub(do(bench_of(), HoldAxle("vice"))).setting.axle_held == "vice"
