"""The cone dial is true on paper: measured in the file itself, as paths and as printed dots."""

import io
import math
import shutil
import subprocess

import numpy as np
import pytest
from matplotlib.image import imread
from matplotlib.patches import Circle

from conemodel.parts.toml_files import load_scenario
from conemodel.show.paper.dial import TEST_LINE
from conemodel.show.paper.files import to_pdf, to_png
from conemodel.show.paper.sheet import PAPERS
from conemodel.show.setting.cone_dial import DISC, cone_dial_figure
from conemodel.show.setting.text import CAUTION
from tests.patience import PATIENCE
from tests.show.paper.pdf_paths import circles, lines, page_size
from tests.show.paper.words import off_the_sheet, overlapping, said

TRUE = 0.1
"""What a length on paper may be wrong by [mm]: no more than a steel rule shows."""

SHEETS = pytest.mark.parametrize("paper", ["A4", "Letter"])


def hub(root, name="touring-rear"):
    return load_scenario(root / "scenarios" / f"{name}.toml")


def length(line):
    return math.dist(*line)


@SHEETS
@pytest.mark.parametrize(("name", "axle"), [("touring-rear", 10.0), ("road-front", 9.0), ("thru-axle", 17.0)])
def test_disc_hole_and_test_lines_are_true_in_the_file(root, paper, name, axle):
    pdf = to_pdf(cone_dial_figure(hub(root, name), paper=paper))
    assert page_size(pdf) == pytest.approx(PAPERS[paper], abs=TRUE)
    disc, *_ = drawn = sorted(circles(pdf), key=lambda circle: -circle.diameter)
    assert disc.diameter == pytest.approx(DISC, abs=TRUE)
    hole = drawn[-1]
    assert axle < hole.diameter < axle + 1  # it goes over the axle, and does not wander on it
    assert (hole.x, hole.y) == pytest.approx((disc.x, disc.y), abs=0.01)
    tests = [line for line in lines(pdf) if length(line) > 20 and line[0][0] > disc.x + DISC / 2]
    assert [length(line) for line in tests] == [pytest.approx(TEST_LINE, abs=TRUE)] * 2
    across, along = (np.abs(end - start) > 1 for start, end in tests)
    assert (*across, *along) == (True, False, False, True)


def test_a_larger_sheet_has_the_disc_again_as_true_as_the_first(root):
    figure = cone_dial_figure(hub(root), paper="A3")
    pdf = to_pdf(figure)
    discs = [circle for circle in circles(pdf) if circle.diameter == pytest.approx(DISC, abs=TRUE)]
    assert len(discs) == 3
    assert len({round(disc.x) for disc in discs} | {round(disc.y) for disc in discs}) > 3
    assert all(math.dist((a.x, a.y), (b.x, b.y)) > DISC for a, b in ((discs[1], discs[2]), discs[:2]))
    assert overlapping(figure) == []
    assert off_the_sheet(figure, margin_mm=8) == []


def test_ticks_stand_at_every_minute_and_at_every_second_degree(root):
    pdf = to_pdf(cone_dial_figure(hub(root)))
    disc = max(circles(pdf), key=lambda circle: circle.diameter)
    starts: dict[int, list[float]] = {50: [], 34: []}
    for line in lines(pdf):
        ends = sorted((np.array(end) - (disc.x, disc.y) for end in line), key=lambda end: -np.hypot(*end))
        angle = math.degrees(math.atan2(ends[0][0], ends[0][1])) % 360
        for ring, found in starts.items():
            short = 1 < length(line) < 8
            if short and np.hypot(*ends[0]) == pytest.approx(ring, abs=0.02):
                found.append(angle)
    # a clock face has sixty minutes, a turn 360 degrees
    for found, step in ((starts[50], 6), (starts[34], 2)):
        assert np.sort(np.round(found, 2) % 360) == pytest.approx(np.arange(0, 360, step), abs=0.02)


DOTS = 600
"""Printed dots an inch: 24 of them make a millimetre."""

STROKE = 25.4 / 72
"""Width of the lines that are measured over their outer edges [mm]."""


def printed(figure, folder):
    """Return the sheet as printed dots, dark ones true: by another program where there is one.

    Else by the other half of the drawing library, which knows nothing of PDF.
    """
    printer = shutil.which("pdftoppm")
    if printer is None:
        return imread(io.BytesIO(to_png(figure, dpi=DOTS)))[..., 0] < 0.5
    (folder / "dial.pdf").write_bytes(to_pdf(figure))
    command = [printer, "-gray", "-r", str(DOTS), "-singlefile", "dial.pdf", "dial"]
    subprocess.run(command, cwd=folder, check=True, timeout=PATIENCE)
    sort, wide, high, _, dots = (folder / "dial.pgm").read_bytes().split(maxsplit=4)
    assert sort == b"P5"
    return np.frombuffer(dots, np.uint8).reshape(int(high), int(wide)) < 128


def longest_run(dots):
    """Return the longest unbroken row of dark dots [mm], over its outer edges."""
    edges = np.diff(np.pad(dots.astype(np.int8), ((0, 0), (1, 1))))
    starts, ends = (np.argwhere(edges == way)[:, 1] for way in (1, -1))
    return (ends - starts).max() / DOTS * 25.4


@SHEETS
def test_disc_and_test_lines_are_true_in_printed_dots(root, tmp_path, paper):
    """A second way, which shares nothing with the first: dark dots of the printed page are counted."""
    figure = cone_dial_figure(hub(root), paper=paper)
    dots = printed(figure, tmp_path)
    disc = max(
        (each for each in figure.axes[0].patches if isinstance(each, Circle)), key=lambda each: each.radius
    )
    x, y = disc.center
    assert np.array(dots.shape[::-1]) / DOTS * 25.4 == pytest.approx(PAPERS[paper], abs=TRUE)
    at = [round(place / 25.4 * DOTS) for place in (x, y, DISC / 2 + 3, 1.0)]
    row = np.flatnonzero(dots[at[1] - at[3] : at[1] + at[3], at[0] - at[2] : at[0] + at[2]].any(0))
    column = np.flatnonzero(dots[at[1] - at[2] : at[1] + at[2], at[0] - at[3] : at[0] + at[3]].any(1))
    for dark in (row, column):
        assert (dark[-1] - dark[0] + 1) / DOTS * 25.4 - STROKE == pytest.approx(DISC, abs=TRUE)
    beside = dots[:, at[0] + at[2] :]
    assert longest_run(beside) - STROKE == pytest.approx(TEST_LINE, abs=TRUE)
    assert longest_run(beside.T) - STROKE == pytest.approx(TEST_LINE, abs=TRUE)


@SHEETS
@pytest.mark.parametrize("name", ["touring-rear", "city-nutted", "thru-axle"])
def test_the_sheet_says_how_to_print_and_read_it_and_no_words_lie_over_others(root, paper, name):
    figure = cone_dial_figure(hub(root, name), paper=paper)
    words = said(figure)
    for needed in ("100 %", "“actual size”", "measure both lines", "50 mm", "in (clockwise)", "out (anticlockwise)",
                   "seen from outside", "pen mark", "left-handed", CAUTION):  # fmt: skip
        assert needed in words
    assert overlapping(figure) == []
    assert off_the_sheet(figure, margin_mm=10) == []


def test_what_turns_come_to_follows_from_the_thread(root):
    # ISO 68-1: a turn moves the cone by the pitch; 26 to the inch are 25.4 / 26 mm, to the thousandth
    assert "1/4 turn 15 90° 0.250" in said(cone_dial_figure(hub(root)))
    assert f"1/4 turn 15 90° {25.4 / 26 / 4:.3f}" in said(cone_dial_figure(hub(root, "city-nutted")))


def test_an_axle_wider_than_the_words_leave_room_for_is_said(root):
    touring = hub(root)
    washer = touring.stack.left.replace(washer_outer_diameter=0.04, face_outer_diameter=0.039)
    wide = touring.replace(
        axle=touring.axle.replace(thread_diameter=0.025, thread_clearance=1e-4),
        stack=touring.stack.replace(left=washer, right=washer),
    )
    assert "Cut the hole out to 25.5 mm" in said(cone_dial_figure(wide))
    assert "Cut the hole out" not in said(cone_dial_figure(touring))


def test_the_same_hub_gives_the_same_file_with_no_date_in_it(root):
    once, again = (to_pdf(cone_dial_figure(hub(root))) for _ in range(2))
    assert once == again
    assert b"Date" not in once
