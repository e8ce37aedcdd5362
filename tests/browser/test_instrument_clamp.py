"""Lever, axle nuts and thru-axle on the instrument in Chromium: turned part way and back, by mouse, touch and keys.

That the play while a clamp is part closed lies between that of the open and of the closed one follows from a force that
only grows: law.
"""

from collections.abc import Callable, Iterator
from math import cos, radians, sin
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page

from tests.browser.instrument_hands import drawn, said, told, wait_rest
from tests.browser.pages import Visitor
from tests.browser.pointer import Pointer
from tests.browser.server import Server

# Name of the control, its three states, and by how many degrees it is turned.
CLAMPS = {
    "touring-rear": ("Quick-release lever", ("open", "part closed", "shut"), 165),
    "city-nutted": ("Axle nuts", ("loose", "part tight", "tight"), 120),
    "thru-axle": ("Thru-axle handle", ("loose", "part tight", "tight"), 150),
}
TURNED = """node => {
    const turned = name => Number(name.getAttribute('transform')?.match(/rotate\\(([-\\d.]+)/)?.[1] ?? 0);
    const force = node.getRootNode().querySelector('.close [data-group="clamp force"]');
    return [turned(node), Number(force.getAttribute('opacity'))];
}"""
FRAMES = "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"


@pytest.fixture(scope="module")
def bench(browser: Browser, serve: Callable[[Path], Server]) -> Iterator[Visitor]:
    """Return the way to the page; the tests of the file fail if it reported an error."""
    visitor = Visitor(browser, serve(Path(__file__).with_name("instrument_page.py")).url)
    yield visitor
    assert visitor.errors == []


class Handle:
    """Mouse or finger on the clamp's handle; places in degrees that it was turned from where it was taken."""

    def __init__(self, page: Page, name: str, *, touch: bool = False) -> None:
        """Bring it into view."""
        self.page, self.name = page, name
        self.node.scroll_into_view_if_needed()
        self.pointer = Pointer(page, touch=touch)
        about, grip = self.node.evaluate("""node => {
            const box = selector => (node.querySelector(selector) ?? node).getBoundingClientRect();
            const middle = ({ x, y, width, height }) => [x + width / 2, y + height / 2];
            return [middle(box('.pivot, .swing')), middle(box('.lever, .axle-spanner, .handle'))];
        }""")
        self.about, self.grip = about, (grip[0] - about[0], grip[1] - about[1])

    @property
    def node(self) -> Locator:
        return self.page.get_by_role("slider", name=self.name, exact=True)

    def place(self, turned: float) -> tuple[float, float]:
        (x, y), c, s = self.grip, cos(radians(turned)), sin(radians(turned))
        return self.about[0] + x * c - y * s, self.about[1] + x * s + y * c

    def down(self) -> None:
        self.pointer.press(*self.place(0))

    def turn(self, start: float, end: float) -> None:
        for i in range(1, 9):
            self.pointer.move(*self.place(start + (end - start) * i / 8))
        self.page.evaluate(FRAMES)

    def shows(self) -> tuple[float, float]:
        """Return how far it is turned [°], and how much of the clamp's force is drawn."""
        turned, force = self.node.evaluate(TURNED)
        return float(turned), float(force)


def gap(page: Page) -> float:
    return abs(float(drawn(page)["gap"]))


@pytest.mark.parametrize("touch", [False, True])
@pytest.mark.parametrize("hub", CLAMPS)
def test_it_turns_under_the_finger_part_way_and_back_and_the_force_follows(bench, hub, touch):
    name, states, way = CLAMPS[hub]
    size = {"width": 390, "height": 844} if touch else {}
    with bench.page(f"/?hub={hub}&stage=locked", touch=touch, **size) as page:
        wait_rest(page)
        hand = Handle(page, name, touch=touch)
        assert hand.node.get_attribute("aria-valuetext") == states[0]
        locked = gap(page)
        hand.down()
        hand.turn(0, 0.4 * way)
        turned, force = hand.shows()
        assert turned == pytest.approx(0.4 * way, abs=4)
        assert force == 0  # it has only run up to the frame
        assert gap(page) == locked
        hand.turn(0.4 * way, 0.75 * way)
        turned, part = hand.shows()
        assert turned == pytest.approx(0.75 * way, abs=4)
        assert 0.3 < part < 0.9
        between = gap(page)
        hand.turn(0.75 * way, 0.55 * way)
        assert 0 < hand.shows()[1] < part
        assert between < gap(page) < locked
        hand.turn(0.55 * way, way + 8)
        assert hand.shows() == (way, 1)
        hand.pointer.lift()
        moved = told(page, 1)
        assert (moved["stage"], moved["way"]) == ("clamped", "touch" if touch else "pointer")
        assert hand.node.get_attribute("aria-valuetext") == states[2]
        assert gap(page) < between


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_nut_is_tightened_clockwise_on_either_side(bench, side):
    with bench.page(f"/?hub=city-nutted&stage=locked&side={side}") as page:
        wait_rest(page)
        hand = Handle(page, "Axle nuts")
        hub = page.locator('.whole [data-group="shell"]').bounding_box()
        assert hub is not None
        assert (hand.about[0] < hub["x"]) == (side == "left")
        hand.down()
        hand.turn(0, -60)
        assert hand.shows()[0] == 0
        hand.turn(-60, 60)
        assert hand.shows()[0] == pytest.approx(120, abs=4)
        hand.pointer.lift()
        assert told(page, 1)["stage"] == "clamped"


def test_a_nut_let_go_early_goes_back(bench):
    with bench.page("/?hub=city-nutted&stage=locked") as page:
        wait_rest(page)
        hand = Handle(page, "Axle nuts")
        hand.down()
        hand.turn(0, 60)
        hand.pointer.lift()
        assert told(page, 1)["stage"] == "locked"
        assert hand.shows() == (0, 0)
        assert page.get_by_text("In the frame, axle nuts loose").is_visible()


@pytest.mark.parametrize("hub", CLAMPS)
def test_keys_move_it_part_way_and_back_and_it_stays(bench, hub):
    name, states, _ = CLAMPS[hub]
    with bench.page(f"/?hub={hub}&stage=clamped", still=True) as page:
        wait_rest(page)
        hand, clamped = Handle(page, name), gap(page)
        hand.node.focus()
        for _ in range(3):
            page.keyboard.press("ArrowLeft")
        assert told(page, 1)["stage"] == "locked"
        part, words = gap(page), hand.node.get_attribute("aria-valuetext") or ""
        assert words.startswith(f"{states[1]}, ")
        assert words.endswith(" % of the clamp force")
        assert hand.node.get_attribute("aria-valuenow") == "70"
        page.keyboard.press("Home")
        assert told(page, 2)["stage"] == "locked"
        assert hand.node.get_attribute("aria-valuetext") == states[0]
        assert clamped < part < gap(page)
        for _ in range(10):
            page.keyboard.press("ArrowUp")
        assert told(page, 3)["stage"] == "clamped"
        assert hand.node.get_attribute("aria-valuetext") == states[2]


@pytest.mark.parametrize("hub", CLAMPS)
def test_keys_alone_lead_from_finger_contact_to_clamped_and_each_state_is_said(bench, hub):
    name, (open_, _, shut), _ = CLAMPS[hub]
    word = {"Quick-release lever": "lever", "Thru-axle handle": "thru-axle"}.get(name, name.lower())
    with bench.page(f"/?hub={hub}&stage=contact&angle=0", still=True) as page:
        wait_rest(page)
        page.get_by_role("slider", name="Cone spanner").focus()
        for _ in range(12):
            page.keyboard.press("ArrowLeft")
        assert told(page, 1) == told(page, 1) | {"angle": "72", "stage": "backed_off", "way": "keys"}
        assert said(page).startswith("12 minutes out from finger contact. Backed off: play 0.")
        page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        assert told(page, 2)["stage"] == "locked"
        assert f" Locked, {word} {open_}: play 0." in said(page)
        assert " Once clamped: " in said(page)
        page.keyboard.press("Tab")
        assert page.evaluate("() => document.activeElement.shadowRoot.activeElement.ariaLabel") == name
        page.keyboard.press("Enter")
        assert told(page, 3)["stage"] == "clamped"
        assert f" Clamped, {word} {shut}: " in said(page)
        assert " It is: " in said(page)
