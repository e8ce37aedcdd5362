"""The bench on screen as a flow: chosen, worked by gestures and buttons, marked, kept, not given away."""

import re
from collections.abc import Callable
from math import nan, radians
from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from conemodel.record.attempts import attempts
from conemodel.record.database import FILE_OPTION, Database
from conemodel.tasks.bench.feel import feel_of
from conemodel.tasks.bench.ladder import ladder, read_link
from conemodel.ui.practise_sitting import Sitting


@pytest.fixture(autouse=True)
def record(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    path = tmp_path / "record.sqlite3"
    monkeypatch.setenv(FILE_OPTION, str(path))
    return path


def _script() -> None:
    from conemodel.ui import practise

    practise.page()


class Trainee:
    """Works the page through what is on it: buttons by their labels, gestures as the widgets report them."""

    def __init__(self, **address: str) -> None:
        self.app = AppTest.from_function(_script, default_timeout=60)
        for name, value in address.items():
            self.app.query_params[name] = value
        self.run()

    def run(self) -> "Trainee":
        self.app.run()
        assert not self.app.exception, self.app.exception
        return self

    @property
    def sitting(self) -> Sitting:
        state = self.app.session_state
        return state["sittings"][state["sitting"]]  # type: ignore[no-any-return]

    def press(self, label: str) -> "Trainee":
        button = next(b for b in self.app.button if b.label == label)
        assert not button.disabled, (label, [c.value for c in self.app.caption])
        button.click()
        return self.run()

    def choose(self, label: str, value: Any) -> "Trainee":
        found = next(
            g for kind in ("button_group", "radio", "selectbox") for g in self.app.get(kind) if g.label == label
        )
        found.set_value([value] if found.type == "button_group" else value)
        return self.run()

    def step(self, name: str) -> "Trainee":
        return self.choose("Step", name)

    def hand(self, gesture: str, *, set_id: int | None = None, sequence: int | None = None, **told: Any) -> "Trainee":
        stand = self.sitting.stand
        number = stand.handled.get(gesture, 0) + 1 if sequence is None else sequence
        state = stand.set_of(gesture) if set_id is None else set_id
        self.app.session_state[stand.key(gesture)] = {"hand": {"sequence": number, "set_id": state, **told}}
        return self.run()

    def turn(self, angle: float) -> "Trainee":
        now = self.sitting.stand.bench.hub.shown
        return self.hand("turn", angle=now + angle, turned=angle, stopped=False)

    def rock(self, grip: str = "rim") -> "Trainee":
        return self.hand(grip, cycles=2, knocks=4, brisk=True)

    def twirl(self) -> "Trainee":
        return self.hand("twirl", angle=0.0, turned=7.0, full_turn=True, let_go=False)

    @property
    def words(self) -> str:
        html = [element.proto.body for element in self.app.get("html")]
        return "\n".join([*html, *(element.value for element in self.app.markdown)])

    @property
    def told(self) -> str:
        return self.sitting.stand.bench.log[-1].told


def test_every_exercise_opens_with_its_goal_and_what_to_do_next() -> None:
    for name, exercise in ladder().items():
        trainee = Trainee(exercise=name)
        assert " ".join(exercise.goal.split())[:60] in trainee.words
        assert "Next →" in trainee.words
        assert trainee.app.query_params["link"].startswith(name)
