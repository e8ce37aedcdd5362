"""The sums on the page Method, worked again as they are printed: every one gives the model's own term.

Python's own arithmetic does the working; the sums themselves are Hooke's law and the geometry of a thread.
"""

import re
from pathlib import Path

import pytest

import conemodel as cm
from conemodel.base.units import MM, UM
from conemodel.parts.library import SCENARIOS
from conemodel.parts.scenario import Scenario
from conemodel.show.validation.sums_by_hand import SOLVED, sums_by_hand

ROUNDING = UM.to_si(0.01)
"""What numbers rounded as printed may make of a term [m]."""


def work(numbers: str) -> float:
    """Return what a printed sum comes to [m]."""
    assert re.fullmatch(r"[−+×÷(). 0-9]+", numbers)
    return float(MM.to_si(eval(numbers.translate(str.maketrans("−×÷", "-*/")))))


def check(hub: Scenario) -> list[str]:
    """Work every sum of a hub again; return what has none."""
    sums = sums_by_hand(cm.predict(hub))
    for each in sums:
        if each.numbers:
            assert work(each.numbers) == pytest.approx(each.length, abs=ROUNDING), each.what
    return [each.what for each in sums if each.how == SOLVED]


@pytest.mark.parametrize("path", sorted(SCENARIOS.glob("*.toml")), ids=lambda path: path.stem)
def test_every_sum_of_a_ready_hub_comes_out(path: Path) -> None:
    solved = check(cm.load_scenario(path))
    assert solved[0] == "pinched by finger"
    assert set(solved) <= {
        "pinched by finger",
        "dropouts out of parallel bow the axle",
        "parts grow with heat",
    }


@pytest.mark.parametrize(
    "changes",
    [
        {"technique": "both"},
        {"technique": "cone turned out"},
        {"contact_found": "nut snug"},
        {"cone_held": False},
        {"axle_held": "nothing"},
        {"back_off": 0.0},
    ],
    ids=lambda changes: str(next(iter(changes.values()))),
)
def test_every_sum_comes_out_however_it_is_set(changes: dict[str, object]) -> None:
    for name in ("touring-rear", "unkeyed-locknut", "city-nutted"):
        check(cm.load_scenario(SCENARIOS / f"{name}.toml").with_setting(**changes))


def test_every_term_of_a_hub_is_there() -> None:
    prediction = cm.predict(cm.load_scenario(SCENARIOS / "skew-fork.toml"))
    total = sum(each.length for each in sums_by_hand(prediction))
    assert total == pytest.approx(prediction.stages["ridden"].end_play, abs=1e-12)
