"""The posterior of one hub over all its rounds, on a grid: exact but for the grid, and the same every time.

The grid is laid twice: coarsely over all the prior allows, then finely where the readings left anything. Between
rounds the end play spreads as `between_rounds` says; slack, clamp force and condition stay as they are.
"""

from dataclasses import dataclass, replace

import numpy as np

from conemodel.base.normal import normal_density
from conemodel.base.units import Array
from conemodel.parts.readings import Readings
from conemodel.solve.stages.inputs import inputs_of
from conemodel.solve.stages.locknut import slack_share
from conemodel.solve.stages.terms import setting_terms
from conemodel.tasks.diagnosis.between_rounds import Spread, reach_between, spreads_before, turn_error
from conemodel.tasks.diagnosis.filtering import filter_rounds, look_back, product_of, widen
from conemodel.tasks.diagnosis.model import HubModel
from conemodel.tasks.diagnosis.push import Push
from conemodel.tasks.diagnosis.readings import likelihoods

WIDEST = 5.0
"""Range of the prior looked at, either way [standard deviations]."""

COARSE_POINTS, COARSE_FORCES = 181, 17
"""Points of the first grid."""

FINEST_STEP = 1.5e-6
"""Step of end play below which nothing is gained [m]."""

FINE_POINTS, FINE_FORCES = (121, 361), 25
"""Fewest and most points of end play, and points of clamp force, of the second grid."""

MOST_PLACES = 2_000_000
"""Places of the second grid, over all cases, above which it is laid no finer: what a page can wait for."""

LEFT = 1e-6
"""Share of the most likely below which a place of the coarse grid is left out of the fine one."""

PUSH_LEFT = 1e-3
"""Share of the most likely push below which one is left out of the second grid."""

SLACK_POINTS = 12
"""Thread slacks looked at."""

WORN_SLACK = 3.0
"""A worn-out thread has up to this many times the slack of the loosest sound one [-]. Assumption."""

FINGER_SPREAD = 2e-6
"""Standard error of finger contact [m]: the pinch of different fingers. Assumption."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """Where the posterior is looked at: as-found open end play (n,) [m] and standardised clamp force (m,)."""

    end_play: Array
    force: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Posterior:
    """What is left after all rounds.

    Attributes:
        model: the hub and its cases; grid: where it was looked at.
        chance: of each case, end play and force (c, n, m), summing to 1.
        opened: end play now, clamp open (1, n, 1) [m]; closed: clamp closed (c, n, m) [m].
        log_evidence: logarithm of the density of all readings together.
        mark_fit: density of where the cone was marked over the greatest it could be; 1 where it was not.
        slack: thread slacks (k,) [m]; slack_chance: of each.
        ahead: chance of each case, end play and force before the readings of each round.
        readings: the likelihood of every reading alone, by round and name; ends: open and closed end play then [m].
    """

    model: HubModel
    grid: Grid
    chance: Array
    opened: Array
    closed: Array
    log_evidence: float
    mark_fit: float
    slack: Array
    slack_chance: Array
    ahead: tuple[Array, ...]
    readings: tuple[dict[str, Array], ...]
    ends: tuple[tuple[Array, Array], ...]

    def of(self, cause: str) -> float:
        """Return the chance of a cause now."""
        return float(self.chance[[case.cause == cause for case in self.model.cases]].sum())

    @property
    def of_nuts(self) -> float:
        """Chance that axle nuts hold the wheel."""
        return float(self.chance[[case.nutted for case in self.model.cases]].sum())


def posterior_of(model: HubModel, readings: Readings) -> Posterior:
    """Return the posterior of a hub given all readings."""
    coarse = _run(model, readings, _coarse(model), blur=True)
    left = model.with_pushes(_pushes_left(coarse))
    fine = _fine(coarse, reach_between(model, readings.rounds), len(left.cases))
    return _run(left, readings, fine, blur=False)


def _pushes_left(coarse: Posterior) -> tuple[Push, ...]:
    """Return the pushes of which the coarse posterior left anything."""
    pushes = coarse.model.pushes
    left = coarse.chance.reshape(-1, len(pushes), coarse.grid.end_play.size * coarse.grid.force.size)
    share = left.sum(axis=(0, 2))
    return tuple(push for push, one in zip(pushes, share, strict=True) if one > PUSH_LEFT * share.max())


def _coarse(model: HubModel) -> Grid:
    """Return the first grid."""
    middle, spread = model.beliefs.end_play_mean, model.beliefs.end_play_spread
    low = middle + float(model.usual_shift.min()) - WIDEST * spread
    high = middle + float(model.usual_shift.max()) + WIDEST * spread
    return Grid(
        end_play=np.linspace(max(low, -0.3e-3), min(high, 0.8e-3), COARSE_POINTS),
        force=np.linspace(-3.3, 3.3, COARSE_FORCES),
    )


def _fine(coarse: Posterior, moved: float, cases: int) -> Grid:
    """Return the second grid for so many `cases`, laid where the coarse posterior left anything.

    It is `moved` [m] wider for earlier rounds.
    """
    spans = []
    for values, axes, more in ((coarse.grid.end_play, (0, 2), moved), (coarse.grid.force, (0, 1), 0.0)):
        left = coarse.chance.max(axis=axes)
        at = np.flatnonzero(left > LEFT * left.max())
        wider = 2 * (values[1] - values[0]) + more
        spans.append((values[at[0]] - wider, values[at[-1]] + wider))
    (low, high), (weak, strong) = spans
    fewest, most = FINE_POINTS
    most = max(min(most, MOST_PLACES // (cases * FINE_FORCES)), fewest)
    count = int(np.clip((high - low) / FINEST_STEP, fewest, most))
    return Grid(end_play=np.linspace(low, high, count), force=np.linspace(weak, strong, FINE_FORCES))


def _run(model: HubModel, readings: Readings, grid: Grid, *, blur: bool) -> Posterior:
    """Return the posterior on a grid; `blur` widens sharp readings to the grid's step, so that none falls through."""
    lead = model.scenario.axle.lead_per_radian
    taken = model.shift_at(grid.force)
    opened = grid.end_play[None, :, None]
    each, ends = [], []
    between: list[tuple[Spread, ...]] = []
    for look in readings.rounds:
        opened = opened + look.turned * lead
        found = likelihoods(model, look, opened, opened - taken)
        each.append({name: widen(value) if blur else value for name, value in found.items()})
        ends.append((opened, opened - taken))
        between.append(spreads_before(model, look, grid.end_play))
    prior = _prior(model, grid) * np.ones((len(model.cases), grid.end_play.size, grid.force.size))
    products = [product_of(found, prior.shape) for found in each]
    slack, slack_chance, mark, mark_fit = _marked(model, readings, grid, prior, products, between)
    ahead, evidence = filter_rounds(prior * mark, products, between)
    return Posterior(
        model=model,
        grid=grid,
        chance=ahead[-1],
        opened=ends[-1][0],
        closed=ends[-1][1],
        log_evidence=evidence,
        mark_fit=mark_fit,
        slack=slack,
        slack_chance=slack_chance,
        ahead=tuple(ahead[:-1]),
        readings=tuple(each),
        ends=tuple(ends),
    )


def _marked(
    model: HubModel,
    readings: Readings,
    grid: Grid,
    prior: Array,
    products: list[Array],
    between: list[tuple[Spread, ...]],
) -> tuple[Array, Array, Array, float]:
    """Return the slacks looked at (k,), the chance of each, the likelihood of the mark (c, n, 1), and how it fits."""
    slack, marked = _slack_chances(model, readings, grid)
    even = np.full(slack.size, 1 / slack.size)
    if marked is None:
        return slack, even, np.ones((1, 1, 1)), 1.0
    start = prior * look_back(products, between)
    each = np.array([float((start * one[:, :, None]).sum()) for one in marked])
    mark = np.mean(marked, axis=0)[:, :, None]
    fit = each.mean() / max(float(start.sum()) * mark.max(), 1e-300) if start.sum() > 0.0 else 1.0
    return slack, each / each.sum() if each.sum() > 0.0 else even, mark, float(fit)


def _prior(model: HubModel, grid: Grid) -> Array:
    """Return the prior (c, n, m), summing to 1."""
    off = grid.end_play[None, :, None] - model.usual_shift - model.beliefs.end_play_mean
    play = np.exp(-0.5 * (off / model.beliefs.end_play_spread) ** 2)
    step = (grid.end_play[1] - grid.end_play[0]) / model.beliefs.end_play_spread / np.sqrt(2 * np.pi)
    force = normal_density(grid.force, 1.0)[None, None, :] * (grid.force[1] - grid.force[0])
    return np.asarray(model.weight * play * step * force)


def slack_range(model: HubModel, readings: Readings) -> tuple[float, float]:
    """Return the least and the most axial slack believed of this thread [m]: as measured, or of a sound one.

    What was measured is believed evenly over a span of the same standard error.
    """
    axle, measured = model.scenario.axle, readings.thread_slack
    if measured.size is not None:
        reach = 3**0.5 * measured.uncertainty
        return max(measured.size - reach, 0.0), measured.size + reach
    low, high = axle.backlash_range
    return (low, high) if high > low else model.beliefs.slack_unknown


def _slack_chances(model: HubModel, readings: Readings, grid: Grid) -> tuple[Array, list[Array] | None]:
    """Return the slacks looked at, and for each the likelihood (c, n) of where the cone was found, if marked."""
    low, high = slack_range(model, readings)
    width = (high - low) / SLACK_POINTS
    slack: Array = np.asarray(low + width * (np.arange(SLACK_POINTS) + 0.5), dtype=np.float64)
    if readings.cone_out is None:
        return slack, None
    axle, setting = model.scenario.axle, model.scenario.setting
    marked = model.scenario.with_setting(back_off=readings.cone_out, cone_held=True)
    base = setting_terms(marked, replace(inputs_of(marked), backlash=0.0)).end_play("locked")
    share = slack_share(setting)
    error = np.sqrt(
        (readings.cone_out_uncertainty * axle.lead_per_radian) ** 2
        + turn_error(model.scenario, 0.0) ** 2 / 2
        + FINGER_SPREAD**2
        + (share * width) ** 2 / 12
    )
    worn = np.array([case.cause == "worn_thread" for case in model.cases])[:, None]
    found: list[Array] = []
    for one in slack:
        sound = normal_density(grid.end_play - (base - share * one), error)
        known = readings.thread_slack.size is not None
        far = one if known else high + (one - low) * (WORN_SLACK - 1) * high / (high - low)
        loose = normal_density(grid.end_play - (base - share * far), error)
        found.append(np.where(worn, loose[None], sound[None]))
    return slack, found
