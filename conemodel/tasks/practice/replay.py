"""Replay: what was done to a hub, over what was hidden, beside what a careful hand does with the same hub."""

from dataclasses import dataclass, field

from conemodel.parts.exercise import Kind
from conemodel.parts.scenario import Scenario
from conemodel.tasks.practice.good_path import good_path
from conemodel.tasks.practice.hub_terms import window_for
from conemodel.tasks.practice.missed_check import missed_check
from conemodel.tasks.practice.missed_feel import Cue
from conemodel.tasks.practice.session import Bench
from conemodel.tasks.practice.track import Frame, track_of
from conemodel.tasks.setting.good_range import Window


@dataclass(frozen=True, slots=True, kw_only=True)
class Replay:
    """One hub of an exercise that is done.

    Attributes:
        mine: its path as it was taken; good: that of a careful hand, from the same start.
        cue: what would have told on the way, None where nothing was missed.
        kind: of the exercise; where a hub is only judged its cone stays where it is.
        scenario: the hub as it came; window: its good range, clamped, as it was left.
    """

    mine: tuple[Frame, ...]
    good: tuple[Frame, ...]
    cue: Cue | None
    kind: Kind
    scenario: Scenario = field(repr=False)
    window: Window


def replay_of(bench: Bench, number: int) -> Replay:
    """Return the replay of one hub of an exercise on which the last word was said; `number` from 0."""
    mine = track_of(bench, number)
    return Replay(
        mine=mine,
        good=track_of(good_path(bench, number), number),
        cue=missed_check(bench.exercise, bench.hidden[number], mine),
        kind=bench.exercise.kind,
        scenario=bench.hidden[number].scenario,
        window=window_for(bench.hidden[number], bench.hubs[number]),
    )
