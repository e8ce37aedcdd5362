"""What had to be so on one hub: the checks of an exercise, and what must never be ridden."""

from collections.abc import Iterator
from dataclasses import dataclass

from conemodel.parts.exercise import Exercise
from conemodel.tasks.practice.actions.locknut import LINE_MOVED
from conemodel.tasks.practice.careful_hand import least_told
from conemodel.tasks.practice.cone_position import EYE
from conemodel.tasks.practice.hub_terms import clamp_of
from conemodel.tasks.practice.outcome import state_as_it_came
from conemodel.tasks.practice.questions import right_answer
from conemodel.tasks.practice.session import HiddenHub, HubState

DRIFT_HELD = LINE_MOVED[1] + EYE[True]
"""Turn of the cone at locking up to which it was held [rad]: what is clear on a pen line, and the eye's error there."""

PROUD = "the axle stands proud of the dropout: the wheel can come out"
NOT_CLAMPED = "the wheel is not clamped in the frame: it can come out"
LOOSE_NUT = "the locknut is loose: the cone turns as the wheel does"
PLAY = "the wheel has play when clamped"
BRAKE = "the brake is not connected"
"""Why a wheel must not be ridden as it is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Criterion:
    """One thing that had to be: stable name, words, and whether it was."""

    name: str
    label: str
    passed: bool


def checks_of(
    exercise: Exercise, secret: HiddenHub, hub: HubState, *, off: float, locks: int, moves: int
) -> Iterator[Criterion]:
    """Yield everything that had to be on one hub."""
    for question in exercise.questions:
        if question == "refuse" and secret.fault != "thread worn out":
            continue
        right = hub.answer(question) == right_answer(secret, question)
        yield Criterion(name=question, label="the answer is right", passed=right)
    yield from _musts(exercise, secret, hub, locks)
    if exercise.kind == "name":
        return
    if exercise.kind == "touch":
        yield Criterion(name="touch", label="the cone stands at first touch", passed=off == 0.0)
        return
    worn_out = secret.fault == "thread worn out"
    refused = hub.done == "refuse"
    yield Criterion(
        name="refused",
        label="refused where it cannot be adjusted, and only there",
        passed=worn_out == refused,
    )
    if worn_out:
        return
    yield Criterion(name="range", label="ends in the good range, clamped", passed=off == 0.0)
    yield Criterion(name="locked", label="the locknut is tight", passed=hub.lock is not None)
    clamped = hub.felt.rocked_clamped is not None
    yield Criterion(name="clamped", label="rocked clamped after the last move", passed=clamped)
    twirled = hub.felt.twirled_clamped is not None
    yield Criterion(name="twirled", label="twirled a full turn, clamped, after the last move", passed=twirled)
    if exercise.most_locks is not None:
        enough = locks <= exercise.most_locks
        yield Criterion(name="locks", label=f"locked at most {exercise.most_locks} times", passed=enough)
    if exercise.most_moves is not None:
        enough = moves <= exercise.most_moves
        yield Criterion(name="moves", label=f"at most {exercise.most_moves} moves of the cone", passed=enough)
    if secret.start.lock is not None and state_as_it_came(secret) == "right":
        yield Criterion(name="left alone", label="what is right was left alone", passed=not hub.touched)


def touch_within(exercise: Exercise) -> float:
    """Return how near to first touch a cone must end [rad]: never nearer than an eye can set it."""
    return max(exercise.touch_within, least_told(pen=False))


def _musts(exercise: Exercise, secret: HiddenHub, hub: HubState, locks: int) -> Iterator[Criterion]:
    """Yield what the exercise asks for besides."""
    marked = hub.marked_at is not None and hub.locks - hub.marked_at <= 2
    drift = hub.lock is not None and hub.lock.turned_in < DRIFT_HELD
    in_time = "protrusion" in hub.seen and (secret.fault != "proud axle" or hub.axle_changed)
    found = {
        "play felt open": (
            "play was felt open, after the last move",
            hub.felt.rocked_open not in (None, "none"),
        ),
        "drift held": ("the cone hardly turned in at the last locking", drift and locks > 0),
        "three positions": ("felt in at least three positions", len(hub.positions) >= 3),
        "from the mark": ("set from a pen mark in at most two lockings", marked),
        "protrusion first": ("the axle's protrusion was looked at and is right", in_time),
        "balls counted": ("the balls were counted and are all there", _counted(secret, hub)),
    }
    for name in exercise.must:
        label, passed = found[name]
        yield Criterion(name=name, label=label, passed=passed)


def _counted(secret: HiddenHub, hub: HubState) -> bool:
    return "balls" in hub.seen and (secret.fault != "ball missing" or hub.balls_made_up)


def critical_reasons(exercise: Exercise, secret: HiddenHub, hub: HubState, *, off: float) -> Iterator[str]:
    """Yield why a hub said to be done must not be ridden as it is; only where the exercise ends in riding."""
    if not exercise.rides:
        return
    scenario = secret.now(hub)
    if clamp_of(scenario, "dropouts", scenario.setting.lock_torque).proud:
        yield PROUD
    if hub.seat != "dropouts" or not hub.closed:
        yield NOT_CLAMPED
    if hub.lock is None:
        yield LOOSE_NUT
    if off > 0.0:
        yield PLAY
    if not hub.brake_connected:
        yield BRAKE
