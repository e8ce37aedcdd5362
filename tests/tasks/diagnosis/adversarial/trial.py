"""A trial: what a mechanic found goes to the diagnosis, the turn it advises is made, and the true hub is looked at.

Here the package is asked, and here alone: for its answer, and for the good range of the true hub, which is what right
means. It is given readings, never the hub: it takes the usual one of that width.
"""

from dataclasses import dataclass
from typing import Any, Literal

import numpy as np

from conemodel.parts.readings import Readings, Round
from conemodel.tasks.diagnosis.assumed_hub import usual_hub
from conemodel.tasks.diagnosis.diagnose import Diagnosis, diagnose
from conemodel.tasks.setting.good_range import Window, window_of
from conemodel.tasks.validation.calibration import Told
from tests.tasks.diagnosis.adversarial.hub import HAND, LEAD, Hub, draw_hub
from tests.tasks.diagnosis.adversarial.looks import CLAMPS, Look, look_at
from tests.tasks.diagnosis.adversarial.mechanic import HARDER, Found, find
from tests.tasks.diagnosis.adversarial.truth import Truth, find_truth

HUB, MECHANIC, TURN, STANDING = range(4)
"""Streams of chance that every hub has of its own, so that one hub is the same whatever else is tried."""


@dataclass(frozen=True, kw_only=True)
class Bench:
    """Hubs, what is so of them, what they do at the first and the second look, and the good range of each."""

    seed: int
    truth: Truth
    looks: tuple[Look, Look]
    windows: list[Window]

    def __len__(self) -> int:
        return len(self.windows)


def set_up(count: int, seed: int) -> Bench:
    """Return `count` hubs on the bench."""
    hubs = [draw_hub(_dice(seed, number, HUB), again=number % 2 == 1) for number in range(count)]
    truth = find_truth(hubs)
    pushes = tuple(sorted({0.0, *HARDER, *HARDER.values()}))
    opened = np.array([(hub.opens[0], hub.opens[-1]) for hub in hubs]).T
    first, last = (
        look_at(truth, ends, np.random.default_rng([seed, STANDING, look]), pushes)
        for look, ends in enumerate(opened)
    )
    windows = [window_of(_scenario(hub)) for hub in hubs]
    return Bench(seed=seed, truth=truth, looks=(first, last), windows=windows)


def _dice(seed: int, number: int, stream: int) -> np.random.Generator:
    return np.random.default_rng([seed, number, stream])


def _scenario(hub: Hub) -> Any:
    """Return a true hub as the package describes one, for its good range."""
    usual = usual_hub("rear")
    rows = {
        side: getattr(usual.hub, side).replace(
            contact_angle=hub.angle, cone_conformity=hub.cone_groove, cup_conformity=hub.cup_groove
        )
        for side in ("left", "right")
    }
    conditions = {
        side: getattr(usual.condition, side).replace(
            cone_tilt=tuple(map(float, hub.cone_tilt[row])),
            cup_tilt=tuple(map(float, hub.cup_tilt[row])),
            ball_oversize=tuple(map(float, hub.oversize[row])) if hub.oversize[row].any() else 0.0,
        )
        for row, side in enumerate(("left", "right"))
    }
    wider = hub.spacing - usual.hub.row_spacing
    width = usual.hub.over_locknut_width + wider
    return usual.replace(
        hub=usual.hub.replace(**rows, row_spacing=hub.spacing, over_locknut_width=width),
        axle=usual.axle.replace(thread_core_share=hub.core_share, length=usual.axle.length + wider),
        frame=usual.frame.replace(dropout_width=width),
        clamp=usual.clamp.replace(force=hub.clamp),
        condition=usual.condition.replace(**conditions),
    )


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """What came of one hub.

    Attributes:
        sound: nothing was the matter but its setting; before, after: its state found, and after what was advised.
        interval: where the answer has closed end play four times in five [m], None without an answer.
        truth: where it was [m].
        advice: a turn, to leave it, or nothing of the kind.
        promised: the chance of ending right that was told with the advice.
        accused: the clamp is told to be one that does not clamp.
    """

    sound: bool
    before: str
    after: str
    interval: tuple[float, float] | None
    truth: float
    advice: Literal["turn", "leave", "nothing"]
    promised: float
    accused: bool

    @property
    def covered(self) -> bool:
        """Whether the interval holds the truth."""
        return self.interval is not None and self.interval[0] <= self.truth <= self.interval[1]


def try_all(bench: Bench, *, pushes: tuple[float, ...], told: Told) -> list[Outcome]:
    """Return what comes of every hub rocked with one of `pushes` [N] each way, taken in turn."""
    return [_try_one(bench, number, pushes[number % len(pushes)], told) for number in range(len(bench))]


def _try_one(bench: Bench, number: int, push: float, told: Told) -> Outcome:
    hub, window = bench.truth.hubs[number], bench.windows[number]
    looks = bench.looks[2 - len(hub.opens) :]
    found = find(hub, number, list(looks), push, _dice(bench.seed, number, MECHANIC))
    diagnosis = diagnose(readings_of(hub, found, told))
    closed, turn = float(bench.truth.closed[number]), 0.0
    if diagnosis.move is not None:
        turn = diagnosis.move.angle + HAND * _dice(bench.seed, number, TURN).standard_normal()
    return Outcome(
        sound=not hub.faults,
        before=window.state(closed),
        after=window.state(closed + LEAD * turn),
        interval=None if diagnosis.closed is None else diagnosis.closed.intervals[0.8],
        truth=float(bench.truth.free[number]),
        advice="turn" if diagnosis.move else "leave" if diagnosis.leave else "nothing",
        promised=_promised(diagnosis),
        accused=any(fault.key == "not_clamping" and fault.blocks for fault in diagnosis.faults),
    )


def _promised(diagnosis: Diagnosis) -> float:
    """Return the chance of ending right that goes with the advice."""
    if diagnosis.move is not None:
        return diagnosis.move.chance
    return diagnosis.chance_right or 0.0


def readings_of(hub: Hub, found: list[Found], told: Told) -> Readings:
    """Return what was found as the package takes it."""
    rounds = [_round_of(one, told) for one in found]
    if len(rounds) == 1:
        return Readings(clamp="quick release", found=rounds[0])
    turned = rounds[1].replace(turned_in=hub.earlier)
    return Readings(clamp="quick release", found=rounds[0], round_2=turned)


def _round_of(found: Found, told: Told) -> Round:
    """Return one look as the package takes it."""
    read: dict[str, Any] = {f"turns_{clamp}": found.turns[clamp] for clamp in CLAMPS}
    read["axle_end_open"] = {"hand": found.axle_end_word["open"]}
    for clamp in CLAMPS:
        read[f"rim_{clamp}"] = _at_rim(found, clamp, told)
        if told == "along":
            read[f"axle_along_{clamp}"] = {"play": found.along[clamp]}
    return Round(**read)


def _at_rim(found: Found, clamp: str, told: Told) -> dict[str, Any]:
    """Return the play at the rim with what is told of the push."""
    if told == "words":
        return {"hand": found.rim_word[clamp]}
    pushed = {"push": found.push} if told in ("push", "two pushes") else {}
    harder = (
        {"play_hard": found.harder[clamp], "push_hard": HARDER[found.push]} if told == "two pushes" else {}
    )
    return {"play": found.rim[clamp], **pushed, **harder}
