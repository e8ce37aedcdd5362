"""Two hundred random hubs in one page: what the instrument draws and says between its grid's points, against `predict`.

Law: one scale drawing, so that drawn gap over play is one constant. The hub's data goes straight to the component's
script, without a server, and a key turns the cone away from where it was worked out exactly.
"""

import json
from typing import Any

import numpy as np
import pytest
from playwright.sync_api import Browser, Page

from conemodel.base.units import DEG
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import load_scenario
from conemodel.show.instrument.hub_json import hub_json
from conemodel.show.instrument.numbers import exact_json
from conemodel.tasks.setting.predict import Prediction, predict
from conemodel.ui.widgets.instrument_mount import SCRIPTS
from conemodel.ui.widgets.mount import read_text
from tests.browser.instrument_hands import DRAWN
from tests.show.instrument.drawn import random_hub

HUBS, KEYS = 200, 5
MICROMETRE = 1e-3
NEAR_A_LIMIT = 0.4
"""Turn of the cone that moves it by about a micrometre, its thread having a pitch of 1 mm [°]."""

BASES = ("touring-rear", "city-nutted", "thru-axle", "road-front")

MOUNT = """async ({ html, css, script }) => {
    const url = URL.createObjectURL(new Blob([script], { type: 'text/javascript' }));
    window.component = (await import(url)).default;
    window.markup = `<style>${css}</style>${html}`;
    document.body.style.cssText = 'margin:0;--st-background-color:#fff';
}"""

SHOW = """async ({ data, keys }) => {
    document.body.replaceChildren();
    window.leave?.();
    const host = document.body.appendChild(document.createElement('div')), root = host.attachShadow({ mode: 'open' });
    root.innerHTML = markup;
    window.leave = component({ parentElement: root, data, setStateValue() {} });
    const frames = async count => {
        for (let i = 0; i < count; i += 1) await new Promise(done => requestAnimationFrame(done));
    };
    await frames(2);
    const spanner = root.querySelector('.dial [data-group="cone"]');
    for (let i = 0; i < keys; i += 1) {
        spanner.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowLeft', shiftKey: true, bubbles: true }));
    }
    await frames(3);
    await new Promise(done => setTimeout(done, 2 * still));  // all words are renewed once a hand keeps still
}"""

# The front end cleans up after a call whose data were out of date before it was made.
OVERTAKE = """async data => {
    const root = document.body.firstElementChild.shadowRoot, heard = [];
    const call = () => component({ parentElement: root, data, setStateValue: (name, told) => heard.push(told) });
    call()();
    window.leave = call();
    for (let i = 0; i < 3; i += 1) await new Promise(done => requestAnimationFrame(done));
    const press = key => root.querySelector('.dial [data-group="cone"]')
        .dispatchEvent(new KeyboardEvent(key, { key: 'ArrowLeft', bubbles: true }));
    press('keydown');
    press('keyup');
    await new Promise(done => setTimeout(done, 1500));
    document.body.replaceChildren();
    window.leave();
    return heard.length;
}"""


@pytest.fixture(scope="module")
def page(browser: Browser) -> Any:
    """Return an empty page that has the instrument's script."""
    context = browser.new_context(viewport={"width": 1366, "height": 768}, reduced_motion="reduce")
    page = context.new_page()
    styles = read_text("instrument.css", "instrument_narrow.css", "instrument_drawing.css")
    script = read_text(*SCRIPTS)
    page.evaluate(MOUNT, {"html": read_text("instrument.html"), "css": styles, "script": script})
    page.evaluate("script => { window.still = Number(script.match(/const STILL = (\\d+)/)[1]); }", script)
    yield page
    context.close()


def predicted(hub: Scenario, angle: float) -> Prediction:
    return predict(hub.with_setting(back_off=DEG.to_si(angle)))


def words_of(made: Prediction) -> str:
    return str(exact_json(made)["answer"]["words"]).split(": ")[0]


def data_of(hub: Scenario, angle: float, number: int) -> dict[str, Any]:
    """Return what the component is given of a hub whose cone Python has at `angle` [°]."""
    data = {**hub_json(hub), "exact": exact_json(predicted(hub, angle)), "set_id": number, "sequence": 0}
    more = {"stage": "backed_off", "hide": [], "above": 64, "under": 0, "label": "The hub"}
    return dict(json.loads(json.dumps({**data, **more})))


def shown(page: Page, hub: Scenario, angle: float, number: int) -> tuple[dict[str, Any], float]:
    """Return what is drawn of a hub whose cone was turned by keys to `angle` [°], and how much it is enlarged."""
    data = data_of(hub, angle - KEYS, number)
    page.evaluate(SHOW, {"data": data, "keys": KEYS})
    return dict(page.evaluate(DRAWN)), float(data["factor"])


@pytest.mark.parametrize("width", [390, 1366])
def test_a_call_that_was_overtaken_leaves_what_stands_there_alone(root, page, width):
    data = data_of(load_scenario(root / "scenarios" / "touring-rear.toml"), 90, 0)
    page.set_viewport_size({"width": width, "height": 768})
    page.evaluate(SHOW, {"data": data, "keys": 0})
    assert page.evaluate(OVERTAKE, data) == 1  # and nobody else hears the hand
    page.set_viewport_size({"width": 1366, "height": 768})


def test_drawn_and_said_is_what_is_predicted_for_two_hundred_random_hubs(root, page):
    rng = np.random.default_rng(12)
    wrong: list[tuple[Any, ...]] = []
    bases = [load_scenario(root / "scenarios" / f"{name}.toml") for name in BASES]
    for number in range(HUBS):
        hub, angle = random_hub(bases[number % len(bases)], number), int(rng.integers(10, 200))
        made = predicted(hub, angle)
        picture, factor = shown(page, hub, angle, number)
        assert abs(picture["angle"]) == pytest.approx(angle, abs=1e-6)
        play = 1e3 * made.stages["backed_off"].end_play
        if abs(abs(picture["gap"]) / factor - abs(play)) > MICROMETRE:
            wrong.append((number, angle, "gap", picture["gap"] / factor, play))
        clamped = 1e3 * abs(made.stages["clamped"].end_play)
        if (
            abs(float(picture["acts"][3]) - clamped) > 1.5 * MICROMETRE
        ):  # half of it is the printed figure's own
            wrong.append((number, angle, "clamped", picture["acts"][3], clamped))
        near = (angle, angle - NEAR_A_LIMIT, angle + NEAR_A_LIMIT)
        if not any(picture["words"] == words_of(predicted(hub, at)) for at in near):
            wrong.append((number, angle, "words", picture["words"], words_of(made)))
    assert wrong == []
