"""What hands do to feel a hub: rock it, twirl its axle, spin its wheel, and turn either on between times."""

from dataclasses import dataclass, replace
from typing import ClassVar

from conemodel.tasks.practice.actions.action import Action
from conemodel.tasks.practice.actions.obstacles import axle_not_in_fingers
from conemodel.tasks.practice.rock_feel import Grip, rock_feel
from conemodel.tasks.practice.session import Bench, HubState
from conemodel.tasks.practice.torque_feel import spin_feel, twirl_feel

ROUND = 40
"""Quarter turns after which a position is taken to come again: the balls go round at about half the wheel's pace."""


LITTLE = "Less than a full turn says little."
"""What a twirl of less than a full turn tells."""


@dataclass(frozen=True, slots=True)
class Rock(Action):
    """Rock the wheel, gripped at the rim or at the axle end; briskly enough to knock, or slowly."""

    grip: Grip = "rim"
    brisk: bool = True
    counts: ClassVar[bool] = False

    @property
    def words(self) -> str:
        """What was done."""
        return f"rocked at the {self.grip}, {'briskly' if self.brisk else 'slowly'}"

    def cannot(self, bench: Bench) -> str | None:
        """Return what keeps the axle end from the fingers, or None."""
        return axle_not_in_fingers(bench.hub) if self.grip == "axle end" else None

    def is_felt(self, told: str) -> bool:
        """Return that it is."""
        return True

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with what rocking found."""
        hub = bench.hub
        found = rock_feel(bench.secret, hub, self.grip)
        felt = (
            replace(hub.felt, rocked_clamped=found.word)
            if hub.closed
            else replace(hub.felt, rocked_open=found.word)
        )
        after = replace(hub, felt=felt, positions=hub.positions | {(hub.wheel, hub.axle)}, acts=hub.acts + 1)
        text = found.quick if self.brisk else found.slow
        return bench.with_hub(after), f"At the {self.grip}, {_clamped(hub)}: {text}."


def _clamped(hub: HubState) -> str:
    return "clamped" if hub.closed else "not clamped"


@dataclass(frozen=True, slots=True)
class Twirl(Action):
    """Twirl the axle in the fingers, through a full turn or less."""

    full_turn: bool = True
    counts: ClassVar[bool] = False
    done: ClassVar[str] = "axle twirled"

    def cannot(self, bench: Bench) -> str | None:
        """Return what keeps the axle end from the fingers, or None."""
        return axle_not_in_fingers(bench.hub)

    def is_felt(self, told: str) -> bool:
        """Return whether it was a full turn: less says little."""
        return self.full_turn

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with what twirling found; less than a full turn finds nothing."""
        hub = bench.hub
        if not self.full_turn:
            return bench, LITTLE
        found = twirl_feel(bench.secret, hub)
        felt = replace(hub.felt, twirled_clamped=found.words) if hub.closed else hub.felt
        after = replace(hub, felt=felt, positions=hub.positions | {(hub.wheel, hub.axle)}, acts=hub.acts + 1)
        return bench.with_hub(after), f"Twirled, {_clamped(hub)}: {found.turning}; let go, {found.let_go}."


@dataclass(frozen=True, slots=True)
class Spin(Action):
    """Spin the wheel and let it coast."""

    counts: ClassVar[bool] = False
    done: ClassVar[str] = "wheel spun"

    def is_felt(self, told: str) -> bool:
        """Return that it is."""
        return True

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench as it is, and how the wheel runs."""
        hub = bench.hub
        found = spin_feel(bench.secret, hub)
        return bench.with_hub(replace(hub, acts=hub.acts + 1)), f"The wheel {found.running}."


@dataclass(frozen=True, slots=True)
class TurnWheel(Action):
    """Turn the wheel on by a quarter."""

    group: ClassVar[str] = "feel"
    button: ClassVar[str] = "Turn the wheel a quarter"
    done: ClassVar[str] = "wheel turned a quarter"

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with the wheel further round."""
        hub = replace(bench.hub, wheel=(bench.hub.wheel + 1) % ROUND)
        return bench.with_hub(hub), "The wheel is a quarter further round."


@dataclass(frozen=True, slots=True)
class TurnAxle(Action):
    """Turn the axle on by a quarter."""

    group: ClassVar[str] = "feel"
    button: ClassVar[str] = "Turn the axle a quarter"
    done: ClassVar[str] = "axle turned a quarter"

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with the axle further round."""
        hub = replace(bench.hub, axle=(bench.hub.axle + 1) % ROUND)
        return bench.with_hub(hub), "The axle is a quarter further round."
