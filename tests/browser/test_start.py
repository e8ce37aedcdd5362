"""The start page in Chromium: rock, knock, lever, twirl, by mouse, touch and keys; and what stands round it."""

import re
from math import cos, dist, radians, sin

import pytest
from playwright.sync_api import Page

from conemodel.show.instrument.wheel import RIM
from conemodel.ui.start import DOORS, NEXT, hub_data
from tests.browser.pages import findings, overflow, settle
from tests.browser.pointer import Pointer

TARGET = 44  # px, for a finger; WCAG 2.2, 2.5.5, from memory
SIZES = [(1366, 768), (820, 1180), (390, 844)]

# The group of the drawing that a finger takes hold of at a place.
HELD_AT = """([x, y]) => [...document.querySelectorAll('*')]
    .map(node => node.shadowRoot?.querySelector('.picture')).find(Boolean).getRootNode()
    .elementFromPoint(x, y)?.closest('[data-group]')?.dataset.group"""


class Finger:
    """Mouse or finger on the hub."""

    def __init__(self, page: Page, *, touch: bool = False) -> None:
        """Wait for the hub."""
        self.page = page
        page.locator(".rock-me[data-step]").wait_for()
        self.pointer = Pointer(page, touch=touch)

    def middle(self, part: str) -> tuple[float, float]:
        box = self.page.locator(f".picture {part}").first.bounding_box()
        assert box is not None
        return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2

    def drag(self, path: list[tuple[float, float]]) -> None:
        self.pointer.press(*path[0])
        for place in path[1:]:
            self.pointer.move(*place)
        self.pointer.lift()

    def rock(self, rim: str = "top") -> None:
        box = self.page.locator(f'.picture [data-group="rim {rim}"] .rim').first.bounding_box()
        assert box is not None
        x, y = box["x"] + 4, box["y"] + 0.6 * box["height"]
        self.drag([(x + 4 * i, y) for i in (*range(15), *range(15, -15, -1))])

    def pull_lever(self) -> None:
        """Round its pivot, clockwise from where it hangs to where it stands."""
        (x, y), (px, py) = self.middle(".lever"), self.middle(".pivot")
        dx, dy = x - px, y - py
        turns = [radians(8 * i) for i in range(21)]
        self.drag([(px + dx * cos(a) - dy * sin(a), py + dx * sin(a) + dy * cos(a)) for a in turns])

    def twirl(self) -> None:
        x, y = self.middle('[data-group="rim top"] .rim')
        self.drag([(x, y + 8 * i) for i in range(32)])


def pointed_at(page: Page) -> str:
    """Return which handle the arrows lie nearest to, all on the screen; empty where there are none."""
    arrows = [one.bounding_box() for one in page.locator(".arrows path").all() if one.is_visible()]
    if not arrows:
        return ""
    (box,) = arrows
    assert box is not None
    assert box["x"] >= 0
    middle = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    places = {"wheel": '[data-group="rim top"] .rim', "lever": ".pivot"}
    hand = Finger(page)
    return min(places, key=lambda name: dist(middle, hand.middle(places[name])))


def step(page: Page) -> str:
    return str(page.locator(".rock-me").get_attribute("data-step"))


def wait_step(page: Page, name: str) -> None:
    page.locator(f".rock-me[data-step={name}]").wait_for()


def said(page: Page) -> str:
    return page.locator(".say").inner_text()


@pytest.mark.parametrize("way", ["mouse", "touch"])
@pytest.mark.parametrize("size", SIZES)
def test_it_knocks_stops_and_is_smooth_by_hand(open_page, way, size):
    page = open_page("/", width=size[0], height=size[1], touch=way == "touch")
    hand = Finger(page, touch=way == "touch")
    assert "Rock me." in said(page)
    assert pointed_at(page) == "wheel"
    hand.rock()
    wait_step(page, "knocks")
    assert "Now close the lever." in said(page)
    assert pointed_at(page) == "lever"
    hand.pull_lever()
    wait_step(page, "stops")
    assert "No play at the rim." in page.locator(".beside").inner_text()
    assert pointed_at(page) == "wheel"
    hand.twirl()
    wait_step(page, "smooth")
    assert pointed_at(page) == ""


def test_once_smooth_it_says_what_is_predicted_and_leads_on(open_page):
    """The largest words claim no more than the core: it names no state of this hub, its thread being unmeasured."""
    page = open_page("/")
    hand = Finger(page)
    assert page.get_by_role("button", name=NEXT).is_hidden()
    hand.rock()
    hand.pull_lever()
    wait_step(page, "stops")
    hand.twirl()
    wait_step(page, "smooth")
    answer = hub_data()["exact"]["answer"]
    assert answer["state"] is None
    assert said(page) == f"Smooth.\n\n{answer['why']}"
    assert answer["certainty"] in (page.locator(".sure").text_content() or "")
    page.get_by_role("button", name=NEXT).click()
    page.wait_for_url(re.compile(r"/first-hub\b"))


@pytest.mark.parametrize("size", SIZES)
def test_all_of_the_tyre_is_a_hold_for_a_finger(open_page, size):
    page = open_page("/", width=size[0], height=size[1], touch=True)
    hand = Finger(page, touch=True)
    box = page.locator('.picture [data-group="rim top"] .tyre').first.bounding_box()
    assert box is not None
    # the hollow of the tyre, where nothing is painted
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    for aside in (1 - TARGET / 2, 0, TARGET / 2 - 1):
        assert page.evaluate(HELD_AT, [x + aside, y]) == "rim top"
    hand.drag([(x + 4 * i, y) for i in (*range(15), *range(15, -15, -1))])
    wait_step(page, "knocks")


def test_keys_are_told_of_where_there_are_keys(open_page):
    assert "Tab to rim or lever" in open_page("/").locator(".keys").inner_text()
    assert open_page("/", width=390, height=844, touch=True).locator(".keys").is_hidden()


def test_keys_alone_lead_through_it(open_page):
    page = open_page("/", still=True)
    Finger(page)
    rim, lever = page.get_by_role("slider", name="The rim"), page.get_by_role("slider", name="lever")
    rim.focus()
    for key, words in (("ArrowLeft", "at the left stop"), ("ArrowRight", "at the right stop")):
        page.keyboard.press(key)
        page.wait_for_function(
            "([node, words]) => node.getAttribute('aria-valuetext') === words",
            arg=[rim.element_handle(), words],
        )
    wait_step(page, "knocks")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    wait_step(page, "stops")
    assert lever.get_attribute("aria-valuetext") == "shut"
    assert rim.get_attribute("aria-valuetext") == "no play from side to side"
    rim.focus()
    for _ in range(6):
        page.keyboard.press("ArrowDown")
    wait_step(page, "smooth")


def test_the_rim_moves_as_far_as_its_play_enlarged_says(open_page):
    """Read off the screen from stop to stop: play at the rim times the enlargement, in the scale of the drawing."""
    page = open_page("/")
    Finger(page)
    data = hub_data()
    rim = page.get_by_role("slider", name="The rim")
    rim.focus()
    places = []
    for key, words in (("ArrowLeft", "at the left stop"), ("ArrowRight", "at the right stop")):
        page.keyboard.press(key)
        page.wait_for_function(
            "([node, words]) => node.getAttribute('aria-valuetext') === words",
            arg=[rim.element_handle(), words],
        )
        places.append(
            page.locator('.picture [data-group="rim top"]').first.evaluate(
                "(node, y) => { const m = node.getScreenCTM(); return [m.e - m.c * y, Math.hypot(m.a, m.b)]; }",
                RIM,
            )
        )
    (left, scale), (right, _) = places
    assert right - left == pytest.approx(data["factor"] * data["rim"] * scale, rel=0.005)


def test_what_is_pushed_to_the_left_stands_left_above_and_right_below(open_page):
    for rim, key in (("top", "ArrowLeft"), ("bottom", "ArrowRight")):
        page = open_page("/")
        hand = Finger(page)
        x, y = hand.middle(f'[data-group="rim {rim}"] .rim')
        hand.drag([(x, y), *((x - 6 * i, y) for i in range(12))])
        words = {"ArrowLeft": "at the left stop", "ArrowRight": "at the right stop"}[key]
        assert page.get_by_role("slider", name="The rim").get_attribute("aria-valuetext") == words


def test_a_lever_shut_unrocked_is_not_called_right_and_opened_again_it_knocks(open_page):
    page = open_page("/", still=True)
    Finger(page)
    lever = page.get_by_role("slider", name="lever")
    lever.focus()
    page.keyboard.press("Enter")
    wait_step(page, "shut")
    page.keyboard.press("Enter")
    wait_step(page, "rock")


def test_nothing_is_asked_of_the_server(open_page):
    page = open_page("/")
    hand = Finger(page)
    before = page.evaluate("traffic.asked")
    hand.rock()
    hand.pull_lever()
    wait_step(page, "stops")
    assert page.evaluate("traffic.asked") == before


def test_a_part_pointed_at_is_named(open_page):
    page = open_page("/")
    hand = Finger(page)
    page.mouse.move(*hand.middle(".close .ball"))
    assert page.locator(".named").inner_text() == "ball"
    page.mouse.move(*hand.middle('[data-group="dropout left"] .dropout'))
    assert page.locator(".named").inner_text() == "dropout"


def test_sound_is_silent_until_asked_for(open_page):
    page = open_page("/")
    hand = Finger(page)
    page.evaluate(
        """() => {
            window.contexts = 0;
            window.AudioContext = class extends AudioContext {
                constructor() {
                    super();
                    window.contexts += 1;
                }
            };
        }"""
    )
    hand.rock()
    assert page.evaluate("contexts") == 0
    page.get_by_role("button", name="Sound on").click()
    page.get_by_role("button", name="Sound off").wait_for()
    assert page.evaluate("contexts") == 1


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("dark", [False, True])
def test_it_fits_and_has_no_accessibility_findings(open_page, size, dark):
    width, height = size
    page = open_page("/", width=width, height=height, dark=dark)
    Finger(page)
    assert overflow(page) == 0
    assert findings(page) == []
    hub = page.locator(".rock-me").bounding_box()
    assert hub is not None
    assert hub["y"] + hub["height"] <= height
    boxes = [link.bounding_box() for link in page.locator(".st-key-cm-doors a").all()]
    assert len(boxes) == sum(len(door.pages) for door in DOORS)
    # on a telephone they follow the hub
    assert all(box and box["y"] + box["height"] <= height for box in boxes) == (width > 640)


def test_the_names_of_the_parts_are_a_fold_away(open_page):
    page = open_page("/")
    page.get_by_text("What the parts are called").click()
    picture = page.get_by_role("img", name="A hub in section with the names of its parts: ")
    picture.scroll_into_view_if_needed()
    assert picture.is_visible()
    assert "keyed washer" in (picture.get_attribute("aria-label") or "")


def test_a_link_of_a_door_opens_its_page_without_loading_afresh(open_page):
    page = open_page("/")
    page.evaluate("window.here = true")
    page.locator(".st-key-cm-doors").get_by_role("link", name="Many hubs").focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/many-hubs")
    settle(page)
    assert page.get_by_role("heading", name="Many hubs", level=1).count() == 1
    assert page.evaluate("window.here")


def test_a_link_of_a_door_opens_in_a_tab_of_its_own_when_asked_to(open_page):
    page = open_page("/")
    with page.context.expect_page() as opened:
        page.locator(".st-key-cm-doors").get_by_role("link", name="Method").click(modifiers=["ControlOrMeta"])
    opened.value.wait_for_url("**/method")
    assert not page.url.endswith("method")
