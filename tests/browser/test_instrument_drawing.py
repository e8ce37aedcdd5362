"""What the instrument draws, read from the page, against what is predicted of the same hub and setting.

Law: one scale drawing, so that drawn gap over play is one constant; the page's words are those of `predict`.
"""

import random
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from conemodel.base.units import DEG
from conemodel.parts.toml_files import load_scenario
from conemodel.show.instrument.drawing_of import factor_of
from conemodel.show.instrument.numbers import exact_json
from conemodel.tasks.setting.predict import Prediction, predict
from tests.browser.instrument_hands import Spanner, drawn, told, wait_rest
from tests.browser.pages import Visitor
from tests.browser.server import Server

MICROMETRE = 1e-3
STAGES = ("backed_off", "locked", "clamped", "ridden")

RENEWED = """said => [...document.querySelectorAll('*')].map(e => e.shadowRoot?.querySelector('.instrument'))
    .find(Boolean).querySelector('.acts [data-stage=clamped] b').textContent !== said"""
"""Whether the play once clamped is said anew."""

HUBS = ("touring-rear", "city-nutted", "thru-axle", "road-front", "light-axle", "worn-thread")


@pytest.fixture(scope="module")
def bench(browser: Browser, serve: Callable[[Path], Server]) -> Iterator[Visitor]:
    """Return the way to the page; the tests of the file fail if it reported an error."""
    visitor = Visitor(browser, serve(Path(__file__).with_name("instrument_page.py")).url)
    yield visitor
    assert visitor.errors == []


def prediction(root: Path, hub: str, angle: float) -> Prediction:
    scenario = load_scenario(root / "scenarios" / f"{hub}.toml")
    return predict(scenario.with_setting(back_off=DEG.to_si(angle)))


def play_of(made: Prediction, stage: str) -> float:
    return 1e3 * made.stages[stage].end_play


@pytest.mark.parametrize("hub", HUBS)
def test_gap_pointer_and_words_are_as_predicted_at_every_stage(bench, root, hub):
    angle = random.Random(hub).randrange(55, 130)
    made = prediction(root, hub, angle)
    factor = factor_of(made.scenario)
    answer = exact_json(made)["answer"]
    drawn_order, order = [], []
    with bench.page(f"/?hub={hub}&angle={angle}") as page:
        for stage in STAGES:
            wait_rest(page)
            page.locator(f".acts [data-stage={stage}]").click()
            wait_rest(page)
            picture, play = drawn(page), play_of(made, stage)
            assert picture["stage"] == stage
            # out lies on the left; a squeeze is drawn at the same enlargement, into the ball
            assert -picture["gap"] / factor == pytest.approx(play, abs=MICROMETRE)
            assert picture["words"] == answer["words"].split(": ")[0]
            assert picture["sign"] == answer["sign"]
            assert picture["play"].endswith("squeeze" if play < -0.0005 else "play")
            drawn_order.append(-picture["gap"])
            order.append(play)
    # A reader of the picture alone sees in which stage the play is largest.
    assert sorted(range(4), key=drawn_order.__getitem__) == sorted(range(4), key=order.__getitem__)


def test_the_pointers_stand_at_the_play_now_and_at_the_play_once_clamped(bench, root):
    made = prediction(root, "touring-rear", 80)
    with bench.page("/?angle=80&stage=locked") as page:
        wait_rest(page)
        rule = page.evaluate("""() => {
            const texts = [...[...document.querySelectorAll('*')]
                .map(e => e.shadowRoot?.querySelector('.instrument')).find(Boolean)
                .querySelectorAll('.rule .label text')];
            const at = text => Number(texts.find(one => one.textContent === text).getAttribute('x'));
            return { zero: at('0'), tenth: at('0.1'), fifth: at('0.2') };
        }""")
        picture = drawn(page)
        each = (
            rule["fifth"] - rule["zero"]
        ) / 0.2  # px for a millimetre of end play, as the rule's figures have it
        for pointer, stage in (("now", "locked"), ("pointer", "clamped")):
            assert (picture[pointer] - rule["zero"]) / each == pytest.approx(
                play_of(made, stage), abs=MICROMETRE
            )


@pytest.mark.parametrize("hub", ["touring-rear", "city-nutted"])
def test_the_picture_is_right_wherever_the_finger_is(bench, root, hub):
    factor = None
    with bench.page(f"/?hub={hub}&stage=backed_off") as page:
        hand = Spanner(page)
        hand.down(-90)
        for angle in (-97, -110, -71, -64, -45, -31, -18):
            said = page.locator(".acts [data-stage=clamped] b").inner_text()
            hand.move(angle)
            page.wait_for_function(RENEWED, arg=said)  # words follow the picture, once the hand keeps still
            picture = drawn(page)
            made = prediction(root, hub, picture["angle"])
            factor = factor or factor_of(made.scenario)
            assert picture["angle"] == pytest.approx(-angle, abs=1)
            assert -picture["gap"] / factor == pytest.approx(play_of(made, "backed_off"), abs=MICROMETRE)
            # printed to its last digit: the figure is within half of one, and what is interpolated within a tenth of it
            digits = len(picture["acts"][3].split(".")[1])
            printed = float(picture["acts"][3])
            assert printed == pytest.approx(abs(play_of(made, "clamped")), abs=0.6 * 10**-digits)
        hand.up()
        told(page, 1)


def test_a_right_hand_side_is_the_mirror_image(bench):
    found = {}
    for side in ("left", "right"):
        with bench.page(f"/?side={side}&stage=backed_off&hub=road-front") as page:
            wait_rest(page)
            found[side] = drawn(page)
            Spanner(page).drag(-90, -60)
            assert float(told(page, 1)["angle"]) == pytest.approx(60, abs=1)  # the dial is no mirror image
    assert found["left"]["gap"] < 0 < found["right"]["gap"]
    assert found["left"]["gap"] == pytest.approx(-found["right"]["gap"], rel=0.02)
