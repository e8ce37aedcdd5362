"""What fingers feel when they turn axle, cone or wheel, as curves for the widgets and as words."""

from dataclasses import dataclass, replace
from math import exp, log, pi
from typing import Any

import numpy as np

from conemodel.base.batch_cache import keep_answers
from conemodel.base.units import Floats
from conemodel.parts.scenario import Scenario
from conemodel.physics.motion import air_torque
from conemodel.solve.equilibrium.unloaded import solve_unloaded
from conemodel.solve.stages.terms import cone_arm, pair_of
from conemodel.tasks.bearing.feel_when_turned import Signature, signature
from conemodel.tasks.bearing.feel_words import FELT_CHANGE, FELT_TORQUE, words_for_turning
from conemodel.tasks.practice.felt_words import words_for_drag
from conemodel.tasks.practice.hub_terms import end_play_of, pinch
from conemodel.tasks.practice.senses import felt
from conemodel.tasks.practice.session import HiddenHub, HubState

END_PLAY_STEP = 1e-6
"""Steps in which end play is taken for what is felt [m]: far finer than a hand, and the same key for a cache."""

BINDS_FROM = 0.3
"""Effort on the cone's spanner from which it binds [N·m]. Assumption."""

TURNS = np.concatenate([np.arange(-64.0, -24.0, 8.0), np.arange(-24.0, 9.0, 2.0)])
"""Where the effort is told, from first touch outward [°]: closely about it, and in to where no push gets."""

TABLE = 360
"""Points a turn of the twirling table."""

SPEEDS = np.array([0.0, 1.0, 2.5, 5.0, 10.0, 20.0, 40.0])
"""Speeds of the coasting curve [rad/s]."""

ROUGHNESS = {"gritty": 0.6, "notchy": 0.5, "tight in one place": 0.2}
"""How rough a wheel sounds by what fingers would say [-]. Assumption."""


TIGHT = "tight in one place"
"""A word of `tasks.bearing.feel_words` that is said otherwise here."""

WANDERS = "tight in a place that wanders from turn to turn"


@dataclass(frozen=True, slots=True, kw_only=True)
class TwirlFeel:
    """Twirling: friction (n,) [N·m] and signed pull (n,) [N·m] over `span` [rad] of the axle; words."""

    friction: tuple[float, ...]
    pull: tuple[float, ...]
    span: float
    grit: float
    words: tuple[str, ...]
    turning: str
    let_go: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnFeel:
    """Turning the cone: where it stands on the clock, and the torque to turn it in at each angle [rad, N·m].

    `angle` and `resist_angle` count outward; the table is empty where the locknut is tight. `mark` is where
    the pen line stood, None without one. `limit`: what stops the hand; `binds`: from where on it binds [N·m].
    """

    angle: float
    mark: float | None
    free: bool
    resist_angle: tuple[float, ...]
    resist_effort: tuple[float, ...]
    limit: float
    binds: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SpinFeel:
    """Coasting: torque [N·m] over speed [rad/s], inertia [kg·m²], roughness 0 to 1; words."""

    speed: tuple[float, ...]
    torque: tuple[float, ...]
    inertia: float
    rough: float
    running: str


@keep_answers(size=1024)
def signature_at(scenario: Scenario, ends: int) -> Signature:
    """Return what the fingers find at an end play given in `END_PLAY_STEP`s."""
    out = ends * END_PLAY_STEP - pinch(scenario).length
    turned = scenario.with_setting(back_off=out / scenario.axle.lead_per_radian, axle_held="vice")
    return signature(turned, stage="backed_off")


def finger_signature(secret: HiddenHub, hub: HubState) -> Signature:
    """Return what the fingers find on the hub as it stands."""
    ends = round(end_play_of(secret, hub) / END_PLAY_STEP)
    return signature_at(secret.now(hub), ends)


def felt_signature(secret: HiddenHub, hub: HubState) -> Signature:
    """Return what this hand finds on the hub the next time: torques and words missed as its senses miss them."""
    true = finger_signature(secret, hub)
    much, uneven = felt(secret, hub, "drag"), felt(secret, hub, "ripple")
    found: dict[str, Any] = {
        "level": true.level * much,
        "once_per_turn": true.once_per_turn * uneven,
        "with_the_balls": true.with_the_balls * uneven,
        "ripple": true.ripple * uneven,
    }
    drag = replace(
        true.drag, load=true.drag.load * much, grease=true.drag.grease * much, seals=true.drag.seals * much
    )
    words = tuple(word for word, _ in words_for_turning(drag, detents=true.detents, **found))
    torque = found["level"] + (true.torque - true.level) * uneven
    return replace(true, torque=torque, drag=drag, words=words, **found)


def round_to_steps(torque: float) -> float:
    """Return a torque in steps of what fingers can tell apart [N·m]; zero below the least they feel."""
    if torque < FELT_TORQUE:
        return 0.0
    step = log(1 + FELT_CHANGE)
    return FELT_TORQUE * exp(round(log(torque / FELT_TORQUE) / step) * step)


def twirl_feel(secret: HiddenHub, hub: HubState) -> TwirlFeel:
    """Return what twirling the axle through a turn is like, the next time."""
    found = felt_signature(secret, hub)
    span = float(found.angle[-1] + found.angle[1])
    varies = any(word in found.words for word in ROUGHNESS)
    count = min(found.angle.size, round(TABLE * span / (2 * pi)))
    at = np.linspace(0.0, span, count, endpoint=False)
    level = round_to_steps(found.level)
    pull = np.interp(at, found.angle, found.torque - found.level, period=span) if varies else np.zeros(2)
    words = tuple(where_tight(found) if word == TIGHT else word for word in found.words)
    drag, let_go = words_for_drag(found.level)
    return TwirlFeel(
        friction=(level, level),
        pull=tuple(round(float(value), 4) for value in pull),
        span=span if varies else 2 * pi,
        grit=0.3 * level if _dry(secret, hub) else 0.0,
        words=(*words, "dry and scratchy") if _dry(secret, hub) else words,
        turning=", ".join((*_qualities(words, dry=_dry(secret, hub)), drag)),
        let_go=let_go,
    )


def where_tight(found: Signature) -> str:
    """Return whether a tight place stays where it is, turn after turn, or goes round with the balls."""
    return "tight in one place, every turn" if found.once_per_turn >= found.with_the_balls else WANDERS


def _dry(secret: HiddenHub, hub: HubState) -> bool:
    return secret.now(hub).condition.grease == "dry"


def _qualities(words: tuple[str, ...], *, dry: bool) -> tuple[str, ...]:
    """Return what fingers say of how it turns, beside how hard: that has its own grades."""
    even = tuple(word for word in words if word not in ("stiff", "thick"))
    return (*even, "dry and scratchy") if dry else even


def turn_feel(secret: HiddenHub, hub: HubState) -> TurnFeel:
    """Return where the cone stands and how hard it turns in; nothing of that with the locknut tight."""
    free = hub.lock is None
    angles, efforts = resist(secret, hub) if free else ((), ())
    much = felt(secret, hub, "drag")
    return TurnFeel(
        angle=hub.shown,
        mark=hub.mark,
        free=free,
        resist_angle=angles,
        resist_effort=tuple(effort * much for effort in efforts),
        limit=secret.push * much,  # where the balls stop the cone, they stop it, whatever it feels like
        binds=BINDS_FROM * much,
    )


def resist(secret: HiddenHub, hub: HubState) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Return the torque to turn the cone in [N·m] over its angle on the clock [rad], in whole degrees."""
    scenario = secret.now(hub)
    lead = scenario.axle.lead_per_radian
    turns = np.radians(TURNS)
    ends = turns * lead
    effort = solve_unloaded(pair_of(scenario), ends).preload.mean(axis=-1) * float(cone_arm(scenario))
    start = hub.shown - end_play_of(secret, hub) / lead
    at = np.radians(np.round(np.degrees(start + turns)))
    falling = np.minimum.accumulate(np.round(effort, 2))
    return tuple(round(float(a), 5) for a in at), tuple(float(e) for e in falling)


def spin_feel(secret: HiddenHub, hub: HubState) -> SpinFeel:
    """Return what the coasting wheel is like, the next time."""
    scenario = secret.now(hub)
    found = felt_signature(secret, hub)
    level = max(round_to_steps(found.level), FELT_TORQUE)
    torque = level + np.asarray(_air(scenario))
    rough = max((ROUGHNESS.get(word, 0.0) for word in found.words), default=0.0)
    rough = max(rough, ROUGHNESS["gritty"] if _dry(secret, hub) else 0.0)
    return SpinFeel(
        speed=tuple(SPEEDS.tolist()),
        torque=tuple(round(float(value), 6) for value in torque),
        inertia=scenario.wheel.rim_inertia,
        rough=rough,
        running="runs rough" if rough >= 0.5 else "runs unevenly" if rough else "runs smooth and quiet",
    )


def _air(scenario: Scenario) -> Floats:
    wheel = scenario.wheel
    return air_torque(drag_area=wheel.air_drag_area, radius=wheel.rim_radius, speed=SPEEDS)
