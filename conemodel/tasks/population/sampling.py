"""Hubs drawn from a population: from evenly spread numbers to what becomes of each hub."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields

import numpy as np
import numpy.typing as npt

from conemodel.base.units import Array
from conemodel.parts.crowd import Crowd
from conemodel.solve.stages.locknut import SHARE_OF_NUT, slack_share
from conemodel.solve.stages.terms import finger_preload, setting_terms
from conemodel.tasks.population.drawn_inputs import COLUMNS, Draw, draw_inputs
from conemodel.tasks.population.lookup_tables import TIGHTEST, KindTables, nodes_between, tables_of
from conemodel.tasks.setting.good_range import find_states


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn(Draw):
    """What is drawn for n hubs and what becomes of them; every field has shape (n,).

    Attributes:
        kind: number of its kind; thread_slack: [m].
        end_play: clamped [m]; preload: [N]; cone_pressure: worst on a cone from preload alone [Pa].
        tight_edge, loose_edge: of the good range, clamped [m].
        lead: advance of the cone in a radian [m/rad].
        keyed, felt, gauged: end play with a keyed washer, with the slack measured by feeler (both less what the
            tool has taken out, so still to be backed off), and after one correction by dial gauge [m].
        beyond: tighter than the tables reach.
    """

    kind: npt.NDArray[np.int64]
    thread_slack: Array
    end_play: Array
    preload: Array
    cone_pressure: Array
    tight_edge: Array
    loose_edge: Array
    lead: Array
    keyed: Array
    felt: Array
    gauged: Array
    beyond: npt.NDArray[np.bool_]

    @property
    def state(self) -> npt.NDArray[np.int64]:
        """-1 tight, 0 right, 1 loose, as `Window.state` says of one hub."""
        return find_states(self.end_play, self.tight_edge, self.loose_edge)


def draws(crowd: Crowd, *, hubs: int, seed: int, back_off: float, chunk: int) -> Iterator[Drawn]:
    """Yield `hubs` hubs, `chunk` at a time, backed off by `back_off` [rad].

    The same seed gives the same hubs, whatever the chunk; a larger number begins with the smaller one's hubs.
    """
    random = np.random.default_rng(seed)
    for start in range(0, hubs, chunk):
        size = min(chunk, hubs - start)
        yield evaluate_draws(crowd, random.random((size, len(COLUMNS))).T, back_off=back_off)


def evaluate_draws(crowd: Crowd, shares: Array, *, back_off: float) -> Drawn:
    """Return the hubs that evenly spread numbers `shares` (columns, n) between 0 and 1 stand for.

    The rows are `COLUMNS`; without those of `EXTRAS`, the middle is taken for each.

    Raises:
        NotConverged: no balance of forces was found.
    """
    if len(shares) < len(COLUMNS):
        middle = np.full((len(COLUMNS) - len(shares), shares.shape[1]), 0.5)
        shares = np.concatenate((shares, middle))
    ends = np.cumsum(crowd.shares)[:-1]
    kind = np.searchsorted(ends, shares[0], side="right")
    whole: dict[str, Array] = {}
    for number in range(len(crowd.kinds)):
        chosen = np.flatnonzero(kind == number)
        found = _of_kind(crowd, number, dict(zip(COLUMNS, shares[:, chosen], strict=True)), back_off)
        for name, values in found.items():
            whole.setdefault(name, np.empty(kind.size, dtype=values.dtype))[chosen] = values
    return Drawn(kind=kind, **whole)  # type: ignore[arg-type]  # one of them is of truths


def kind_tables(crowd: Crowd, number: int) -> KindTables:
    """Return the tables of one kind of the crowd's hubs.

    Raises:
        NotConverged: no balance of forces was found.
    """
    population = crowd.population
    return tables_of(
        crowd.kinds[number].with_setting(back_off=0.0),
        grooves=nodes_between(*population.groove.ends),
        core_shares=nodes_between(*population.threads.give.ends),
    )


def _of_kind(crowd: Crowd, number: int, shares: Mapping[str, Array], back_off: float) -> dict[str, Array]:
    """Return the fields of `Drawn` for hubs of one kind, their cones held and their axles fast."""
    population, kind = crowd.population, crowd.kinds[number].with_setting(cone_held=True, axle_held="vice")
    tables = kind_tables(crowd, number)
    draw = draw_inputs(population, kind.clamp.kind, shares, back_off)
    inputs = draw.inputs(kind)
    nodes = draw.groove, draw.thread_give
    contact = tables.end_play(np.asarray(finger_preload(kind, inputs)), *nodes)
    end_play = np.asarray(setting_terms(kind, inputs, contact=contact).end_play("clamped"))
    tight, loose = tables.window(*nodes)
    return {
        **{each.name: getattr(draw, each.name) for each in fields(Draw)},
        **_with_tools(crowd, number, draw, shares, end_play=end_play, slack=inputs.backlash),
        "thread_slack": inputs.backlash,
        "end_play": end_play,
        "preload": tables.preload(end_play, *nodes),
        "cone_pressure": tables.cone_pressure(end_play, *nodes),
        "tight_edge": tight,
        "loose_edge": loose,
        "lead": np.full(contact.size, kind.axle.lead_per_radian),
        "beyond": end_play < TIGHTEST,
    }


def _with_tools(
    crowd: Crowd, number: int, draw: Draw, shares: Mapping[str, Array], *, end_play: Array, slack: Array
) -> dict[str, Array]:
    """Return the end plays with each tool [m], from those without and the thread slack [m].

    A keyed washer turns as far as its key lets it, in place of the held cone's drift. Slack that was measured is
    backed off on top, less the error. A dial gauge reads the clamped play of a first, loose try; the cone is then
    brought to the middle of the good range from a mark, with a new drift and a new error of the hand.
    """
    population, kind = crowd.population, crowd.kinds[number]
    tools, hands = population.tools, population.hands
    lead, nut = kind.axle.lead_per_radian, SHARE_OF_NUT[kind.setting.technique]
    keyed = end_play + nut * (draw.drift - tools.keyed_washer.at(shares["key"])) * lead
    felt = end_play + slack_share(kind.setting) * (slack + tools.feeler.at(shares["feeler"]))
    first = (
        end_play
        - draw.back_off * lead
        + (tools.first_back_off + hands.back_off_error.at(shares["back_off_error"])) * lead
    )
    read = np.maximum(first + tools.dial_gauge.at(shares["dial"]), 0.0)
    again = hands.back_off_error.at(shares["second_error"]) - nut * (
        hands.drift.at(shares["second_drift"]) - draw.drift
    )
    aim = sum(likeliest_window(crowd, number)) / 2
    gauged = first - read + aim + again * lead
    return {"keyed": keyed, "felt": felt, "gauged": gauged}


def likeliest_window(crowd: Crowd, number: int) -> tuple[float, float]:
    """Return the good range, clamped, of the likeliest hub of one kind: tight and loose edge [m]."""
    population = crowd.population
    groove, core_share = (np.array([spread.top]) for spread in (population.groove, population.threads.give))
    tight, loose = kind_tables(crowd, number).window(groove, core_share)
    return float(tight[0]), float(loose[0])
