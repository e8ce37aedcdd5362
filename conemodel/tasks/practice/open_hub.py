"""What anybody may see of a hub on the bench: the exercise's scenario as its file has it, sound, and how it is held."""

from conemodel.parts.library import SCENARIOS
from conemodel.parts.scenario import Scenario
from conemodel.parts.setting import Condition
from conemodel.tasks.practice.hidden_hub import scenario_of
from conemodel.tasks.practice.session import Bench


def open_hub(bench: Bench) -> Scenario:
    """Return the hub that may be drawn: nothing of it was drawn by lot, and its cone just touches.

    Only what the trainee does in the open is taken over from the bench: what holds the axle, and the clamp's seat.
    """
    scenario = scenario_of(SCENARIOS / f"{bench.exercise.scenario}.toml")
    setting = scenario.setting.replace(back_off=0.0, axle_held=bench.hub.axle_held)
    if bench.hub.seat is not None:
        setting = setting.replace(clamp_seat=bench.hub.seat)
    return scenario.replace(condition=Condition(), setting=setting)
