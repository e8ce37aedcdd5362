"""A trainee at the practice bench on screen, without a browser."""

from typing import Any

from streamlit.testing.v1 import AppTest

from conemodel.ui.practice.session import BENCH, Sitting
from tests.patience import PATIENCE


def _script() -> None:
    from conemodel.ui.practice import page as practise

    practise.page()


class Trainee:
    """Works the page through what is on it: buttons by their labels, gestures as the widgets report them."""

    def __init__(self, **address: str) -> None:
        self.app = AppTest.from_function(_script, default_timeout=PATIENCE)
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

    @property
    def main(self) -> list[str]:
        """The buttons that stand out."""
        return [button.label for button in self.app.button if button.proto.type == "primary"]

    def choose(self, label: str, value: Any) -> "Trainee":
        found: Any = next(
            g
            for kind in ("button_group", "radio", "selectbox")
            for g in self.app.get(kind)
            if getattr(g, "label", None) == label
        )
        found.set_value(value)
        return self.run()

    def hand(
        self, gesture: str, *, set_id: int | None = None, sequence: int | None = None, **told: Any
    ) -> "Trainee":
        stand = self.sitting.stand
        number = stand.handled.get(BENCH, 0) + 1 if sequence is None else sequence
        state = stand.set_of(gesture) if set_id is None else set_id
        done = {"sequence": number, "set_id": state, "gesture": gesture, **told}
        self.app.session_state[stand.key(BENCH)] = {"hand": {"sequence": number, "set_id": 1, "acts": [done]}}
        return self.run()

    def hold(self, what: str, *, on: bool = True) -> "Trainee":
        return self.hand("hold", what=what, on=on)

    def tighten(self, effort: str = "firm") -> "Trainee":
        return self.hand("locknut", effort=effort, technique="nut turned")

    def close(self) -> "Trainee":
        return self.hand("lever", close=True)

    def turn(self, angle: float) -> "Trainee":
        now = self.sitting.stand.bench.hub.shown
        return self.hand("turn", angle=now + angle, turned=angle, stopped=False)

    def rock(self, grip: str = "rim") -> "Trainee":
        return self.hand(grip, cycles=2, knocks=4, brisk=True)

    def twirl(self) -> "Trainee":
        return self.hand("twirl", angle=0.0, turned=7.0, full_turn=True, let_go=False)

    def say(self, mark: int, sure: str) -> "Trainee":
        """Put a mark on the line from loose to tight, say how sure, and that this is what was felt."""
        slider = next(s for s in self.app.select_slider if s.label.startswith("It feels"))
        slider.set_value(mark)
        return self.choose("How sure", sure).press("That is what I felt")

    @property
    def words(self) -> str:
        html = [element.proto.body for element in self.app.get("html")]
        return "\n".join([*html, *(element.value for element in self.app.markdown)])

    @property
    def told(self) -> str:
        return self.sitting.stand.bench.log[-1].told
