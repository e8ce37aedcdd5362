"""One hub and everything it may be: what each case would show at each end play and clamp force.

Arrays have three axes: case, end play, clamp force. End play stands for the hub as found, clamp open, before any
round's turn; clamp force for how hard this clamp closes, in standard deviations of its logarithm.
"""

from dataclasses import dataclass, replace
from functools import cached_property
from math import inf, sqrt
from typing import Any

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.clamp_kinds import ClampKind
from conemodel.parts.priors import Beliefs
from conemodel.parts.readings import Readings
from conemodel.parts.scenario import Scenario
from conemodel.solve.stages.clamp_force import ASSUMED, clamp_force
from conemodel.tasks.diagnosis.assumed_hub import described_hub
from conemodel.tasks.diagnosis.cases import Case, cases_of, column, scale_case
from conemodel.tasks.diagnosis.likelihood import Feel
from conemodel.tasks.diagnosis.lookup_curves import (
    LookupGrid,
    Shift,
    curve_of,
    lean_dropouts,
    make_axle_proud,
    shift_of,
)
from conemodel.tasks.diagnosis.push import Push, give_at_rim, pushes_of, wheel_give


@dataclass(frozen=True, kw_only=True)
class HubModel:
    """A hub, its cases and what is believed.

    Attributes:
        scenario: the hub to compute with, held by a quick release or thru-axle unless nuts are certain.
        nutted: the same held by axle nuts, None where that cannot be.
        cases: every way it may be, each once for every push of `pushes`, these running first; beliefs: the prior.
    """

    scenario: Scenario
    nutted: Scenario | None
    cases: tuple[Case, ...]
    beliefs: Beliefs
    pushes: tuple[Push, ...] = (Push(),)

    @property
    def holder(self) -> ClampKind | None:
        """What holds the wheel, None where nobody said: nothing is told to be undone that may not be there."""
        kinds = {case.nutted for case in self.cases}
        return self.scenario.clamp.traits if len(kinds) == 1 else None

    @cached_property
    def bare(self) -> "HubModel":
        """The same without pushes, for readings that no push bears on: what they say holds for every push alike."""
        return replace(self, cases=self.cases[:: len(self.pushes)], pushes=(Push(),))

    def with_pushes(self, pushes: tuple[Push, ...]) -> "HubModel":
        """Return the model with every case once for each of `pushes`."""
        if pushes == self.pushes:
            return self
        count, first = len(self.pushes), self.pushes[0].weight
        bare = [scale_case(case, 1 / first) for case in self.cases[::count]]
        each = [scale_case(case, push.weight) for case in bare for push in pushes]
        return replace(self, cases=tuple(each), pushes=pushes)

    @cached_property
    def curves(self) -> tuple[LookupGrid, ...]:
        """The curves of each case."""
        return tuple(curve_of(self.scenario, case.tilt, case.skew, case.odd) for case in self.cases)

    @cached_property
    def shifts(self) -> tuple[tuple[Shift, float, float], ...]:
        """For each case what its clamp takes off end play, its median force [N] and the spread of its logarithm."""
        return tuple(self._shift(case) for case in self.cases)

    def _shift(self, case: Case) -> tuple[Shift, float, float]:
        hub = self.nutted if case.nutted and self.nutted is not None else self.scenario
        middle, factor = force_of(hub, self.beliefs)
        hub = make_axle_proud(hub) if case.cause == "proud" else lean_dropouts(hub, case.lean)
        return shift_of(hub), middle * case.closing, factor

    @cached_property
    def weight(self) -> Array:
        """Chance of each case (c, 1, 1)."""
        return column(self.cases, "weight")

    @cached_property
    def usual_shift(self) -> Array:
        """What a usual clamp takes off end play, for each case's kind of clamp (c, 1, 1) [m]."""
        taken = [
            float(shift.at(np.array(middle / case.closing)))
            for case, (shift, middle, _) in zip(self.cases, self.shifts, strict=True)
        ]
        return np.array(taken)[:, None, None]

    @cached_property
    def ripple_per_newton(self) -> Array:
        """Ripple of each case per newton of preload (c, 1, 1) [m]: every ball in a dent of the cone at once.

        The balls are pressed with N/(Z sin α); the energy of a dent d cos²(π s/2L) changes along the track by
        π d/2L at most, and the balls go round by (1 + γ)/2 of the wheel (derived; contact width left out).
        """
        row = self.scenario.hub.left
        gamma = row.ball_diameter * np.cos(row.contact_angle) / row.pitch_diameter
        track = row.pitch_diameter / 2 * (1 - gamma)
        steep = np.pi / (2 * self.beliefs.dent_half_length)
        each = steep * track * (1 + gamma) / 2 / np.sin(row.contact_angle)
        return np.asarray(column(self.cases, "dent") * each)

    @cached_property
    def groups(self) -> dict[str, tuple[list[int], list[int]]]:
        """Cases that share curves, and those that share curves and clamp: one of each group, and each case's group."""
        curve = [id(curve) for curve in self.curves]
        both = [(c, id(s), m) for c, (s, m, _) in zip(curve, self.shifts, strict=True)]
        found = {}
        named: tuple[tuple[str, list[Any]], ...] = (("curve", curve), ("both", both))
        for name, keys in named:
            firsts = list(dict.fromkeys(keys))
            found[name] = ([keys.index(key) for key in firsts], [firsts.index(key) for key in keys])
        return found

    def shift_at(self, force: Array) -> Array:
        """Return what the clamp takes off end play at each standardised `force` (m,), (c, 1, m) [m]."""
        rows = [shift.at(middle * factor**force) for shift, middle, factor in self.shifts]
        return np.stack(rows)[:, None, :]

    def read(self, name: str, end_play: Array) -> Array:
        """Return a field of the curves for every case at `end_play` (c or 1, n, m or 1)."""
        if end_play.shape[0] == 1:
            one, back = self.groups["curve"]
            return np.stack([self.curves[i].at(name, end_play[0]) for i in one])[back]
        one, back = self.groups["both"]
        return np.stack([self.curves[i].at(name, end_play[i]) for i in one])[back]

    def play(self, name: str, end_play: Array) -> Array:
        """Return the play a reading such as ``rim_closed`` would meet at `end_play`, with what is not the bearing's."""
        place, _, clamp = name.rpartition("_")
        felt = self.read(place, end_play)
        if place == "rim":
            felt = felt + column(self.cases, "rocking")
            if clamp == "closed":
                felt = felt + column(self.cases, "elsewhere")
        return felt

    def drag(self, end_play: Array) -> Array:
        """Return the torque of the ball loads, with that of what rubs [N·m]."""
        return np.asarray(self.read("torque", end_play) + column(self.cases, "rub"))

    def rim_give(self, push: float | None, end_play: Array) -> Array:
        """Return what wheel and bearing give at the rim under a `push` [N] that was stated, or None, at `end_play` [m].

        Of the shape of `end_play` with every case: (c, n, m or 1).
        """
        count, hub = len(self.pushes), self.scenario
        one, back = ([0], [0] * len(self.bare.cases)) if end_play.shape[0] == 1 else self.bare.groups["both"]
        met = end_play[[count * i for i in one]]
        given = []
        for node in self.pushes:
            wheel = node.give if push is None else node.softness * wheel_give(hub, push)
            hand = node.give * hub.wheel.side_stiffness / 2 if push is None else push
            given.append(wheel + give_at_rim(hub, hand, met))
        each = np.stack(given, axis=1)[back]
        return each.reshape(-1, *each.shape[2:])

    def feel(self, end_play: Array) -> Feel:
        """Return what fingers meet when they turn the hub at `end_play`."""
        preload = self.read("preload", end_play)
        grit = np.array([case.cause == "gritty" for case in self.cases], dtype=np.float64)[:, None, None]
        return Feel(
            torque=self.drag(end_play),
            ripple=preload * self.ripple_per_newton,
            swing=self.read("swing", end_play),
            grit=grit + 0.0 * preload,
        )


LEAST_FACTOR = 1.01
"""Factor either way that stands for a clamp force known exactly [-], so that it still has a density."""


def force_of(scenario: Scenario, beliefs: Beliefs) -> tuple[float, float]:
    """Return the median clamp force [N] and the factor either way that holds two thirds of them.

    The middle is usual for what holds the wheel; neither lies further out than the range assumed of this hub.
    """
    force, source = clamp_force(scenario)
    if source != ASSUMED:
        return force, beliefs.stated_force_factor
    usual = scenario.clamp.traits.force
    low, high = scenario.assumed.clamp_forces(usual, given=scenario.clamp.force)
    narrowest = sqrt(high / low) if low > 0.0 else inf
    return min(max(usual.usual, low), max(high, 1.0)), min(
        max(narrowest, LEAST_FACTOR), beliefs.clamp_force_factor
    )


def model_of(readings: Readings, hub: Scenario | None, beliefs: Beliefs) -> HubModel:
    """Return the model of the hub the readings are about.

    Raises:
        InputProblems: what was given cannot be used, with every mistake.
        NotConverged: no balance of forces was found.
    """
    scenario = described_hub(readings, hub)
    cases = cases_of(readings, scenario, beliefs, hub is not None)
    nutted = None
    if not scenario.clamp.traits.through_axle:
        nutted = scenario
    elif any(case.nutted for case in cases):
        nutted = described_hub(readings.replace(clamp="nuts"), hub)
    bare = HubModel(scenario=scenario, nutted=nutted, cases=cases, beliefs=beliefs)
    return bare.with_pushes(pushes_of(readings, scenario, beliefs))
