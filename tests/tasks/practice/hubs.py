"""Benches for the tests: one hub from an exercise with its hidden numbers chosen by the test."""

from dataclasses import replace
from typing import Any

from conemodel.parts.exercise import Exercise, Prior
from conemodel.parts.scatter import Scatter
from conemodel.tasks.practice.catalogue import ladder, read_link
from conemodel.tasks.practice.hidden_hub import Given, begin
from conemodel.tasks.practice.hub_terms import end_play_of, in_frame, window_for
from conemodel.tasks.practice.session import Bench, HubState

STEADY: dict[str, Any] = {
    "drift": (0.0, 0.0),
    "hand_error": 0.0,
    "nut_drag": (0.0, 0.0),
    "finger_torque": (0.1, 0.1),
    "clamp_force": (5e3, 5e3),
    "thread_clearance": (160e-6, 160e-6),
}
"""A hand without error and a hub without chance, SI."""

STILL = Scatter(play=1.0, drag=1.0, ripple=1.0, pinch=1.0, pull=1.0)
"""Senses that do not scatter."""


def bench_of(
    *, scenario: str = "touring-rear", seed: int = 1, prior: dict[str, Any] | None = None, **exercise: Any
) -> Bench:
    """Return a bench; `prior` over `STEADY`, the rest fields of the exercise."""
    made = Exercise(
        name="test",
        goal="for a test",
        scenario=scenario,
        prior=Prior(**{**STEADY, **(prior or {})}),
        **{"scatter": STILL, **exercise},
    )
    return begin(made, Given(salt="test", seed=seed))


def end_play(bench: Bench) -> float:
    return end_play_of(bench.secret, bench.hub)


def with_hub(bench: Bench, **changes: Any) -> Bench:
    return bench.with_hub(replace(bench.hub, **changes))


def standing_at(bench: Bench, wanted: float) -> Bench:
    """Return the bench with its cone where the end play, as it is now, is `wanted` [m]."""
    return with_hub(bench, cone=bench.hub.cone + wanted - end_play(bench))


def framed(bench: Bench, share: float) -> Bench:
    """Return the bench with its cone at a `share` of the good range once in the frame: 0 tight edge, 1 loose."""
    window = window_for(bench.secret, bench.hub)
    wanted = window.tight_edge + share * window.width
    now = end_play_of(bench.secret, in_frame(bench.secret, bench.hub))
    return with_hub(bench, cone=bench.hub.cone + wanted - now)


def fresh(bench: Bench) -> HubState:
    return bench.secret.start


def open_link(code: str, *, key: str = "") -> Bench:
    """Return the bench a link leads to; `key` is the server's own."""
    link = read_link(code)
    exercise = ladder()[link.exercise]
    played = exercise.replace(assessed=False) if link.training else exercise
    return begin(played, Given(salt=link.drawn_by, seed=link.seed, key=key))
