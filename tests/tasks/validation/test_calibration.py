"""The counts of simulated checks that Method shows: which goals they meet, and that it says what was drawn."""

from dataclasses import replace
from math import degrees
from typing import Any

import pytest

from conemodel.base.table import csv_text
from conemodel.show.validation.calibration import list_promises, list_trials, say_turns
from conemodel.tasks.validation.calibration import (
    DRAWN,
    TOLD,
    Band,
    Calibration,
    Told,
    Trials,
    goals,
    kept_calibration,
    misses,
    say_words_kept,
)
from tests.tasks.diagnosis.adversarial import hub, mechanic

PUSHED: tuple[Told, Told] = ("nothing", "push")


def trials(told: Told, push: float | None, **changes: Any) -> Trials:
    """Return trials that meet every goal."""
    good = Band(turns=100, promised=0.9, achieved=0.85)
    usual: dict[str, Any] = {
        "told": told, "push": push, "hubs": 300, "answered": 1.0, "covered": 0.8, "width": 18e-6, "turned": 0.9,
        "left": 0.1, "right": 0.9, "tight": 0.05, "left_right": 0.9, "accused": 0.0,
        "bands": (replace(good, turns=29, achieved=0.0), replace(good, promised=0.6, achieved=0.69), good),
    }  # fmt: skip
    return Trials(**{**usual, **changes})


def calibration(told: Told = "words", push: float | None = None, **changes: Any) -> Calibration:
    """Return counts that meet every goal but for what is changed in one kind of trial."""
    kinds: list[tuple[Told, float | None]] = [(t, p) for t in PUSHED for p in (0.0, 2.0, 5.0, None)]
    kinds += [(t, None) for t in TOLD if t not in PUSHED]
    each = [trials(*kind, **(changes if kind == (told, push) else {})) for kind in kinds]
    return Calibration(seed=1, hubs=300, unpushed_width=17e-6, unpushed_covered=0.7, trials=tuple(each))


def test_counts_within_every_goal_miss_none():
    assert list(misses(calibration())) == []


@pytest.mark.parametrize(
    ("told", "push", "changes"),
    [
        ("push", 2.0, {"covered": 0.74}),
        ("push", 0.0, {"covered": 0.88}),
        ("nothing", None, {"covered": 0.74}),
        ("nothing", 5.0, {"tight": 0.11}),
        ("push", 5.0, {"tight": 0.11}),
        ("push", 5.0, {"tight": None}),
        ("nothing", 2.0, {"turned": 0.6}),
        ("two pushes", None, {"width": 20.5e-6}),
        ("along", None, {"width": 20.5e-6}),
        ("push", None, {"bands": (Band(turns=30, promised=0.4, achieved=0.29),)}),
    ],
)
def test_a_goal_that_is_missed_is_named(told, push, changes):
    found = calibration(told, push, **changes)
    (line,) = misses(found)
    assert line.startswith(found.of(told, push).name)
    assert "wanted" in line


def test_what_no_goal_speaks_of_misses_none():
    assert list(misses(calibration("nothing", 5.0, covered=0.5))) == []
    assert list(misses(calibration("words", None, covered=0.5, tight=0.5))) == []
    assert list(misses(calibration("push", None, width=1.0))) == []


def test_the_counts_that_are_kept_are_whole():
    kept = kept_calibration()
    assert kept.hubs >= 300
    assert {each.told for each in kept.trials} == set(TOLD)
    for told in PUSHED:
        assert {each.push for each in kept.trials if each.told == told} == {*mechanic.HARDER, None}
    assert all(each.hubs >= 300 for each in kept.trials)
    for each in kept.trials:  # a turn is in one band
        assert all(0 <= (band.achieved or 0.0) <= 1 for band in each.bands)
        assert sum(band.turns for band in each.bands) <= each.hubs
    assert len(goals(kept)) == 5


def test_tables_have_a_line_for_each_kind():
    kept = kept_calibration()
    assert len(csv_text(list_trials(kept)).splitlines()) == 1 + len(kept.trials)
    together = [each for each in kept.trials if each.push is None]
    assert len(list(list_promises(kept).records)) == 3 * len(together)


def test_bands_of_too_few_turns_say_so_and_words_what_they_keep():
    """Goals judge bands from 30 turns on; by hand, of 0.384 promised 0.327 came true."""
    few, many = Band(turns=29, promised=0.4, achieved=0.0), Band(turns=153, promised=0.384, achieved=0.327)
    assert say_turns(few) == "29, too few to judge"
    assert say_turns(many) == "153"
    assert "at least 30 turns" in goals(calibration())[-1]
    said = say_words_kept(calibration("words", bands=(many, replace(few, turns=0, promised=None))))
    assert "promise more than they keep" in said
    assert "38 % promised, 33 % came true (153 turns)." in said
    assert "promise more" not in say_words_kept(calibration("words", bands=(replace(many, achieved=0.4),)))


def test_method_says_what_is_drawn():
    said = " ".join(DRAWN)
    for phrase in (
        "contact angle {:.0f}° to {:.0f}°".format(*map(degrees, hub.ANGLE)),
        "grooves {:g} to {:g}".format(*hub.GROOVE),
        f"up to {1e3 * hub.SPACING_OFF:g} mm nearer",
        f"clamp {1e-3 * hub.CLAMP:g} kN and wheel {1e-3 * hub.WHEEL:g} N/mm",
        f"a factor of {hub.CLAMP_FACTOR} and of {hub.WHEEL_FACTOR}",
        "end play {:g} to {:g} mm".format(*(1e3 * end for end in hub.OPEN)),
        "by {:.0f}° to {:.0f}°".format(*map(degrees, hub.EARLIER)),
        f"out of parallel by up to {degrees(hub.OUT_OF_PARALLEL):g}°",
        "{:g}, {:g} or {:g} N each way".format(*mechanic.HARDER),
        f"a gauge within {1e3 * mechanic.GAUGE:g} mm",
        f"within {2 * degrees(hub.HAND):g}° nineteen times in twenty",
        f"by a factor of {mechanic.HAND_FACTOR}",
    ):
        assert phrase in said, phrase
