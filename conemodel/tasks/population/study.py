"""Many hubs: how often a fixed back-off lands in the good range, over a stated population."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from conemodel.base.errors import ConemodelError
from conemodel.base.units import Array
from conemodel.parts.crowd import Crowd
from conemodel.tasks.population.histograms import BackOffCurve, BackOffTally, Histogram, Tally
from conemodel.tasks.population.sampling import Drawn, draws, likeliest_window
from conemodel.tasks.setting.chances import Chances
from conemodel.tasks.setting.good_range import find_states

HUBS = 100_000
"""Hubs in a study where no number was given."""

MOST_HUBS = 10_000_000
"""Most hubs of a study: half a minute of work on a small machine."""

CHUNK = 20_000
"""Hubs worked on together."""

QUANTILES = (0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99)
"""Shares of hubs whose bounds are given [-]."""


class Cancelled(ConemodelError):
    """A study was stopped before its end; there is no result."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """All hubs of a study, or those of one kind.

    Attributes:
        name: of the kind; number: how many hubs.
        shares: loose, right and tight at the back-off asked.
        end_play, preload, cone_pressure: value by share of hubs below it [m], [N], [Pa].
        good: good range of the likeliest hub of the kind, clamped; of all hubs what is good for every kind [m].
        spread: clamped end play of the group's hubs.
        curve: shares against the back-off.
    """

    name: str
    number: int
    shares: Chances
    end_play: Mapping[float, float]
    preload: Mapping[float, float]
    cone_pressure: Mapping[float, float]
    good: tuple[float, float]
    spread: Histogram
    curve: BackOffCurve

    @property
    def standard_error(self) -> float:
        """How far the share of right hubs may be off by chance, one standard deviation [-]."""
        right = self.shares.right
        return float(np.sqrt(right * (1 - right) / max(self.number, 1)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Tool:
    """What a tool would buy.

    Attributes:
        name, label: which tool.
        right: share of hubs in the good range with one back-off for all of them [-].
        right_by_kind: the same where each kind of hub has its own best back-off [-].
        back_off: the best one for all [rad], or the first try before a gauge is read.
    """

    name: str
    label: str
    right: float
    right_by_kind: float
    back_off: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ManyHubs:
    """A study of many hubs.

    Attributes:
        crowd: whose hubs; seed; back_off: the fixed one asked about [rad].
        all: every hub; kinds: those of each kind.
        tools: what better tools buy, the plain best back-off first.
        beyond: share of hubs tighter than the tables reach; their preload is given too low [-].
    """

    crowd: Crowd
    seed: int
    back_off: float
    all: Group
    kinds: tuple[Group, ...]
    tools: tuple[Tool, ...]
    beyond: float


def many_hubs(
    crowd: Crowd,
    *,
    hubs: int = HUBS,
    seed: int = 1,
    back_off: float | None = None,
    chunk: int = CHUNK,
    progress: Callable[[float], None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> ManyHubs:
    """Return what becomes of `hubs` hubs of a crowd, each backed off by `back_off` [rad], by default the crowd's own.

    Memory does not grow with the number of hubs. `progress` is told the share done, 0 to 1; `stop` is asked
    after each chunk. Same crowd, numbers and seed, same result, whatever the chunk.

    Raises:
        Cancelled: the study was stopped.
        NotConverged: no balance of forces was found.
    """
    angle = crowd.population.hands.back_off if back_off is None else back_off
    count = _Count(crowd, angle)
    done = 0
    for part in draws(crowd, hubs=hubs, seed=seed, back_off=angle, chunk=chunk):
        if stop is not None and stop():
            raise Cancelled("the study was stopped before its end")
        count.add(part)
        done += part.kind.size
        if progress is not None:
            progress(done / hubs)
    return count.result(seed)


class _Count:
    """Whole numbers only, so that the order of adding does not matter."""

    def __init__(self, crowd: Crowd, back_off: float) -> None:
        kinds = len(crowd.kinds)
        self.crowd, self.back_off = crowd, back_off
        self.end_play = Tally(kinds, low=-4e-3, high=4e-3, bins=80_000)
        self.climb = Tally(kinds, low=0.0, high=30e3 ** (1 / 3), bins=20_000)
        self.pressure = Tally(kinds, low=0.0, high=12e9, bins=24_000)
        self.states = np.zeros((kinds, 3), dtype=np.int64)
        self.curves = {name: BackOffTally(kinds) for name in _TOOLS}
        self.gauged = 0
        self.beyond = 0

    def add(self, part: Drawn) -> None:
        """Count some hubs."""
        self.end_play.add(part.kind, part.end_play)
        self.climb.add(part.kind, np.cbrt(part.preload))
        self.pressure.add(part.kind, part.cone_pressure)
        np.add.at(self.states, (part.kind, part.state + 1), 1)
        for name, curve in self.curves.items():
            low = (part.tight_edge - _TOOLS[name].end_play(part)) / part.lead + self.back_off
            high = (part.loose_edge - _TOOLS[name].end_play(part)) / part.lead + self.back_off
            curve.add(part.kind, low, high)
        self.gauged += int((find_states(part.gauged, part.tight_edge, part.loose_edge) == 0).sum())
        self.beyond += int(part.beyond.sum())

    def result(self, seed: int) -> ManyHubs:
        """Return the study."""
        names = [kind.name for kind in self.crowd.kinds]
        every = np.ones(len(names), dtype=bool)
        total = int(self.states.sum())
        return ManyHubs(
            crowd=self.crowd,
            seed=seed,
            back_off=self.back_off,
            all=self.group("all hubs", every),
            kinds=tuple(self.group(name, np.arange(len(names)) == i) for i, name in enumerate(names)),
            tools=(*self.fixed(), self.gauge(total)),
            beyond=self.beyond / total,
        )

    def group(self, name: str, chosen: npt.NDArray[np.bool_]) -> Group:
        """Return the hubs of the `chosen` kinds as a group."""
        tight, right, loose = (int(n) for n in self.states[chosen].sum(axis=0))
        number = tight + right + loose
        each = max(number, 1)
        climb = self.climb.quantiles(chosen, QUANTILES)
        return Group(
            name=name,
            number=number,
            shares=Chances(loose=loose / each, right=right / each, tight=tight / each),
            end_play=self.end_play.quantiles(chosen, QUANTILES),
            preload={share: value**3 for share, value in climb.items()},
            cone_pressure=self.pressure.quantiles(chosen, QUANTILES),
            good=self.good(chosen),
            spread=self.end_play.histogram(chosen, every=50),
            curve=self.curves["none"].curve(chosen),
        )

    def good(self, chosen: npt.NDArray[np.bool_]) -> tuple[float, float]:
        """Return the range that is good for the likeliest hub of each of the `chosen` kinds [m]."""
        tight, loose = zip(
            *(likeliest_window(self.crowd, int(i)) for i in np.flatnonzero(chosen)), strict=True
        )
        return max(tight), min(loose)

    def fixed(self) -> tuple[Tool, ...]:
        """Return what the best fixed back-off reaches, with each tool that leaves it fixed."""
        return tuple(self.with_tool(name, tally) for name, tally in self.curves.items())

    def with_tool(self, name: str, tally: BackOffTally) -> Tool:
        """Return what one such tool reaches."""
        each = np.eye(len(self.crowd.kinds), dtype=bool)
        numbers = self.states.sum(axis=1)
        angle, right = tally.curve(np.ones(len(each), dtype=bool)).best
        apart = sum(tally.curve(kind).best[1] * n for kind, n in zip(each, numbers, strict=True))
        return Tool(
            name=name,
            label=_TOOLS[name].label,
            right=right,
            right_by_kind=float(apart / numbers.sum()),
            back_off=angle,
        )

    def gauge(self, total: int) -> Tool:
        """Return what one correction by dial gauge reaches."""
        return Tool(
            name="dial_gauge",
            label="dial gauge on the clamped hub, one correction",
            right=self.gauged / total,
            right_by_kind=self.gauged / total,
            back_off=self.crowd.population.tools.first_back_off,
        )


@dataclass(frozen=True, slots=True)
class _Fixed:
    """A tool that leaves the back-off fixed, and the end play of each hub with it."""

    label: str
    end_play: Callable[[Drawn], Array]


_TOOLS = {
    "none": _Fixed("best fixed back-off, no tool", lambda part: part.end_play),
    "keyed_washer": _Fixed("keyed washer in place of a held cone", lambda part: part.keyed),
    "feeler": _Fixed("thread slack measured by feeler", lambda part: part.felt),
    "both": _Fixed("both of these", lambda part: part.keyed + part.felt - part.end_play),
}
