"""How Check a hub does on simulated hubs that break its assumptions: what a slow test counted, kept in a file.

Thousands of checks take far too long for a page. The test counts them again and holds the file to what it finds; the
command that it names writes the file.
"""

import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any, Literal, get_args

from conemodel.base.units import MM

KEPT = Path(__file__).parent / "calibration.json"
"""Where the counts are kept."""

Told = Literal["nothing", "push", "two pushes", "along", "words"]
"""What a check is told beside a gauge at the rim: nothing; the push; the same again under a harder push; the play along
the axle but no push. Last, words of the hand in place of any gauge."""

TOLD: tuple[Told, ...] = get_args(Told)

TOLD_WORDS: dict[Told, str] = {
    "nothing": "push not said",
    "push": "push said",
    "two pushes": "read under two pushes",
    "along": "push not said, read along the axle too",
    "words": "no gauge, words of the hand",
}
"""The same in words, where a gauge at the rim goes without saying."""

DRAWN = (
    "contact angle 36° to 44°, grooves 0.53 to 0.62 of the ball, rows up to 2.5 mm nearer or further apart, any share "
    "of a thread's core",
    "clamp 5 kN and wheel 60 N/mm: two of three within a factor of 1.4 and of 1.3",
    "end play 0.02 to 0.22 mm with the clamp open; every second hub is read, its cone turned in by 10° to 60°, and "
    "read again",
    "dropouts out of parallel by up to 1°; one hub of ten has a skew cup, one an odd ball, one two faults at once",
    "rim rocked with 0, 2 or 5 N each way; a gauge within 0.02 mm; a turn of the cone within 3° "
    "nineteen times in twenty; a hand that says slight and clear at other plays than usual by a factor of 1.4, and at "
    "others again at the next look",
)
"""What was drawn, fixed before anything was tried: ranges even, factors as one standard deviation of a logarithm."""

WEAK = (
    "one kind of hub: rear, quick release, nine balls a side",
    "how hubs come in is a guess; no count of real hubs stands behind it",
    "balls and races follow the same laws here and there, rigid rings and Hertz; only code and numbers are apart",
    "worn threads, grit, loose cups, proud axles and clamps that do not clamp were not drawn",
)
"""What the trials cannot show."""

BANDS = ((0.0, 0.5), (0.5, 0.8), (0.8, 1.0))
"""Bands of the chance of ending right that is promised with a turn."""

COVERED = (0.75, 0.87)
"""Share of truths that an interval of four times in five is to hold."""

WIDER = 1.2
"""How many times wider than without any push an interval may be that is said to be free of it."""

TURNED, TIGHT = 2 / 3, 0.1
"""Least share of wrong hubs that get a turn, most of the turns that may end tight."""

APART, ENOUGH = 0.1, 30
"""How far promise and outcome may be apart, and the turns from which that can be told."""


def percent(share: float) -> str:
    """Return a share in whole per cent.

    >>> percent(0.934)
    '93 %'
    """
    return f"{100 * share:.0f} %"


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """Turns whose promised chance lies in one of `BANDS`: the mean promised and the share right; None without turns."""

    turns: int
    promised: float | None
    achieved: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Trials:
    """What came of checks of one kind; shares are None where there is nothing to share.

    Attributes:
        told: what they were told; push: on the rim each way [N], None for every push together.
        hubs: checks made; answered: share with an interval for closed end play.
        covered: of those, share with the truth in it; width: median of the intervals [m].
        turned: of hubs that were not right, share with a turn; left: of all, share told to be left alone.
        right, tight: of turns made, share that ended so; left_right: of hubs left alone, share that were right.
        accused: of hubs sound but for their setting, share whose clamp was said not to clamp.
        bands: turns made by what was promised, as `BANDS`.
    """

    told: Told
    push: float | None
    hubs: int
    answered: float
    covered: float | None
    width: float | None
    turned: float | None
    left: float
    right: float | None
    tight: float | None
    left_right: float | None
    accused: float | None
    bands: tuple[Band, ...]

    @property
    def name(self) -> str:
        """What was told and the push, in words."""
        return f"{TOLD_WORDS[self.told]}; {self.pushed}"

    @property
    def pushed(self) -> str:
        """The push in words."""
        if self.told == "words":
            return "any push"
        return "all pushes" if self.push is None else f"{self.push:g} N"


@dataclass(frozen=True, slots=True, kw_only=True)
class Calibration:
    """Every kind of trial.

    Attributes:
        seed: of all that was drawn; hubs: drawn for each push.
        unpushed_width: median interval without any push before checks knew of pushes [m]; unpushed_covered: share of
            those intervals that held the truth.
        trials: of each kind; where nothing or the push was told for each push as well, else the pushes in turn.
    """

    seed: int
    hubs: int
    unpushed_width: float
    unpushed_covered: float
    trials: tuple[Trials, ...]

    def of(self, told: Told, push: float | None = None) -> Trials:
        """Return the trials of one kind."""
        return next(each for each in self.trials if (each.told, each.push) == (told, push))


@lru_cache(maxsize=1)
def kept_calibration() -> Calibration:
    """Return the counts that are kept."""
    kept: dict[str, Any] = json.loads(KEPT.read_text(encoding="utf-8"))
    trials = tuple(_trials(each) for each in kept.pop("trials"))
    return Calibration(**kept, trials=trials)


def _trials(kept: dict[str, Any]) -> Trials:
    bands = tuple(Band(**band) for band in kept.pop("bands"))
    return Trials(**kept, bands=bands)


def goals(found: Calibration) -> tuple[str, ...]:
    """Return in words what the counts are to reach; `misses` tells which they do not."""
    least, most = (percent(share) for share in COVERED)
    return (
        f"an interval of four times in five holds the truth in {least} to {most}: with the push said for each push, "
        "with nothing said over all pushes together",
        f"under two pushes or along the axle it is no wider than {_width(WIDER * found.unpushed_width)}, {WIDER:g} "
        "times what it was without any push before pushes were reckoned with, when it held the truth in "
        f"{percent(found.unpushed_covered)} only",
        f"of hubs that are not right at least {percent(TURNED)} get a turn or a cautious step",
        f"of the turns made at most {percent(TIGHT)} end tight",
        f"with the push said, or not, chances promised and come true are within {100 * APART:.0f} points in each of "
        f"{len(BANDS)} bands that has at least {ENOUGH} turns; fewer turns cannot be judged",
    )


def say_words_kept(found: Calibration) -> str:
    """Return what words of the hand alone promise and keep, band by band: no goal holds them to it."""
    bands = [band for band in found.of("words").bands if band.promised is not None]
    more = all((band.promised or 0.0) > (band.achieved or 0.0) for band in bands)
    each = "; ".join(
        f"{percent(band.promised or 0.0)} promised, {percent(band.achieved or 0.0)} came true ({band.turns} turns)"
        for band in bands
    )
    kept = "promise more than they keep, and" if more else "have their promises counted, but"
    return f"Words of the hand alone {kept} no goal holds them to it: {each}."


def misses(found: Calibration) -> Iterator[str]:
    """Yield in words every goal that the counts miss."""
    for each in found.trials:
        if each.told in ("nothing", "push"):
            yield from _missed_by_turns(each)
        alone = each.told == "push" and each.push is not None
        if alone or (each.told == "nothing" and each.push is None):
            yield from _outside(each, "intervals that hold the truth", each.covered, *COVERED)
        if each.told in ("two pushes", "along"):
            most = WIDER * found.unpushed_width
            yield from _outside(each, "width of the interval", each.width, 0.0, most, say=_width)


def _missed_by_turns(each: Trials) -> Iterator[str]:
    """Yield what the turns that were advised miss."""
    yield from _outside(each, "wrong hubs that get a turn", each.turned, TURNED, 1.0)
    yield from _outside(each, "turns that end tight", each.tight, 0.0, TIGHT)
    if each.push is None:
        for band in each.bands:
            if band.turns >= ENOUGH and band.promised is not None:
                low, high = band.promised - APART, band.promised + APART
                yield from _outside(each, "turns that end right as promised", band.achieved, low, high)


def _outside(
    each: Trials,
    what: str,
    value: float | None,
    low: float,
    high: float,
    *,
    say: Callable[[float], str] = percent,
) -> Iterator[str]:
    """Yield that a value lies outside its goal, or that there is none."""
    if value is None or not low <= value <= high:
        shown = "none" if value is None else say(value)
        yield f"{each.name}: {what} {shown}, wanted {say(low)} to {say(high)}"


def _width(length: float) -> str:
    return f"{MM.from_si(length):.3f} mm"
