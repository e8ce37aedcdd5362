"""No words of the instrument lie on each other, on a line or bar, or across the edge of a part; the headline stays put.

What may stand on what is looked up in the page, for every shipped hub at every stage and on every kind of screen.
"""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from conemodel.base.units import DEG
from conemodel.tasks.wording import clock_minutes
from conemodel.ui.widgets.mount import read_text
from tests.browser.instrument_hands import Spanner, wait_rest
from tests.browser.pages import Visitor, settle
from tests.browser.server import Server

SIZES = {"wide": (1366, 768), "tablet": (820, 1180), "phone": (390, 844)}
STAGES = ("contact", "backed_off", "locked", "clamped", "ridden")
LYING = Path(__file__).with_name("instrument_words.js").read_text(encoding="utf-8")

LAID_OUT = """kind => {
    const frame = [...document.querySelectorAll('*')]
        .map(e => e.shadowRoot?.querySelector('.instrument')).find(Boolean);
    const drawn = frame.querySelector('.close svg').clientWidth === frame.querySelector('.close').clientWidth;
    return frame.classList.contains(kind) && drawn;
}"""


@pytest.fixture(scope="module")
def bench(browser: Browser, serve: Callable[[Path], Server]) -> Iterator[Visitor]:
    """Return the way to the page; the tests of the file fail if it reported an error."""
    visitor = Visitor(browser, serve(Path(__file__).with_name("instrument_page.py")).url)
    yield visitor
    assert visitor.errors == []


def lying(page: Page, where: str) -> list[str]:
    """Return what lies wrong at each stage on each kind of screen, one line each."""
    found = []
    for kind, (width, height) in SIZES.items():
        page.set_viewport_size({"width": width, "height": height})
        page.wait_for_function(LAID_OUT, arg=kind)
        for stage in STAGES:
            page.locator(f".acts [data-stage={stage}]").dispatch_event("click")
            wait_rest(page)
            page.evaluate("() => new Promise(requestAnimationFrame)")
            found += [f"{where}, {kind}, {stage}: {line}" for line in page.evaluate(LYING)]
    return found


def test_no_words_lie_on_other_words_lines_bars_or_edges(bench, root):
    hubs = sorted(path.stem for path in (root / "scenarios").glob("*.toml"))
    assert len(hubs) > 10
    found = []
    with bench.page(f"/?hub={' '.join(hubs)}", still=True) as page:
        for i, hub in enumerate(hubs):
            if i:
                page.get_by_role("button", name="Next hub").dispatch_event("click")
                settle(page)
            wait_rest(page)
            found += lying(page, hub)
    assert found == []


@pytest.mark.parametrize("angle", [30, 170])
def test_nor_do_they_wherever_the_cone_stands(bench, angle):
    with bench.page(f"/?angle={angle}", still=True) as page:
        wait_rest(page)
        assert lying(page, f"{angle} degrees") == []


def test_the_headline_keeps_its_height_while_a_finger_moves(bench):
    with bench.page("/?stage=backed_off", width=390, height=844) as page:
        hand = Spanner(page)
        ring, places = page.locator(".dial .ring").first, set()
        hand.down(-90)
        said = set()
        for angle in range(-92, -24, 4):
            hand.move(angle)
            page.evaluate(
                "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"
            )
            box = ring.bounding_box()
            assert box is not None
            places.add((round(box["x"]), round(box["y"])))
            said.add(page.locator(".state .words").inner_text())
        hand.up()
        assert len(said) > 3  # of very different lengths
        assert len(places) == 1


def test_minutes_of_a_clock_face_are_rounded_as_python_rounds_them(bench):
    script = read_text("instrument_words.js").replace("export ", "")
    quarters = list(range(-4 * 60, 4 * 300 + 1))
    with bench.page("/") as page:
        told = page.evaluate(
            f"quarters => {{ {script}; return quarters.map(each => clockMinutes(each / 4)); }}", quarters
        )
    assert told == [clock_minutes(DEG.to_si(each / 4)) for each in quarters]


def test_what_is_to_be_done_next_follows_from_the_stage(bench):
    """A cone that may be left is locked, clamped, then felt: order of the job, common practice, no source."""
    with bench.page("/", still=True) as page:
        script = read_text("instrument_words.js").replace("export ", "")
        said = {
            (act, stage): page.evaluate(
                f"([act, stage]) => {{ {script}; return actAt({{ act }}, stage); }}", [act, stage]
            )
            for act in ("Leave it.", "Leave it there and feel it clamped.", "Strip it and look.")
            for stage in STAGES
        }
    for leave in ("Leave it.", "Leave it there and feel it clamped."):
        for stage in ("contact", "backed_off"):
            assert said[leave, stage] == "Leave it there: lock it, clamp it and feel it."
        assert said[leave, "locked"] == "Leave it there: clamp it and feel it."
        assert said[leave, "clamped"] == said[leave, "ridden"] == leave
    assert {said["Strip it and look.", stage] for stage in STAGES} == {"Strip it and look."}


@pytest.mark.parametrize("size", SIZES)
def test_that_the_gap_is_enlarged_is_said_on_every_screen(bench, size):
    width, height = SIZES[size]
    with bench.page("/", width=width, height=height, still=True) as page:
        wait_rest(page)
        assert "Gap and rule 20 ×" in page.locator(".close").inner_text()


def test_a_phone_too_says_the_clamp_force_and_whether_anybody_measured_it(bench):
    with bench.page("/?hub=touring-rear city-nutted", width=390, height=844, still=True) as page:
        notes = page.locator(".close")
        assert "Clamp ≈ 5 kN, not measured" in notes.inner_text()
        page.get_by_role("button", name="Next hub").dispatch_event("click")
        settle(page)
        assert "Clamp ≈ 16 kN, not measured" in notes.inner_text()
