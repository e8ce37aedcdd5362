"""Drawings for paper: bars and bands where the results are, the same bytes every time, readable in grey."""

import subprocess
import sys

import pytest

from conemodel.show.paper.files import to_pdf, to_png
from conemodel.show.setting.setting_sheet import A4, prediction_figure, sweep_figure
from conemodel.show.waterfall.paper import HATCH
from conemodel.show.waterfall.rows import rows_of_prediction


@pytest.fixture
def page(touring, touring_sweep):
    return prediction_figure(touring, touring_sweep)


def test_the_page_is_a4_on_its_side(page):
    # ISO 216: 297 × 210 mm.
    width, height = page.get_size_inches() * 25.4
    assert tuple(page.get_size_inches()) == A4
    assert width == pytest.approx(297, abs=0.1)
    assert height == pytest.approx(210, abs=0.1)


def bars(axes):
    return [bar for container in axes.containers for bar in container]


def test_every_step_has_its_bar(page, touring):
    drawn = bars(page.axes[0])
    steps = rows_of_prediction(touring)
    assert len(drawn) == len(steps)
    for bar, step in zip(drawn, steps, strict=True):
        assert bar.get_x() == pytest.approx(step.start * 1000, abs=1e-9)
        assert bar.get_x() + bar.get_width() == pytest.approx(step.end * 1000, abs=1e-9)
        assert (bar.get_hatch() or "") == HATCH[step.kind]
        assert (bar.get_linestyle() != "-" and bar.get_linestyle() != "solid") == step.assumed


def test_the_three_kinds_of_bar_differ_without_colour():
    assert len(set(HATCH.values())) == 3


def test_the_band_is_the_good_range(page, touring):
    (band,) = [patch for patch in page.axes[0].patches if patch.get_gid() == "good range"]
    assert band.get_x() == pytest.approx(touring.window.tight_edge * 1000)
    assert band.get_width() == pytest.approx(touring.window.width * 1000)


def test_the_page_says_the_verdict(page, touring):
    said = " ".join(text.get_text() for text in page.texts).replace("\n", " ")
    assert touring.verdict.sentence in said
    assert touring.scenario.name in said
    assert "qualified mechanic" in said


def test_words_do_not_run_off_the_page(proud, touring_sweep):
    page = prediction_figure(proud, touring_sweep)
    page.canvas.draw()
    edge = page.bbox
    for text in [*page.texts, *(text for axes in page.axes for text in axes.texts)]:
        box = text.get_window_extent()
        assert box.x0 >= 0
        assert box.x1 <= edge.x1
    waterfall = page.axes[0].get_tightbbox()
    assert waterfall is not None
    assert page.texts[1].get_window_extent().y0 > waterfall.y1


@pytest.mark.parametrize("save", [to_png, to_pdf])
def test_the_same_results_give_the_same_bytes(touring, touring_sweep, save):
    once, again = (save(sweep_figure(touring_sweep, touring)) for _ in range(2))
    assert once == again
    assert b"Date" not in once


def test_files_are_what_they_say(touring, touring_sweep):
    figure = sweep_figure(touring_sweep, touring)
    assert to_png(figure).startswith(b"\x89PNG")
    assert to_pdf(figure).startswith(b"%PDF-")


def test_drawing_is_loaded_only_when_something_is_drawn():
    drawing = (
        "setting.setting_sheet",
        "waterfall.screen",
        "waterfall.paper",
        "setting.end_play_chart",
        "instrument.paper",
        "setting.tables",
        "tables",
    )
    code = (
        f"import sys, {', '.join('conemodel.show.' + name for name in drawing)}; "
        "print(sorted({'matplotlib', 'altair', 'pandas', 'streamlit'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
