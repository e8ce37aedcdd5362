"""Hubs drawn from the prior and measured, with plays and torques solved afresh for each, not read off curves."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from conemodel.base.units import Array
from conemodel.parts.bearing import Pair
from conemodel.parts.clamp_kinds import ClampName
from conemodel.parts.felt_play import PLAY_WORDS, PlayWord
from conemodel.parts.priors import CAUSES, Beliefs
from conemodel.parts.readings import Play, Readings, Round, TurningWord
from conemodel.parts.scenario import Scenario
from conemodel.parts.unknowns.joint import CLAMP_FORCE
from conemodel.solve.equilibrium.unloaded import solve_unloaded
from conemodel.solve.equilibrium.wheel_positions import is_uniform
from conemodel.solve.freeplay.hand_positions import solve_felt_play
from conemodel.solve.stages.clamp import close_clamp
from conemodel.solve.stages.terms import pair_of
from conemodel.solve.wheel.ball_drag import load_drag
from conemodel.solve.wheel.turning import turn_wheel
from conemodel.tasks.diagnosis.cases import Case, likely_causes
from conemodel.tasks.diagnosis.likelihood import (
    TURNING_WORDS,
    Feel,
    hand_chances,
    play_spread,
    turning_chances,
)
from conemodel.tasks.diagnosis.lookup_curves import HAND_LOAD, SWING_POSITIONS, SWING_TURNS, untrue_pair

G = 9.80665


@dataclass
class Truth:
    """One drawn hub."""

    case: Case
    force: float
    shift: float
    opened: float
    drift: float

    @property
    def closed(self) -> float:
        return self.opened - self.shift


class Bench:
    """Draws hubs and reads them as mechanics do."""

    def __init__(self, scenario: Scenario, beliefs: Beliefs, seed: int) -> None:
        self.scenario, self.beliefs = scenario, beliefs
        self.dice = np.random.default_rng(seed)
        self.pair = pair_of(scenario)

    def draw(self, *, sound: bool = False, force: float | None = None, cause: str | None = None) -> Truth:
        believed, dice = self.beliefs, self.dice
        names = [c for c in CAUSES if c == "sound" or c in likely_causes("quick release")]
        chances = np.array([believed.chance(c) for c in names])
        drawn = "sound" if sound else cause or str(dice.choice(names, p=chances / chances.sum()))
        case = self._case(drawn)
        usual = self.shift_at(CLAMP_FORCE.usual, case)
        full = CLAMP_FORCE.usual * believed.clamp_force_factor ** dice.standard_normal()
        newtons = force if force is not None else full * case.closing
        opened = usual + dice.normal(believed.end_play_mean, believed.end_play_spread)
        return Truth(case, newtons, self.shift_at(newtons, case), opened, self._drift())

    def _drift(self) -> float:
        assumed = self.scenario.assumed
        return float(self.dice.uniform(assumed.drift_low, assumed.drift_high))

    def _case(self, cause: str) -> Case:
        b, dice = self.beliefs, self.dice
        plain: dict[str, Any] = {"cause": cause, "weight": 1.0, "nutted": False}
        if cause == "bent":
            return Case(**plain, tilt=float(dice.choice(b.bends)))
        if cause == "skew":
            return Case(**plain, skew=float(dice.choice(b.skews)))
        if cause == "wrong_balls":
            return Case(**plain, odd=float(dice.choice(b.odd_balls)))
        if cause == "rubbing":
            return Case(**plain, rub=float(dice.choice(b.rubs)))
        if cause == "dented":
            return Case(**plain, dent=float(dice.choice(b.dents)))
        if cause in ("worn_thread", "broken_axle"):
            plays = b.thread_play if cause == "worn_thread" else b.broken_play
            return Case(**plain, rocking=float(dice.choice(plays)))
        if cause == "elsewhere":
            return Case(**plain, elsewhere=float(dice.choice(b.play_elsewhere)))
        if cause == "skew_dropouts":
            return Case(**plain, lean=float(dice.choice(b.leans)))
        return Case(**plain, closing=b.idle_clamp_share if cause == "not_clamping" else 1.0)

    def shift_at(self, force: float, case: Case) -> float:
        hub = self.scenario
        if case.cause == "proud":
            far = hub.frame.dropout_thickness + 1e-4
            left, right = (hub.stack.side(s).replace(protrusion=far) for s in ("left", "right"))
            hub = hub.replace(stack=hub.stack.replace(left=left, right=right))
        frame = hub.frame.replace(left_dropout_angle=case.lean, right_dropout_angle=case.lean)
        state = close_clamp(hub.replace(frame=frame, clamp=hub.clamp.replace(force=float(force))))
        return state.shortening + state.left.push + state.right.push - state.dropouts

    def turn(self, truth: Truth, length: float) -> None:
        """Turn the cone by a length along the thread, as well as a hand can, and lock it anew."""
        lead = self.scenario.axle.lead_per_radian
        drift = self._drift()
        truth.opened += length + lead * (self.dice.normal(0.0, self.beliefs.hand_error) - drift + truth.drift)
        truth.drift = drift

    def looks(self, hubs: list[Truth], kinds: tuple[str, ...]) -> Iterator[dict[str, Any]]:
        """Yield what each hub shows; kinds: ``rim_open dial``, ``rim_closed hand``, ``turns_closed``, ``weight``."""
        open_play, closed_play = (self._plays(hubs, ends) for ends in ("opened", "closed"))
        feels = {ends: self._feels(hubs, ends) for ends in ("opened", "closed")}
        for i, hub in enumerate(hubs):
            found: dict[str, Any] = {}
            for kind in kinds:
                what, _, how = kind.partition(" ")
                if how:
                    place, _, clamp = what.rpartition("_")
                    play = (open_play if clamp == "open" else closed_play)[place][i]
                    if place == "rim":
                        play += hub.case.rocking + (hub.case.elsewhere if clamp == "closed" else 0.0)
                    found[what] = self._dial(play, place) if how == "dial" else self._hand(play, place)
                elif what == "weight":
                    grams = self._weight(feels["closed"], i)
                    found["starting_weight"] = grams
                else:
                    ends = "opened" if what == "turns_open" else "closed"
                    one = Feel(*(np.array(part[i]) for part in feels[ends]))
                    found[what] = str(self.dice.choice(TURNING_WORDS, p=turning_chances(one, self.beliefs)))
            yield found

    def _plays(self, hubs: list[Truth], ends: str) -> dict[str, Array]:
        played = np.zeros((2, len(hubs)))
        values = np.array([getattr(hub, ends) for hub in hubs])
        for pair, mine in self._alike(hubs):
            played[:, mine] = solve_felt_play(
                pair, np.clip(values[mine], -1e-4, 0.6e-3),
                rim_radius=self.scenario.wheel.rim_radius, axle_arm=self.scenario.axle.length / 2,
            )  # fmt: skip
        return {"rim": played[0], "axle_end": played[1]}

    def _alike(self, hubs: list[Truth]) -> Iterator[tuple[Pair, npt.NDArray[np.bool_]]]:
        """Yield each way rows are untrue, with the hubs that are so."""
        untrue = [(hub.case.tilt, hub.case.skew, hub.case.odd) for hub in hubs]
        for tilt, skew, odd in dict.fromkeys(untrue):
            mine = np.array([one == (tilt, skew, odd) for one in untrue])
            yield untrue_pair(self.pair, tilt=tilt, skew=skew, odd=odd), mine

    @staticmethod
    def _swing(pair: Pair, end_play: float) -> float:
        if is_uniform(pair):
            return 0.0
        angle = SWING_TURNS * 2 * np.pi * np.arange(SWING_POSITIONS) / SWING_POSITIONS
        return float(np.ptp(turn_wheel(pair, end_play=end_play, angle=angle, load=HAND_LOAD).torque))

    def _feels(self, hubs: list[Truth], ends: str) -> Feel:
        values = np.array([getattr(hub, ends) for hub in hubs])
        torque, preload, swing = np.zeros((3, len(hubs)))
        for pair, mine in self._alike(hubs):
            solution = solve_unloaded(pair, values[mine])
            torque[mine] = load_drag(pair, solution).torque.mean(axis=-1)
            preload[mine] = solution.preload.mean(axis=-1)
            swing[mine] = [self._swing(pair, value) for value in values[mine]]
        row = self.pair.left
        gamma = row.ball_diameter * np.cos(row.contact_angle) / row.pitch_diameter
        ripple = (
            preload / np.sin(row.contact_angle) * row.pitch_diameter / 2 * (1 - gamma) * (1 + gamma) / 2
            * np.pi / 2 / self.beliefs.dent_half_length * np.array([hub.case.dent for hub in hubs])
        )  # fmt: skip
        torque += np.array([hub.case.rub for hub in hubs])
        grit = np.array([float(hub.case.cause == "gritty") for hub in hubs])
        return Feel(torque, ripple, swing, grit)

    def _dial(self, play: float, place: str) -> Play:
        """Read a gauge, at the rim without any push."""
        u = self.beliefs.dial_uncertainty
        read = play + self.dice.normal(0.0, float(play_spread(np.array(play), u, self.beliefs)))
        return Play(play=max(float(read), 0.0), push=0.0 if place == "rim" else None)

    def _hand(self, play: float, place: Any) -> Play:
        chances = hand_chances(np.array(play), place=place, limits=self.scenario.limits, beliefs=self.beliefs)
        return Play(hand=PLAY_WORDS[self.dice.choice(3, p=chances)])

    def _weight(self, feel: Feel, i: int) -> float:
        b, arm = self.beliefs, G * self.scenario.wheel.rim_radius
        torque = float(feel.torque[i])
        spread = np.sqrt(
            b.other_drag_spread**2 + (0.2 * torque) ** 2 + (Round().starting_weight_uncertainty * arm) ** 2
        )
        return max(float((torque + b.other_drag + self.dice.normal(0.0, spread)) / arm), 0.0)


def readings_of(*rounds: dict[str, Any], **more: Any) -> Readings:
    """Return the readings of a quick-release hub from its rounds."""
    names = ["found", *(f"round_{i}" for i in range(2, len(rounds) + 1))]
    values: dict[str, Any] = {n: Round(**r) for n, r in zip(names, rounds, strict=True)}
    return Readings(**{"clamp": "quick release", **values, **more})


def quick_readings(
    *,
    play_open: PlayWord | None = None,
    play_closed: PlayWord | None = None,
    turns: TurningWord | None = None,
    clamp: ClampName | None = None,
) -> Readings:
    """Return the readings of the three quick answers: play open, play closed, how it turns closed."""
    found = Round(rim_open=Play(hand=play_open), rim_closed=Play(hand=play_closed), turns_closed=turns)
    return Readings(clamp=clamp, found=found)
