"""The closing gap: five rows at one enlargement, whose bars and numbers close; on a page and on paper alike."""

import io
import itertools
import xml.etree.ElementTree as ET

import numpy as np
import pytest
from matplotlib.figure import Figure

from conemodel.show.instrument.drawing_of import drawing_of, factor_of
from conemodel.show.instrument.paper import paint_on
from conemodel.show.instrument.states import state_of
from conemodel.show.setting.closing_gap import closing_gap
from conemodel.show.setting.closing_gap_paint import HEIGHT, WIDTH, closing_gap_figure, closing_gap_svg
from conemodel.show.setting.text import CAUTION
from conemodel.tasks.setting.predict import predict
from tests.show.instrument.drawn import STAGES, outlines, part_of, placed


def signed(row):
    return float(row.size) * (-1 if row.sort == "mm squeeze" else 1)


def bar_of(row):
    """Return where a row's bar lies along x [mm drawn], or None."""
    for group in row.plate.groups:
        for part in group.parts:
            if part.name == "bar":
                x = outlines(part.d)[0][:, 0]
                return x.min(), x.max()
    return None


def test_the_bars_close(prediction, tight):
    for each in (prediction, tight):
        gap, factor = closing_gap(each), factor_of(each.scenario)
        plays = [1e3 * each.stages[stage].end_play for stage in STAGES]
        for row, (before, now) in zip(gap.rows, itertools.pairwise([0.0, *plays]), strict=True):
            bar = bar_of(row)
            if row.way == "stays":
                assert bar is None
            else:
                assert bar[1] - bar[0] == pytest.approx(factor * abs(now - before), abs=0.02)
                assert row.way == ("opens" if now > before else "closes")


def test_the_printed_numbers_add_up(prediction):
    rows = closing_gap(prediction).rows
    for before, row in itertools.pairwise(rows):
        changed = signed(row) - signed(before)
        if row.way != "stays":
            assert f"{abs(changed):.3f}" in row.by
        else:
            assert changed == 0


def test_every_row_has_the_same_enlargement_and_shows_the_gap_that_is_left(touring):
    gap, factor = closing_gap(touring), factor_of(touring.scenario)
    contact = -drawing_of(touring.scenario).rule.zero
    for row in gap.rows:
        race = placed(row.plate, "race", row.state)
        group, _ = part_of(row.plate, "race")
        assert abs(group.move["cone"]) == factor
        assert np.isclose(-race[:, 0], contact + factor * row.state["cone"], atol=0.01).any()


def test_who_took_what_is_said_in_words(touring, prediction):
    by = [row.by.split(" 0.")[0] for row in closing_gap(touring).rows]
    assert by[:4] == ["Fingers squeezed", "You turned", "Nut took", "Lever took"]
    assert "on a ball below" in by[4]
    assert not any("\N{MINUS SIGN}" in row.size for row in closing_gap(prediction).rows)


def test_the_last_row_alone_shows_the_ball_that_carries(touring):
    for row in closing_gap(touring).rows:
        shown = any(group.name == "lower ball" for group in row.plate.groups)
        assert shown == (row.stage == "ridden")


@pytest.mark.parametrize("dark", [False, True])
def test_it_is_sound_svg_of_its_size_with_all_of_its_words(prediction, dark):
    root = ET.fromstring(closing_gap_svg(prediction, dark=dark))
    assert (root.get("width"), root.get("height")) == (str(WIDTH), str(HEIGHT))
    said = " ".join(mark.text or "" for mark in root.iter() if mark.tag.endswith("}text"))
    gap = closing_gap(prediction)
    for row in gap.rows:
        assert row.size in said
    for words in (gap.end, gap.foot, CAUTION):
        assert " ".join(words.split()) in said
    assert max(float(mark.get("y") or 0) for mark in root.iter() if mark.tag.endswith("}text")) < HEIGHT
    ids = [mark.get("id") for mark in root.iter() if mark.get("id")]
    assert len(ids) == len(set(ids))


def test_a_name_with_markup_in_it_stays_text(touring):
    named = predict(touring.scenario.replace(name="<b>$x$</b>"))
    assert "<b>" in "".join(ET.fromstring(closing_gap_svg(named)).itertext())
    assert "<b>" not in closing_gap_svg(named)


def test_the_figure_has_the_same_words_and_saves_the_same_bytes_twice(prediction):
    figures = [closing_gap_figure(prediction) for _ in range(2)]
    said = [text.get_text() for text in figures[0].texts]
    for row in closing_gap(prediction).rows:
        assert row.size in said
    saved = []
    for figure in figures:
        stream = io.BytesIO()
        figure.savefig(stream, format="png", metadata={"Software": None})
        saved.append(stream.getvalue())
    assert saved[0] == saved[1]
    assert saved[0].startswith(b"\x89PNG")


@pytest.mark.parametrize("stage", STAGES)
def test_paper_paints_the_cone_where_the_browser_moves_it(prediction, stage):
    drawing = drawing_of(prediction.scenario)
    state = state_of(prediction, stage, factor=drawing.factor)
    axes = Figure().add_axes((0, 0, 1, 1))
    paint_on(axes, drawing.plates["close"], state, stage=stage)
    wanted = placed(drawing.plates["close"], "cone", state)
    back = axes.transData.inverted()
    drawn = [
        np.asarray(back.transform_path(patch.get_transform().transform_path(patch.get_path())).vertices)
        for patch in axes.patches
    ]
    long = [path[: len(wanted)] for path in drawn if len(path) >= len(wanted)]
    assert any(np.allclose(path, wanted, atol=1e-6) for path in long)
