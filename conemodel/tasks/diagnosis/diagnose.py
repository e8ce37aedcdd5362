"""Diagnose: what a hub most likely is, what to do about it, and what to measure next."""

from dataclasses import dataclass

import numpy as np

from conemodel.parts.priors import Beliefs
from conemodel.parts.readings import Readings
from conemodel.parts.scenario import Scenario
from conemodel.parts.setting import State
from conemodel.tasks.diagnosis.answers import (
    Standing,
    adjustment_answer,
    contradicted,
    is_to_be_looked_at,
    masked,
    sound_enough,
    unsafe_answers,
    unsound_answers,
)
from conemodel.tasks.diagnosis.best_turn import Move, best_move
from conemodel.tasks.diagnosis.credible_intervals import Likely, summarise
from conemodel.tasks.diagnosis.evidence import (
    Weighed,
    contradictions,
    gained_on_closing,
    rocking_besides,
    weigh,
)
from conemodel.tasks.diagnosis.fault_list import FoundFault, faults_of
from conemodel.tasks.diagnosis.fit import Fit
from conemodel.tasks.diagnosis.fit_check import fit_check
from conemodel.tasks.diagnosis.model import model_of
from conemodel.tasks.diagnosis.posterior import Posterior, posterior_of
from conemodel.tasks.diagnosis.procedure import steps_for
from conemodel.tasks.diagnosis.value_of_measuring import NextStep, looks_first, next_steps
from conemodel.tasks.headline import Answer, Headline, headline_of
from conemodel.tasks.setting.good_range import Window, window_of

STEP = 1e-6
"""Step to which end plays are told [m]."""

FORCE_STEP = 50.0
"""Step to which clamp forces are told [N]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagnosis:
    """What the readings say, and what to do. With contradictory readings, numbers are None and sentences stand.

    Attributes:
        readings: as given; scenario: the hub computed with; window: its good range, clamped.
        opened, closed: end play now, clamp open and closed [m]; shift: what the clamp takes off it [m].
        clamp_force: [N]; slack: axial slack of the thread [m].
        states: chance that it is loose, right or tight now, clamped.
        move: the turn to make, None where none is advised; leave: it is right, or as near as a hand gets it.
        headline: the largest words, and what stands below them; steps: the work, step by step.
        faults: what no adjustment cures; contradictions: readings that do not go together.
        next_steps: what to measure next, most telling first.
        fits: whether the parts go together; weighed: each reading against the others.
    """

    readings: Readings
    scenario: Scenario
    window: Window
    opened: Likely | None
    closed: Likely | None
    shift: Likely | None
    clamp_force: Likely | None
    slack: Likely | None
    states: dict[State, float] | None
    move: Move | None
    leave: bool
    headline: Headline
    steps: tuple[str, ...]
    faults: tuple[FoundFault, ...]
    contradictions: tuple[str, ...]
    next_steps: tuple[NextStep, ...]
    fits: tuple[Fit, ...]
    weighed: tuple[Weighed, ...]

    @property
    def sentence(self) -> str:
        """The whole in plain words, the most serious first."""
        return self.headline.sentences

    @property
    def unsafe(self) -> tuple[str, ...]:
        """Reasons not to ride, in sentences, most serious first; usually none."""
        return self.headline.unsafe

    @property
    def chance_right(self) -> float | None:
        """Chance that the hub is in its good range now."""
        return None if self.states is None else self.states["right"]


def diagnose(readings: Readings, hub: Scenario | None = None, *, beliefs: Beliefs | None = None) -> Diagnosis:
    """Say what a hub most likely is, what to do, and what to measure next.

    `hub` is the hub as described; without one, a usual hub is taken, front or rear by its width.

    Raises:
        InputProblems: sizes cannot go together.
        NotConverged: no balance of forces was found.

    >>> from conemodel.parts.readings import Play, Readings, Round
    >>> found = Round(rim_open=Play(play=0.9e-3, push=2.0), rim_closed=Play(play=0.3e-3, push=2.0))
    >>> diagnosis = diagnose(Readings(clamp="quick release", found=found))
    >>> diagnosis.move.length < 0 and diagnosis.move.chance > 0.9
    True
    """
    model = model_of(readings, hub, beliefs or Beliefs())
    window = window_of(model.scenario)
    posterior = posterior_of(model, readings)
    weighed = weigh(posterior, readings)
    clashes = contradictions(weighed, posterior, readings)
    fits = fit_check(readings, model.scenario)
    faults = faults_of(posterior, readings, weighed, fits)
    if clashes:  # what was inferred means nothing then; what was seen or measured on the parts still does
        faults = tuple(fault for fault in faults if fault.found != "likely")
    unsafe = unsafe_answers(faults, fits, readings)
    unsound = unsound_answers(faults, posterior, window, readings)
    besides = rocking_besides(readings)
    hidden = (masked(besides),) if besides and gained_on_closing(posterior, readings) else ()
    standing = None if clashes else _stand(posterior, readings, window, faults, unsafe or unsound or hidden)
    if standing is None:
        adjustment = contradicted(clashes)
    elif hidden and not (unsafe or unsound):
        adjustment = hidden[0]
    else:
        adjustment = adjustment_answer(posterior, standing, readings, faults)
    made = standing.made if standing else None
    numbers: dict[str, Likely] = {} if clashes else _summarise(posterior)
    return Diagnosis(
        readings=readings,
        scenario=model.scenario,
        window=window,
        opened=numbers.get("opened"),
        closed=numbers.get("closed"),
        shift=numbers.get("shift"),
        clamp_force=numbers.get("force"),
        slack=numbers.get("slack"),
        states=standing.states if standing else None,
        move=made,
        leave=standing is not None and standing.leave,
        headline=headline_of(unsafe=unsafe, unsound=unsound, adjustment=adjustment),
        steps=steps_for(made, model.scenario, holder=model.holder) if made else (),
        faults=faults,
        contradictions=clashes,
        next_steps=standing.ahead if standing else (),
        fits=fits,
        weighed=weighed,
    )


def _stand(
    posterior: Posterior,
    readings: Readings,
    window: Window,
    faults: tuple[FoundFault, ...],
    stops: tuple[Answer, ...],
) -> Standing:
    """Return where the adjustment stands; without a turn where something `stops` it."""
    ahead = next_steps(posterior, readings, window) if window.width > 0 else ()
    if is_to_be_looked_at(readings, posterior, faults):
        ahead = looks_first(ahead)
    return Standing(
        states=_states(posterior, window),
        move=None if stops else best_move(posterior, window),
        stopped=bool(stops),
        curable=sound_enough(posterior),
        ahead=ahead,
    )


def _summarise(posterior: Posterior) -> dict[str, Likely]:
    """Return what is believed of every number."""
    chance = posterior.chance
    shape = chance.shape
    force = np.stack([middle * factor**posterior.grid.force for _, middle, factor in posterior.model.shifts])
    slack_step = float(posterior.slack[1] - posterior.slack[0])
    return {
        "opened": summarise(np.broadcast_to(posterior.opened, shape), chance, step=STEP),
        "closed": summarise(posterior.closed, chance, step=STEP),
        "shift": summarise(posterior.opened - posterior.closed, chance, step=STEP),
        "force": summarise(np.broadcast_to(force[:, None, :], shape), chance, step=FORCE_STEP),
        "slack": summarise(posterior.slack, posterior.slack_chance, step=slack_step),
    }


def _states(posterior: Posterior, window: Window) -> dict[State, float]:
    """Return the chance of each state now, clamped."""
    closed = np.broadcast_to(posterior.closed, posterior.chance.shape)
    loose = float(posterior.chance[closed > window.loose_edge].sum())
    tight = float(posterior.chance[closed < window.tight_edge].sum())
    return {"loose": loose, "right": max(1 - loose - tight, 0.0), "tight": tight}
