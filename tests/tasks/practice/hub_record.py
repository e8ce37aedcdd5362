"""One hub after an attempt, as the record of acts has it: what was so, worked out apart from what makes the hints."""

from math import radians

from conemodel.tasks.bearing.feel_words import STIFF_LOAD
from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.hub_terms import end_play_of, in_frame, window_for
from conemodel.tasks.practice.marking import HubMark
from conemodel.tasks.practice.session import HubState
from conemodel.tasks.practice.torque_feel import finger_signature
from tests.tasks.practice.attempts import Attempt, Step, open_end_play

UNKNOWN_TO_A_HAND = radians(2.3)
"""Turn of the cone that a careful hand does not tell [rad]; `test_careful_hand.py` has it from the ranges."""


class HubRecord:
    """One hub after an attempt, as the record of acts has it."""

    def __init__(self, made: Attempt, marked: HubMark) -> None:
        self.made, self.marked, self.number = made, marked, marked.hub
        self.secret, self.hub = made.bench.hidden[self.number], made.bench.hubs[self.number]
        self.steps = [step for step in made.steps if step.hub == self.number]
        self.missed = {check.name for check in marked.checks if not check.passed}
        self.lead = self.secret.scenario.axle.lead_per_radian
        self.least = UNKNOWN_TO_A_HAND * self.lead

    def framed(self, hub: HubState | None = None) -> float:
        return end_play_of(self.secret, in_frame(self.secret, hub or self.hub))

    def moved(self, step: Step) -> bool:
        """Whether a step did something to the cone, or would have, had it gone anywhere."""
        action = step.action
        if isinstance(action, a.PutRight) and action.what == "brake":
            return False
        return type(action).moves_cone and (step.after != step.before or isinstance(action, a.TurnCone))

    @property
    def after_move(self) -> list[Step]:
        moves = [i for i, step in enumerate(self.steps) if self.moved(step)]
        return self.steps[moves[-1] + 1 :] if moves else self.steps

    def steps_of(self, kind: type, steps: list[Step] | None = None) -> list[Step]:
        return [step for step in (self.steps if steps is None else steps) if isinstance(step.action, kind)]

    def full_twirls(self, steps: list[Step]) -> list[Step]:
        return [s for s in self.steps_of(a.Twirl, steps) if s.action.full_turn and s.before.closed]  # type: ignore[attr-defined]

    @property
    def twirled(self) -> list[Step]:
        return self.full_twirls(self.after_move)

    @property
    def rocked(self) -> list[Step]:
        return [s for s in self.steps_of(a.Rock, self.after_move) if s.before.closed]

    @property
    def places_rocked_open(self) -> int:
        steps = [step.before for step in self.steps_of(a.Rock) if not step.before.closed]
        return len({(hub.wheel, hub.axle) for hub in steps})

    @property
    def stiff(self) -> bool:
        return bool(self.twirled) and "stiff" in (self.twirled[-1].after.felt.twirled_clamped or ())

    @property
    def free(self) -> bool:
        return bool(self.rocked) and self.rocked[-1].after.felt.rocked_clamped != "none"

    @property
    def tight(self) -> bool:
        return self.framed() < window_for(self.secret, self.hub).tight_edge

    @property
    def loose(self) -> bool:
        return self.framed() > window_for(self.secret, self.hub).loose_edge

    @property
    def right(self) -> bool:
        """In the good range, or so near that no hand tells: by its place, or because it hardly turns harder yet."""
        window, end = window_for(self.secret, self.hub), self.framed()
        load = float(finger_signature(self.secret, in_frame(self.secret, self.hub)).drag.load)
        hard = end < window.tight_edge - self.least and load > 1.12 * STIFF_LOAD
        return end <= window.loose_edge + self.least and not hard

    @property
    def untouched(self) -> bool:
        start = open_end_play(self.made, self.number, self.secret.start)
        return open_end_play(self.made, self.number, self.hub) == start and not any(
            map(self.moved, self.steps)
        )

    @property
    def incurable(self) -> bool:
        """It has a fault that was not put right, as it was drawn."""
        mended = {"proud axle": self.hub.axle_changed, "ball missing": self.hub.balls_made_up, "none": True}
        return not mended.get(self.secret.fault, False)

    @property
    def last_lock(self) -> Step:
        return self.steps_of(a.Tighten)[-1]

    def cured_by(self, way: str, minutes: str) -> bool:
        """Whether the turn that is named brings it into the good range, within what half a minute leaves out."""
        turn = radians(6) * (0.5 if minutes == "half a minute" else _number(minutes))
        window, end = (
            window_for(self.secret, self.hub),
            self.framed() + (turn if way == "out" else -turn) * self.lead,
        )
        return abs(end - window.target) <= radians(1.5) * self.lead + 1e-12

    def saw(self, sight: str) -> list[Step]:
        return [step for step in self.steps_of(a.Look) if step.action.at == sight]  # type: ignore[attr-defined]


def _number(minutes: str) -> float:
    return float(minutes.split()[0].replace("½", "") or 0) + 0.5 * ("½" in minutes)
