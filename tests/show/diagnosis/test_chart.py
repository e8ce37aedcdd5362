"""The picture of a checked hub: valid, true to the numbers it shows, and told in words."""

from typing import Any

import numpy as np
import pytest

from conemodel.base.table import csv_text
from conemodel.base.units import MM
from conemodel.parts.checks import Checks
from conemodel.parts.readings import Play, Readings, Round
from conemodel.show.diagnosis.chart import NAMES, alt_text_spread, spread_chart
from conemodel.show.diagnosis.tables import list_spread
from conemodel.show.formatting import play_words
from conemodel.tasks.diagnosis.diagnose import Diagnosis, diagnose
from tests.show.vega_lite import check_vega_lite
from tests.tasks.diagnosis.simulated import quick_readings

PHONE, PLOT = 300, 200
"""Width and height of what a phone shows of the chart between its axes [px]."""

LETTERS, TALL = 125, 14
"""Width of a curve's name and height of a line of 13 px bold [px]; common practice, no source."""


@pytest.fixture(scope="module")
def loose() -> Diagnosis:
    return diagnose(
        quick_readings(play_open="clear", play_closed="slight", turns="free", clamp="quick release")
    )


@pytest.fixture(scope="module")
def contradictory() -> Diagnosis:
    """Play that grows on closing, while all that is not the hub was cleared."""
    cleared = Checks(
        freehub_rocks="no", headset_or_pivots_rock="no", spokes_loose="no", axle_moves_in_dropouts="no"
    )
    found = Round(rim_open=Play(play=0.2e-3), rim_closed=Play(play=1.5e-3))
    return diagnose(Readings(clamp="quick release", checks=cleared, found=found))


def test_the_chart_is_valid_vega_lite(loose: Diagnosis) -> None:
    # Checked against the schema of Vega-Lite itself.
    chart = spread_chart(loose)
    assert chart is not None
    check_vega_lite(chart)


@pytest.mark.parametrize("which", ["closed", "opened"])
def test_a_curve_holds_nearly_all_that_is_believed_and_peaks_where_it_is_likeliest(
    loose: Diagnosis, which: str
) -> None:
    chart = spread_chart(loose)
    assert chart is not None
    rows = [row for row in chart["data"]["values"] if row["which"] == which]
    at, density = (np.array([row[name] for row in rows]) for name in ("mm", "density"))
    assert np.trapezoid(density, at) == pytest.approx(0.975, abs=0.025)
    believed = getattr(loose, which)
    middle = np.interp(0.5, np.cumsum(density) / density.sum(), at)
    assert middle == pytest.approx(MM.from_si(believed.median), abs=0.1 * (at[-1] - at[0]) / 2)
    low, high = believed.intervals[0.5]
    assert MM.from_si(low) < at[density.argmax()] < MM.from_si(high)


def test_the_band_is_the_good_range(loose: Diagnosis) -> None:
    chart = spread_chart(loose)
    assert chart is not None
    band = chart["layer"][0]["data"]["values"][0]
    edges = MM.from_si(loose.window.tight_edge), MM.from_si(loose.window.loose_edge)
    assert (band["low"], band["high"]) == pytest.approx(edges)


def test_the_turn_read_out_beside_the_pointer_ends_in_the_middle_of_the_good_range(loose: Diagnosis) -> None:
    """Thread: a turn of one pitch, here 1 mm, moves the cone by it."""
    chart = spread_chart(loose)
    assert chart is not None
    row = [row for row in chart["data"]["values"] if row["which"] == "closed"][-1]
    assert row["turn"] == f"{(row['mm'] - MM.from_si(loose.window.target)) * 360:.0f}° in"


def test_it_is_told_in_words(loose: Diagnosis) -> None:
    assert loose.closed is not None
    assert play_words(loose.closed.median, unit=" mm") in alt_text_spread(loose)
    assert "chance of being in it now" in alt_text_spread(loose)


def test_the_csv_holds_the_whole_curve(loose: Diagnosis) -> None:
    lines = [line.split(",") for line in csv_text(list_spread(loose)).splitlines()]
    assert lines[0] == ["clamp", "end_play_mm", "density_per_mm", "chance_below"]
    closed = np.array([[float(cell) for cell in line[1:]] for line in lines if line[0] == "closed"])
    assert np.trapezoid(closed[:, 1], closed[:, 0]) == pytest.approx(1.0, abs=1e-3)
    right = np.interp(
        [MM.from_si(loose.window.tight_edge), MM.from_si(loose.window.loose_edge)], *closed.T[[0, 2]]
    )
    assert right[1] - right[0] == pytest.approx(loose.chance_right, abs=0.01)


def test_contradictory_readings_have_no_picture_and_no_number(contradictory: Diagnosis) -> None:
    assert contradictory.contradictions
    assert spread_chart(contradictory) is None
    assert alt_text_spread(contradictory) == "The end play is not known."
    assert len(csv_text(list_spread(contradictory)).splitlines()) == 1


@pytest.mark.parametrize("clamp", ["nuts", "quick release"])
def test_the_names_of_both_curves_stand_clear_of_each_other(clamp: str) -> None:
    """Geometry: at a phone's width their boxes, as wide as their letters and as high as a line, do not meet."""
    chart = spread_chart(diagnose(quick_readings(play_open="none", play_closed="none", clamp=clamp)))
    assert chart is not None
    # of halo and ink, which lie on each other, the ink
    one, other = {each["mark"]["text"]: each for each in chart["layer"] if is_name(each)}.values()
    (left, foot), (other_left, other_foot) = placed(one), placed(other)
    assert abs(left - other_left) >= LETTERS or abs(foot - other_foot) >= TALL


def is_name(layer: dict[str, Any]) -> bool:
    return layer.get("mark", {}).get("text") in NAMES.values()


def placed(layer: dict[str, Any]) -> tuple[float, float]:
    """Return where a curve's name begins, and how high it stands [px]."""
    mark, peak = layer["mark"], layer["data"]["values"]
    (low, high), (_, top) = (layer["encoding"][way]["scale"]["domain"] for way in ("x", "y"))
    before = LETTERS * {"left": 0.0, "center": 0.5, "right": 1.0}[mark["align"]]
    peak = peak[0] if isinstance(peak, list) else peak
    return PHONE * (peak["mm"] - low) / (high - low) - before, PLOT * peak["density"] / top - mark["dy"]
