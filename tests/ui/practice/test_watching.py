"""The fold under the verdict: worked out only once it is opened, once for each hub that is watched."""

import pytest

from conemodel.tasks.practice.actions import Finish
from conemodel.tasks.practice.replay import Replay, replay_of
from conemodel.tasks.practice.session import Bench
from conemodel.ui.practice import replay
from tests.ui.practice.trainee import Trainee


@pytest.fixture
def worked_out(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """Numbers of the hubs whose replays were worked out."""
    hubs: list[int] = []

    def work_out(bench: Bench, number: int) -> Replay:
        hubs.append(number)
        return replay_of(bench, number)

    monkeypatch.setattr(replay, "replay_of", work_out)
    return hubs


def test_each_hub_is_worked_out_once_and_none_before_the_fold_is_open(worked_out: list[int]) -> None:
    trainee = Trainee(exercise="10-worn-thread")
    for _ in range(2):
        trainee.sitting.stand.do(Finish())
    trainee.run()
    assert trainee.sitting.marked is not None
    assert worked_out == []
    name = trainee.sitting.stand.name
    trainee.app.session_state[f"{name} replay fold"] = True
    trainee.run()
    assert worked_out == [0]  # it went wrong there first
    trainee.choose("Hub", 1).run().choose("Hub", 0).choose("Hub", 1)
    assert worked_out == [0, 1]
    assert trainee.app.session_state[f"{name} replay data 1"]["cue"] is not None
