"""The hub taken where a mechanic gave no sizes, with what was measured laid over it. Sums by hand."""

from pathlib import Path
from typing import Any

import pytest

from conemodel.parts.hub import SIDES
from conemodel.parts.readings import Readings, Size
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.diagnosis.assumed_hub import described_hub

WIDE = Readings(over_locknut_width=Size(size=135e-3))


def test_a_wider_usual_hub_has_its_cones_as_near_the_locknuts_as_before() -> None:
    """130 mm: 83 + 2 · 5 = 93 mm, 16 mm to each locknut; 135 mm: 5 mm more between, 16 mm still."""
    for readings, distance in ((Readings(), 93e-3), (WIDE, 98e-3)):
        hub = described_hub(readings, None)
        assert hub.cone_distance == pytest.approx(distance)
        assert [hub.thread_separation(side) for side in SIDES] == pytest.approx([16e-3, 16e-3])


def test_a_width_nobody_measured_follows_from_axle_and_protrusions() -> None:
    """146 - 5.5 - 5.6 = 134.9 mm; one end alone says nothing."""
    ends: dict[str, Any] = {"axle_length": Size(size=146e-3), "protrusion_left": Size(size=5.5e-3)}
    hub = described_hub(Readings(**ends, protrusion_right=Size(size=5.6e-3)), None)
    assert hub.hub.over_locknut_width == pytest.approx(134.9e-3)
    assert hub.cone_distance == pytest.approx(97.9e-3)
    assert described_hub(Readings(**ends), None).hub.over_locknut_width == pytest.approx(130e-3)


def test_a_described_hub_keeps_its_rows_and_the_washers_take_up_the_width(root: Path) -> None:
    """135 to 137 mm on rows 88 apart: the cones stay 98 mm apart, each locknut stands 1 mm further out."""
    touring = load_scenario(root / "scenarios" / "touring-rear.toml")
    hub = described_hub(Readings(over_locknut_width=Size(size=137e-3)), touring)
    assert hub.cone_distance == pytest.approx(98e-3)
    assert [hub.thread_separation(side) for side in SIDES] == pytest.approx([17e-3, 17e-3])
