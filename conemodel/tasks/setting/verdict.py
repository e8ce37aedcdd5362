"""The verdict: loose, right or tight once clamped, and the turn to make, as a range."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from conemodel.base.units import DEG, MM, NEWTON
from conemodel.parts.hub import Side
from conemodel.parts.scenario import Scenario
from conemodel.physics.clamp import required_force_against_removal
from conemodel.solve.stages.clamp import close_clamp
from conemodel.solve.stages.terms import SettingTerms
from conemodel.tasks.setting.advice import is_axle_free, notes_on
from conemodel.tasks.setting.good_range import Window
from conemodel.tasks.setting.sensitivity import Spread
from conemodel.tasks.setting.stage_result import StageResult
from conemodel.tasks.wording import direction, turn_size

State = Literal["loose", "right", "tight"]

LEAST_LOCK = 2.0
"""Torque at the locknut below which it is not locked at all [N·m]. Assumption: what fingers alone can do."""

DO_NOT_RIDE = "Do not ride"
"""How every warning of a wheel that may come out begins."""

REMOVAL_FORCE = 2300.0
"""Pull that must not move a wheel in its dropouts [N]. Source: [EN14766]"""

BEST_GRIP = 0.30
"""Friction of dropout on clamp and locknut at its best [-]: the least clamp force follows. Assumption."""

CURVE_ERROR = 0.01
"""Share by which play read from a curve may miss the limit it was set to [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """A turn of the cone from where it stands.

    Attributes:
        length: along the axle [m]; positive is out, negative in.
        low, high: range over everything assumed [m]: the spreads taken as independent, root of the sum of squares.
        spreads: what each assumption does to it, widest first.
        lead_per_radian: of the axle's thread [m/rad].
    """

    length: float
    low: float
    high: float
    spreads: tuple[Spread, ...]
    lead_per_radian: float

    @property
    def angle(self) -> float:
        """The turn [rad]; positive is out."""
        return self.length / self.lead_per_radian

    @property
    def angle_range(self) -> tuple[float, float]:
        """Its range [rad]."""
        return self.low / self.lead_per_radian, self.high / self.lead_per_radian

    @property
    def widest(self) -> str:
        """The assumption that widens the range most, in words; empty where nothing is assumed."""
        return self.spreads[0].label if self.spreads and self.spreads[0].width > 0 else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What to make of a setting.

    Attributes:
        state: loose, right or tight once clamped.
        unsafe: reasons not to ride, most serious first; usually none.
        sentence: the whole verdict in plain words; begins with the first reason not to ride.
        turn: the turn to make, None where no turn of the cone helps.
        notes: what else should be known.
    """

    state: State
    unsafe: tuple[str, ...]
    sentence: str
    turn: Turn | None
    notes: tuple[str, ...]


def verdict_of(
    scenario: Scenario,
    terms: SettingTerms[float],
    window: Window,
    spreads: tuple[Spread, ...],
    stages: Mapping[str, StageResult],
) -> Verdict:
    """Return the verdict on a setting, from its `stages`, the good range of its hub and what is only assumed.

    It is judged as it rides: clamped, with what heat and creeping cups add where the scenario has them.
    """
    state = window.state(terms.end_play("ridden"))
    obstacle = _obstacle(scenario, terms, window)
    turn = None if obstacle else turn_of(scenario, terms, window, spreads)
    unsafe = (*_proud_axle(scenario, terms), *_weak_clamp(scenario, terms))
    sentences = [
        *unsafe,
        *_describe_states(scenario, terms, window, stages),
        obstacle or _advice(scenario, state, turn),
    ]
    return Verdict(
        state=state,
        unsafe=unsafe,
        sentence=" ".join(sentences),
        turn=turn,
        notes=notes_on(scenario, terms, window, spreads, stages),
    )


def turn_of(
    scenario: Scenario, terms: SettingTerms[float], window: Window, spreads: tuple[Spread, ...]
) -> Turn:
    """Return the turn from where the cone stands to the middle of the good range, and its range."""
    length = window.target - terms.end_play("ridden")
    up = sum(max(spread.high - length, 0.0) ** 2 for spread in spreads) ** 0.5
    down = sum(max(length - spread.low, 0.0) ** 2 for spread in spreads) ** 0.5
    return Turn(
        length=length,
        low=length - down,
        high=length + up,
        spreads=spreads,
        lead_per_radian=scenario.axle.lead_per_radian,
    )


def _proud_in_frame(scenario: Scenario, terms: SettingTerms[float]) -> tuple[Side, ...]:
    """Return the sides on which the axle stands proud once in the frame, whatever the clamp presses on now."""
    if scenario.setting.clamp_seat == "dropouts":
        return terms.clamp.proud
    return close_clamp(scenario.with_setting(clamp_seat="dropouts")).proud


def _proud_axle(scenario: Scenario, terms: SettingTerms[float]) -> tuple[str, ...]:
    """Return the reason not to ride where the axle reaches through a dropout."""
    proud = _proud_in_frame(scenario, terms)
    if not proud:
        return ()
    where = "both ends" if len(proud) == 2 else f"the {proud[0]} end"
    return (
        f"{DO_NOT_RIDE}: the axle stands proud of the dropout at {where}, so the clamp squeezes the axle and not "
        "the frame, and the wheel can come out. No setting of the cone cures that: fit an axle of the right length.",
    )


def _weak_clamp(scenario: Scenario, terms: SettingTerms[float]) -> tuple[str, ...]:
    """Return the reason not to ride where the clamp cannot hold the wheel in open dropouts.

    Source: [EN14766]
    """
    if not scenario.clamp.traits.open_dropouts or scenario.setting.clamp_seat != "dropouts":
        return ()
    needed = required_force_against_removal(removal_force=REMOVAL_FORCE, friction=BEST_GRIP, faces=4)
    if terms.clamp.force >= needed:
        return ()
    return (
        f"{DO_NOT_RIDE}: a clamp force of {NEWTON.from_si(terms.clamp.force):.0f} N does not hold the wheel. Against "
        f"the {NEWTON.from_si(REMOVAL_FORCE):.0f} N a standard pulls at it with, friction alone needs "
        f"{NEWTON.from_si(float(needed)):.0f} N even on faces that grip well.",
    )


def _obstacle(scenario: Scenario, terms: SettingTerms[float], window: Window) -> str:
    """Return why no turn of the cone brings this hub right, or nothing."""
    if _proud_in_frame(scenario, terms):
        return "Put that right before setting the cone."
    if window.width <= 0:
        return (
            "No setting is good all the way round: where it is loose enough in one place it rocks in another. "
            "Look at axle, cones, cups and balls before adjusting."
        )
    if scenario.setting.lock_torque < LEAST_LOCK:
        return "Lock it first: with the locknut hardly tightened nothing keeps the cone where it is."
    if scenario.setting.axle_held == "nothing":
        return "Hold the axle first: it turned with the cone, so turning the cone changed nothing."
    if terms.joint.runs_in:
        return (
            "Hold the cone first: without a key or a spanner it follows the locknut until the balls stop it."
        )
    if terms.joint.far_side_slips:
        return "Lock the far side first: holding it does not keep the axle from turning at this torque."
    return ""


def _describe_states(
    scenario: Scenario, terms: SettingTerms[float], window: Window, stages: Mapping[str, StageResult]
) -> Iterator[str]:
    """Yield what is felt as it rides, and how it is clamped where heat or creeping cups make another state of that."""
    clamped, ridden = (terms.end_play(name) for name in ("clamped", "ridden"))
    if is_axle_free(scenario):
        yield "The axle turned with nut and cone, so what locking did cannot be told."
        when = "If the nut pushed the cone in, then clamped"
        yield _describe_state(scenario, window.state(clamped), stages["clamped"], when=when)
        return
    if ridden == clamped:
        yield _describe_state(scenario, window.state(clamped), stages["clamped"], when="Clamped")
        return
    causes = {"heat": "warm", "cup_moved": "with its cups crept"}
    when = " and ".join(words for key, words in causes.items() if key in terms.lengths["ridden"])
    yield _describe_state(scenario, window.state(ridden), stages["ridden"], when=f"Ridden {when}")
    if window.state(clamped) != window.state(ridden):
        words = {"loose": "loose", "right": "right", "tight": "too tight"}
        yield f"Clamped and as it was set it is {words[window.state(clamped)]}."


def _describe_state(scenario: Scenario, state: State, stage: StageResult, *, when: str) -> str:
    """Return what is felt after a stage, `when` saying which."""
    if not stage.valid:
        how = "loose" if stage.end_play > 0 else "tight"
        return f"{when}, it is far too {how}: the balls leave their races, and no number says how much."
    rim_play, preload = stage.rim_play, stage.preload
    felt = (1 + CURVE_ERROR) * scenario.limits.rim_play
    if state == "loose":
        return f"{when}, it still rocks {MM.from_si(rim_play):.1f} mm at the rim."
    if state == "tight":
        return f"{when}, it is too tight: the balls are pinched with {NEWTON.from_si(preload):.0f} N."
    play = (
        f"it rocks {MM.from_si(rim_play):.1f} mm at the rim"
        if rim_play > felt
        else "no play is felt at the rim"
    )
    pinched = f"are pinched with {NEWTON.from_si(preload):.0f} N" if preload >= 0.5 else "are not pinched"
    return f"{when}, {play} and the balls {pinched}: within the limits."


def _advice(scenario: Scenario, state: State, turn: Turn | None) -> str:
    """Return the turn to make as a sentence."""
    if state == "right" or turn is None:
        return "Leave it."
    spanner = scenario.assumed.spanner_length
    low, high = sorted(abs(angle) for angle in turn.angle_range)
    if turn.low < 0 < turn.high:
        reach = f"from {_way(turn.angle_range[0])} to {_way(turn.angle_range[1])}"
    else:
        reach = f"{DEG.from_si(low):.0f} to {DEG.from_si(high):.0f}°"
    because = f", mostly for not knowing the {turn.widest}" if turn.widest else ""
    return (
        f"Turn the cone {direction(turn.length)} about {turn_size(turn.angle, spanner=spanner)} "
        f"and lock it the same way; {reach}{because}."
    )


def _way(angle: float) -> str:
    return f"{DEG.from_si(abs(angle)):.0f}° {'out' if angle > 0 else 'in'}"
