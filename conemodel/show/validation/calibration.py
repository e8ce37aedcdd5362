"""The tables of how checks did on simulated hubs."""

from collections.abc import Iterator
from dataclasses import dataclass

from conemodel.base.table import Column, Table
from conemodel.base.units import MM
from conemodel.tasks.validation.calibration import (
    BANDS,
    ENOUGH,
    TOLD_WORDS,
    Band,
    Calibration,
    Trials,
    percent,
)


def share(value: float | None) -> str:
    """Return a share in whole per cent, a dash where there is none.

    >>> share(0.934), share(None)
    ('93 %', '–')
    """
    return "–" if value is None else percent(value)


def _width(value: float | None) -> str:
    return "–" if value is None else f"{MM.from_si(value):.3f} mm"


_TRIALS: tuple[Column[Trials], ...] = (
    Column(lambda each: TOLD_WORDS[each.told], key="read_and_told", page="Read and told"),
    Column(lambda each: each.pushed, key="pushed", page="Push"),
    Column(lambda each: each.hubs, key="hubs"),
    Column(lambda each: each.covered, key="interval_holds"),
    Column(lambda each: share(each.covered), page="Interval holds"),
    Column(lambda each: each.width, key="interval_width_m"),
    Column(lambda each: _width(each.width), page="Its width"),
    Column(lambda each: each.turned, key="wrong_hubs_turned"),
    Column(lambda each: share(each.turned), page="Turned"),
    Column(lambda each: each.right, key="turns_end_right"),
    Column(lambda each: share(each.right), page="End right"),
    Column(lambda each: each.tight, key="turns_end_tight"),
    Column(lambda each: share(each.tight), page="End tight"),
    Column(lambda each: each.left, key="left_alone"),
    Column(lambda each: each.left_right, key="left_alone_right"),
    Column(lambda each: each.accused, key="sound_hubs_clamp_accused"),
    Column(lambda each: share(each.accused), page="Clamp blamed"),
)


def list_trials(found: Calibration) -> Table[Trials]:
    """Return the table of trials, a line for each kind, for a page and for CSV."""
    return Table(
        _TRIALS, found.trials, caption="How Check a hub did on simulated hubs, in shares", words=True
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Promise:
    """One band of one kind of trial; `span` is the band's."""

    trials: Trials
    span: tuple[float, float]
    band: Band


def say_turns(band: Band) -> str:
    """Return how many turns a band has, and that they are too few to judge it by, where they are."""
    return str(band.turns) if band.turns >= ENOUGH else f"{band.turns}, too few to judge"


_PROMISES: tuple[Column[_Promise], ...] = (
    Column(lambda each: each.trials.name, page="Read and told"),
    Column(lambda each: f"{100 * each.span[0]:.0f} to {share(each.span[1])}", page="Promised"),
    Column(lambda each: share(each.band.promised), page="Mean"),
    Column(lambda each: share(each.band.achieved), page="Ended right"),
    Column(lambda each: say_turns(each.band), page="Turns"),
)


def list_promises(found: Calibration) -> Table[_Promise]:
    """Return the table of what was promised with a turn beside what came of it, every push together."""
    return Table(
        _PROMISES, list(_promises(found)), caption="Chances promised and what came of them", words=True
    )


def _promises(found: Calibration) -> Iterator[_Promise]:
    for trials in found.trials:
        if trials.push is None:
            for span, band in zip(BANDS, trials.bands, strict=True):
                yield _Promise(trials=trials, span=span, band=band)
