"""Hidden hubs drawn from an exercise's prior, the same for the same link."""

from dataclasses import dataclass, replace
from functools import lru_cache
from math import pi
from pathlib import Path
from typing import NamedTuple

from conemodel.base.errors import InputProblems, Problem
from conemodel.base.units import DEG
from conemodel.parts.bearing import Dents
from conemodel.parts.exercise import Exercise, Fault, Prior
from conemodel.parts.hub import Side
from conemodel.parts.library import SCENARIOS
from conemodel.parts.scenario import Scenario
from conemodel.parts.setting import State
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.practice.hub_terms import end_play_of, in_frame, window_for
from conemodel.tasks.practice.keyed_random import dealt, subkey, uniform, within
from conemodel.tasks.practice.locknut import tighten
from conemodel.tasks.practice.session import Bench, HiddenHub, HubState

CLOCK_STEP = DEG.to_si(6.0)
"""Where the cone stands on the clock at the start, in these steps [rad]: one minute."""

RIGHT_PART = 0.6
"""Part of the good range, about its middle, in which a hub drawn as right lies [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """What decides the hidden numbers: the class's salt, the seed, and the server's own key.

    The link carries salt and seed. `key` stays on the server: without it the same link gives other numbers.
    """

    salt: str
    seed: int
    key: str = ""


def begin(exercise: Exercise, given: Given, *, sitting: str = "", scenarios: Path = SCENARIOS) -> Bench:
    """Return the bench at the start of an exercise; `sitting` is the key of one that goes on, by default a new one.

    Raises:
        InputProblems: its scenario cannot be used.
    """
    base = scenario_of(scenarios / f"{exercise.scenario}.toml")
    key = subkey(given.key, exercise.name, given.salt, given.seed)
    sitting = sitting or subkey(key, "sitting")
    hidden = tuple(
        _hub(exercise, base, i, subkey(key, "hub", i), sitting, kind=kind)
        for i, kind in enumerate(_deal_kinds(exercise, given, key))
    )
    return Bench(exercise=exercise, hidden=hidden, hubs=tuple(hub.start for hub in hidden))


@lru_cache(maxsize=64)
def scenario_of(path: Path) -> Scenario:
    """Return the scenario of a file, as it is there.

    Raises:
        InputProblems: it cannot be used.
    """
    return load_scenario(path)


class _Kind(NamedTuple):
    """What kind of hub it is."""

    state: State
    fault: Fault


def _deal_kinds(exercise: Exercise, given: Given, key: str) -> list[_Kind]:
    """Return what kinds the hubs of a link are: over the links of a class every kind comes up, none much oftener."""
    deal, first = subkey(given.key, exercise.name, given.salt), given.seed * exercise.hubs
    kinds = []
    for number in range(exercise.hubs):
        prior = exercise.prior_of(number)
        among = [_Kind(state, fault) for fault in prior.faults for state in prior.states]
        kinds.append(dealt(deal, "kind", first + number, among=among))
    if exercise.last_differs:
        return kinds
    # in an order of their own, so that those before say little of the next
    order = sorted(range(len(kinds)), key=lambda place: subkey(key, "order", place))
    return [kinds[place] for place in order]


def _hub(
    exercise: Exercise, base: Scenario, number: int, key: str, sitting: str, *, kind: _Kind
) -> HiddenHub:
    """Return one hidden hub."""
    prior = exercise.prior_of(number)
    mended = _draw_base(prior, base, key)
    secret = HiddenHub(
        scenario=_with_fault(prior, mended, kind.fault, key),
        mended=mended,
        key=key,
        push=within(key, "push", prior.push),
        drift=prior.drift,
        hand_error=prior.hand_error,
        nut_drag=prior.nut_drag,
        scatter=exercise.scatter,
        sitting=sitting,
        fault=kind.fault,
        state=kind.state,
        start=HubState(cone=0.0, shown=0.0),
    )
    return replace(secret, start=_start(exercise, prior, secret))


def _draw_base(prior: Prior, base: Scenario, key: str) -> Scenario:
    """Return the base scenario with its thread fit, clamp force, fingers and wheel drawn."""
    clearance = prior.thread_clearance or base.axle.pitch_clearance_range
    wheel = base.wheel
    if prior.wheel_stiffness is not None:
        wheel = wheel.replace(side_stiffness=within(key, "wheel", prior.wheel_stiffness))
    force = within(key, "clamp force", prior.clamp_force)
    return base.replace(
        axle=base.axle.replace(thread_clearance=within(key, "clearance", clearance)),
        clamp=base.clamp.replace(force=force, pick_up=None, torque=None),
        setting=base.setting.replace(finger_torque=within(key, "fingers", prior.finger_torque)),
        wheel=wheel,
    )


def _with_fault(prior: Prior, scenario: Scenario, fault: Fault, key: str) -> Scenario:
    """Return the scenario with what is wrong with it."""
    side: Side = scenario.hub.adjustable_side
    condition = scenario.condition
    row, balls = getattr(condition, side), getattr(scenario.hub, side).ball_count
    match fault:
        case "bent axle":
            tilted = row.replace(
                cone_tilt=(within(key, "cone tilt", prior.cone_tilt), 0.0),
                cup_tilt=(within(key, "cup tilt", prior.cup_tilt), 0.0),
            )
            return scenario.replace(condition=condition.replace(**{side: tilted}))
        case "odd ball":
            odd = (within(key, "oversize", prior.oversize), *([0.0] * (balls - 1)))
            return scenario.replace(condition=condition.replace(**{side: row.replace(ball_oversize=odd)}))
        case "dents":
            dents = Dents(count=balls, depth=within(key, "depth", prior.dent_depth))
            return scenario.replace(condition=condition.replace(**{side: row.replace(cone_dents=dents)}))
        case "dry grease":
            return scenario.replace(condition=condition.replace(grease="dry"))
        case "ball missing":
            short = getattr(scenario.hub, side).replace(ball_count=balls - 1)
            return scenario.replace(hub=scenario.hub.replace(**{side: short}))
        case "proud axle":
            out = scenario.frame.dropout_thickness + within(key, "proud", prior.proud_by)
            stack = scenario.stack.side(side).replace(protrusion=out)
            return scenario.replace(stack=scenario.stack.replace(**{side: stack}))
    return scenario


def _start(exercise: Exercise, prior: Prior, secret: HiddenHub) -> HubState:
    """Return how a hub comes to the bench: loosely put together, or locked as found."""
    key, lead = secret.key, secret.scenario.axle.lead_per_radian
    shown = round(uniform(key, "clock", low=0.0, high=2 * pi) / CLOCK_STEP) * CLOCK_STEP
    hub = HubState(
        cone=within(key, "cone out", prior.cone_out) * lead,
        shown=shown,
        brake_connected=not exercise.brake_loose,
    )
    if exercise.start == "locked":
        hub = _lock(prior, secret, hub)
    if exercise.pen:
        hub = replace(hub, mark=shown, marked_at=0)
    return replace(hub, seat=exercise.seat, closed=exercise.seat is not None)


def _lock(prior: Prior, secret: HiddenHub, hub: HubState) -> HubState:
    """Return the hub locked by someone before, so that in the frame it is as drawn: loose, right or tight."""
    ready = replace(hub, cone=0.0, cone_held=True, axle_held="vice")
    lock = tighten(secret, ready, effort="firm", technique="nut turned").lock
    locked = replace(hub, cone=0.0, lock=lock)
    window = window_for(secret, locked)
    beyond = within(secret.key, "beyond", prior.beyond) * secret.scenario.axle.lead_per_radian
    inside = uniform(secret.key, "inside", low=-RIGHT_PART / 2, high=RIGHT_PART / 2) * window.width
    wanted = {
        "loose": window.loose_edge + beyond,
        "right": window.target + inside,
        "tight": window.tight_edge - beyond,
    }[secret.state]
    return replace(locked, cone=wanted - end_play_of(secret, in_frame(secret, locked)))


def reference(exercise: Exercise, state: State, *, sitting: str = "", scenarios: Path = SCENARIOS) -> Bench:
    """Return a hub known to be loose, right or tight, clamped on spacers, to be felt beside one's own.

    It is the exercise's scenario as its file has it, and has nothing of the hidden hubs. Felt in the `sitting` of
    one's own, it is missed by as much: what is alike feels alike. It is known, so its words are told at once.

    Raises:
        InputProblems: the exercise is assessed.
    """
    if exercise.assessed:
        problem = Problem(where="reference", value=state, limit="cannot be felt beside an assessed exercise")
        raise InputProblems([problem])
    sound = exercise.replace(
        name=f"reference, {state}",
        kind="name",
        start="locked",
        hubs=1,
        needed=1,
        seat="spacers on locknuts",
        prior=Prior(states=(state,)),
        last_differs=False,
        questions=(),
    )
    bench = begin(sound, Given(salt="reference", seed=0), sitting=sitting, scenarios=scenarios)
    return replace(bench, words=True)
