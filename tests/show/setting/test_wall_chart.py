"""The wall chart says what the program answers for each clamp, read at two metres and without colour."""

import math
import re

import numpy as np
import pytest
from matplotlib.colors import to_rgb
from matplotlib.text import Text

from conemodel.base.units import MINUTE
from conemodel.parts.toml_files import load_scenario
from conemodel.show.paper.files import to_pdf
from conemodel.show.paper.sheet import PAPERS
from conemodel.show.setting.text import CAUTION
from conemodel.show.setting.wall_chart import FAR, NEAR, wall_chart_figure
from conemodel.tasks.setting.by_clamp import back_offs_by_clamp
from conemodel.tasks.setting.predict import predict
from tests.show.paper.words import off_the_sheet, overlapping, said

HUBS = ("touring-rear", "city-nutted", "thru-axle", "skew-fork", "proud-axle", "one-ball-short")


def hub(root, name="touring-rear"):
    return load_scenario(root / "scenarios" / f"{name}.toml")


@pytest.mark.parametrize("name", ["touring-rear", "city-nutted", "skew-fork"])
def test_both_ends_of_the_good_range_are_where_a_prediction_turns_from_right(root, name):
    """Each row again, by setting the cone there and predicting: a hair inside is right, a hair outside is not."""
    scenario = hub(root, name)
    for row in back_offs_by_clamp(scenario):
        clamp = scenario.clamp.replace(kind=row.kind_name, force=row.force, pick_up=None, torque=None)
        held = scenario.replace(clamp=clamp)
        assert row.good is not None
        low, high = row.good
        states = [
            predict(held.with_setting(back_off=angle)).verdict.state
            for end in (low, high)
            for angle in (end - 1e-4, end + 1e-4)
        ]
        assert states == ["tight", "right", "right", "loose"]


def test_a_harder_clamp_asks_for_more_and_nuts_for_least(root):
    """A quick release squeezes the axle, which nuts do not: the law of the stack, whatever its numbers."""
    gently, usual, hard, nuts = back_offs_by_clamp(hub(root))
    assert nuts.first < gently.first < usual.first < hard.first


def test_a_hub_gets_the_clamps_it_can_have(root):
    kinds = {name: {row.kind_name for row in back_offs_by_clamp(hub(root, name))} for name in HUBS[:3]}
    assert kinds == {
        "touring-rear": {"quick release", "nuts"},
        "city-nutted": {"nuts"},
        "thru-axle": {"thru-axle"},
    }


@pytest.mark.parametrize(
    ("paper", "name"), [*(("A4", name) for name in HUBS), ("A3", "touring-rear"), ("Letter", "skew-fork")]
)
def test_no_words_lie_over_others_or_off_the_sheet(root, paper, name):
    figure = wall_chart_figure(hub(root, name), paper=paper)
    assert figure.get_size_inches() * 25.4 == pytest.approx(PAPERS[paper])
    assert overlapping(figure) == []
    assert off_the_sheet(figure, margin_mm=8) == []


def test_it_says_each_clamp_what_shifts_it_and_the_caution(root):
    scenario = hub(root)
    words = said(wall_chart_figure(scenario))
    for needed in (
        "3 kN",
        "5 kN",
        "8 kN",
        "Axle nuts",
        "out (anticlockwise)",
        "seen from outside",
        CAUTION,
        scenario.name,
    ):
        assert needed in words
    turn = predict(scenario.with_setting(back_off=0.0)).verdict.turn
    assert turn is not None
    for spread in turn.spreads:
        by = MINUTE.from_si(spread.width / scenario.axle.lead_per_radian)
        assert re.search(rf"{re.escape(spread.label)}\b.*\b{by:.1f}", words)


def test_a_chart_made_with_a_measured_slack_holds_for_that_slack_only(root):
    """City-nutted has 0.11 mm on the pitch diameter: along a 60° thread that is 0.11 tan 30° = 0.064 mm, geometry."""
    words = said(wall_chart_figure(hub(root, "city-nutted")))
    assert "For a measured thread slack of 0.064 mm only." in words
    assert "nobody measured on yours what else shifts it" in words
    others = said(wall_chart_figure(hub(root)))
    assert "nobody measured on yours what shifts it" in others
    assert "measured thread slack" not in others
    assert "Clamp force measured" not in others
    forced = hub(root).replace(clamp=hub(root).clamp.replace(force=5200.0, pick_up=None, torque=None))
    assert "Clamp force measured: 5.2 kN" in said(wall_chart_figure(forced))


def test_how_far_another_slack_shifts_the_chart_is_what_a_chart_for_that_slack_says(root):
    """The shift said is that between the first tries of two hubs, one at either end of the slacks met."""
    nutted = hub(root, "city-nutted")
    least, most = (
        nutted.replace(axle=nutted.axle.replace(thread_clearance=length * 1e-3 * math.sqrt(3)))
        for length in (0.015, 0.166)
    )
    first = [back_offs_by_clamp(each)[1].first for each in (least, most)]
    found = re.search(r"shifts it by (\d+)(½?) minutes", said(wall_chart_figure(nutted)))
    assert found
    told = int(found[1]) + 0.5 * bool(found[2])
    assert MINUTE.from_si(max(first) - min(first)) == pytest.approx(
        told, abs=1
    )  # whole minutes, and a curve's bend


@pytest.mark.parametrize(
    ("name", "title", "why"),
    [
        ("proud-axle", "Do not ride", "can come out"),
        ("one-ball-short", "Count the balls first", "one may be missing"),
    ],
)
def test_what_comes_before_any_turn_stands_largest_and_no_turn_beside_it(root, name, title, why):
    figure = wall_chart_figure(hub(root, name))
    largest = max(figure.findobj(Text), key=lambda text: text.get_fontsize())
    assert largest.get_text() == title
    words = said(figure)
    assert why in words
    for turn in ("try this first", " min ", "good range"):
        assert turn not in words


def test_it_is_read_at_two_metres(root):
    """A letter of 5 minutes of arc is read by an eye of usual sharpness (ISO 8596, from memory, page not seen)."""
    capital = 0.729  # of DejaVu Sans, over the size of the type
    for size, arc in ((NEAR, 5), (FAR, 10)):
        assert capital * size * 25.4 / 72 >= 2000 * math.radians(arc / 60)
    for paper in ("A4", "A3"):
        figure = wall_chart_figure(hub(root), paper=paper)
        sizes = [text.get_fontsize() for text in figure.findobj(Text) if text.get_text()]
        assert min(sizes) == pytest.approx(NEAR * PAPERS[paper][0] / PAPERS["A4"][0])


def test_it_has_no_colour_and_its_signs_differ_in_grey(root):
    figure = wall_chart_figure(hub(root))
    marks = [patch for patch in figure.axes[0].patches if patch.get_fill()]
    assert all(np.ptp(to_rgb(patch.get_facecolor())) == 0 for patch in marks)
    looks = {(round(to_rgb(patch.get_facecolor())[0], 1), patch.get_hatch()) for patch in marks}
    greys = sorted(grey for grey, _ in looks)
    assert len(looks) == 3  # the first try, the good range, what an assumption does
    assert min(np.diff(greys)) > 0.15


def test_the_same_hub_gives_the_same_file(root):
    once, again = (to_pdf(wall_chart_figure(hub(root))) for _ in range(2))
    assert once == again
    assert b"Date" not in once
