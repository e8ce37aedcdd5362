"""A replay in a page: what is drawn, charted and said act by act, against the paths it was made from.

Law: one scale drawing, so that how far cone and ball stand apart is end play times what is written as the enlargement.
The data goes straight to the component's script, without a server; the last test opens the fold on a page of its own.
"""

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from conemodel.base.units import DEG, MM
from conemodel.show.practice.replay_json import NAMES, replay_json
from conemodel.show.type_scale import type_style
from conemodel.tasks.practice.replay import Replay, replay_of
from conemodel.tasks.practice.track import Frame
from conemodel.tasks.wording import CLOCK_MINUTE
from conemodel.ui.widgets.mount import read_text
from conemodel.ui.widgets.replay_mount import SCRIPTS, STYLES
from tests.browser.pages import Visitor, findings, overflow, settle
from tests.browser.server import Server
from tests.browser.test_instrument_many_hubs import MICROMETRE, MOUNT
from tests.tasks.practice.attempts import attempt
from tests.tasks.practice.hubs import open_link
from tests.tasks.practice.players import quarter_turn

LINE = 0.5
"""How near a point of the chart lies to where it belongs [px]: what is written of it is finer."""

SHOW = """async ({ data, style }) => {
    document.body.replaceChildren();
    window.leave?.();
    document.body.appendChild(document.createElement('style')).textContent = style;
    const host = document.body.appendChild(document.createElement('div')), root = host.attachShadow({ mode: 'open' });
    root.innerHTML = markup;
    window.leave = component({ parentElement: root, data, setStateValue() {} });
    await new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
}"""

SEEN = """() => [...document.body.lastElementChild.shadowRoot.querySelectorAll('.track')].map(track => {
    const shift = name => Number(track.querySelector(`.shown [data-group="${name}"]`)
        .getAttribute('transform')?.match(/translate\\(([-\\d.e]+)/)?.[1] ?? 0);
    const words = name => track.querySelector(`.act-words .${name}`);
    const now = track.querySelector('.now'), cue = words('cue');
    const lines = [...track.querySelectorAll('.chart [data-minutes]')]
        .map(text => [Number(text.dataset.minutes), Number(text.previousElementSibling.getAttribute('y1'))]);
    return {
        apart: shift('cone') - shift('wheel'), done: words('done').textContent, told: words('told').textContent,
        cue: cue.hidden ? '' : cue.textContent, at: now && Number(now.getAttribute('cy')), lines,
    };
})"""


@pytest.fixture(params=[390, 1200])
def page(browser: Browser, request: pytest.FixtureRequest) -> Any:
    """Return an empty page of a phone and of a desk that has the replay's script."""
    context = browser.new_context(
        viewport={"width": request.param, "height": 844}, reduced_motion="reduce", has_touch=True
    )
    page = context.new_page()
    parts = {"html": read_text("replay.html"), "css": read_text(*STYLES), "script": read_text(*SCRIPTS)}
    page.evaluate(MOUNT, parts)
    yield page
    context.close()


def show(page: Page, replay: Replay) -> dict[str, Any]:
    data = json.loads(json.dumps(replay_json(replay)))
    page.evaluate(SHOW, {"data": data, "style": type_style()})
    return dict(data)


def holds(seen: dict[str, Any], frame: Frame, data: dict[str, Any]) -> None:
    """Hold what stands in the page of one path to where its hub stood."""
    out = seen["apart"] / data["factor"]
    assert abs(abs(out) - abs(MM.from_si(frame.end_play))) < MICROMETRE
    assert seen["done"].startswith(frame.done)
    assert seen["told"] == frame.told
    (low, at_low), (high, at_high) = seen["lines"][0], seen["lines"][-1]
    minutes = frame.angle / CLOCK_MINUTE
    expected = at_low + (at_high - at_low) * (minutes - low) / (high - low)
    if data["chart"]["from"] < DEG.from_si(frame.angle) < data["chart"]["to"]:
        assert abs(seen["at"] - expected) < LINE


@pytest.mark.parametrize("name", ["05-quick-release", "07-hold-the-cone"])
def test_every_act_is_drawn_and_charted_where_the_cone_stood(page, name):
    replay = replay_of(attempt(open_link(f"{name}.watched.2"), Random(1)).bench, 0)
    data = show(page, replay)
    paths = replay.mine, replay.good
    for act in range(max(map(len, paths))):
        if act:
            page.get_by_role("button", name="On", exact=True).click()
        for which, (seen, path) in enumerate(zip(page.evaluate(SEEN), paths, strict=True)):
            holds(seen, path[min(act, len(path) - 1)], data)
            told = replay.cue is not None and which == 0 and min(act, len(path) - 1) == replay.cue.at
            assert seen["cue"] == (replay.cue.gesture if told and replay.cue else "")


def test_it_plays_to_what_was_missed_and_goes_by_keys(page):
    replay = replay_of(quarter_turn(open_link("04-locknut.watched.0")), 0)
    assert replay.cue is not None
    show(page, replay)
    slider = page.get_by_role("slider", name="Act of both paths")
    slider.focus()
    for _ in range(replay.cue.at - 1):
        page.keyboard.press("ArrowRight")
    assert slider.get_attribute("aria-valuetext") == ". ".join(
        f"{name}: {path[min(replay.cue.at - 1, len(path) - 1)].done}"
        for name, path in zip(NAMES, (replay.mine, replay.good), strict=True)
    )
    page.get_by_role("button", name="Play", exact=True).click()
    expect(page.locator(".cue:visible")).to_have_text(replay.cue.gesture)
    expect(page.get_by_role("button", name="Play", exact=True)).to_be_visible()  # it waits there
    page.keyboard.press("Tab")
    page.get_by_role("button", name="Back", exact=True).press("Enter")
    assert page.locator(".cue:visible").count() == 0
    page.get_by_role("button", name="What was missed").click()
    assert page.evaluate(SEEN)[0]["cue"] == replay.cue.gesture
    for control in page.get_by_role("button").all():
        box = control.bounding_box()
        assert box is not None
        assert min(box["width"], box["height"]) >= 44


def test_both_paths_stand_in_words_with_the_cue_at_its_act(page):
    replay = replay_of(quarter_turn(open_link("04-locknut.watched.0")), 0)
    assert replay.cue is not None
    show(page, replay)
    page.get_by_text("Both paths in words").click()
    for number, path in enumerate((replay.mine, replay.good)):
        lines = page.locator(".in-words ol").nth(number).get_by_role("listitem")
        assert lines.count() == len(path)
    line = page.locator(".in-words ol").first.get_by_role("listitem").nth(replay.cue.at)
    assert replay.cue.gesture in line.inner_text()


@pytest.fixture(scope="module")
def watching(browser: Browser, serve: Callable[[Path], Server]) -> Iterator[Visitor]:
    """Return the way to the fold on a page of its own; fails if it reported an error."""
    visitor = Visitor(browser, serve(Path(__file__).with_name("replay_page.py")).url)
    yield visitor
    assert not visitor.errors


@pytest.mark.parametrize(("width", "dark"), [(1280, False), (820, True), (390, True)])
def test_the_fold_fits_reads_and_shows_the_hub_that_is_chosen(watching, width, dark):
    with watching.page("/", width=width, dark=dark) as page:
        assert page.locator(".replay").count() == 0
        page.get_by_text("Watch what you did").click()
        settle(page)
        count = page.locator(".replay .mine .count")
        count.wait_for()
        assert page.locator(".replay .mine .done").inner_text() == "As it came"
        page.get_by_role("radio", name="2 ✓").click()
        settle(page)
        page.get_by_role("button", name="On", exact=True).click()
        expect(page.locator(".replay .good .done")).to_have_text("Cone wiggled on its thread")
        assert overflow(page) == 0
        assert findings(page) == []
