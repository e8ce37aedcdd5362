"""Set the cone in a real browser: on a desk and on a phone, light and dark, by keys, and by its address."""

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Locator, Page

import conemodel as cm
from conemodel.base.units import DEG
from conemodel.parts.library import SCENARIOS
from conemodel.parts.unknowns.hands import DRIFT
from conemodel.tasks.setting.overrides import apply_overrides
from conemodel.ui.choose_hub import ready_hubs
from tests.browser.instrument_hands import wait_rest
from tests.browser.pages import findings, overflow, settle, wait_idle

Open = Callable[..., Page]
CHART = "[data-testid=stVegaLiteChart] :is(canvas, svg)"
SIZES = [(1280, 900), (390, 844)]


def state(page: Page) -> str:
    wait_rest(page)
    return page.locator(".instrument .state .words").inner_text().strip()


def cone(page: Page) -> Locator:
    return page.get_by_role("slider", name="Cone spanner")


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize(("width", "height"), SIZES)
def test_the_page_fits_reads_and_is_accessible(open_page: Open, width: int, height: int, dark: bool) -> None:
    page = open_page("/set-the-cone", width=width, height=height, dark=dark)
    assert state(page) == "Probably loose"
    assert "clockwise" in page.locator(".instrument .turn").inner_text()
    for part in (".close", ".acts", ".dial", ".whole"):
        assert page.locator(f".instrument {part}").is_visible()
    assert page.locator(CHART).is_visible()
    assert page.get_by_role("row", name="thread slack taken up").is_visible()
    assert overflow(page) == 0
    assert findings(page) == []


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize(("width", "height"), SIZES)
def test_what_is_assumed_opens_with_its_reasons_and_takes_another_range(
    open_page: Open, width: int, height: int, dark: bool
) -> None:
    page = open_page("/set-the-cone", width=width, height=height, dark=dark)
    page.get_by_role("button", name="What is only assumed").click()
    most = page.get_by_label("Turn of the held cone, most [°]")
    most.fill("12")
    most.press("Enter")
    settle(page)
    assert "drift_high=12" in page.url
    assert page.get_by_text(DRIFT.because, exact=False).is_visible()
    assert overflow(page) == 0
    assert findings(page) == []


def test_the_verdict_is_large_enough_to_read_at_arms_length(open_page: Open) -> None:
    """Letters of 1/200 of the distance are read at ease (common practice, no source): 0.6 m asks for 3 mm, 12 px."""
    page = open_page("/set-the-cone")
    for words in page.locator(".instrument .head .words").all():
        assert words.evaluate("node => parseFloat(getComputedStyle(node).fontSize)") >= 3 * 12


@pytest.mark.parametrize(("width", "height"), [(1366, 768), (820, 1180), (390, 844)])
def test_hub_spanner_scale_and_headline_stand_above_the_fold(
    open_page: Open, width: int, height: int
) -> None:
    page = open_page("/set-the-cone", width=width, height=height)
    for part in (".head", ".close", ".acts", ".dial"):
        box = page.locator(f".instrument {part}").bounding_box()
        assert box is not None
        assert box["y"] >= 0
        assert box["y"] + box["height"] <= height


@pytest.mark.parametrize(("width", "height"), [(820, 1180), (390, 844)])
def test_the_longest_name_of_a_hub_is_read_whole_above_the_spanner(
    open_page: Open, width: int, height: int
) -> None:
    longest = max(ready_hubs(), key=lambda name: len(ready_hubs()[name].name))
    page = open_page(f"/set-the-cone?hub={longest}", width=width, height=height)
    chooser = page.get_by_role("combobox", name="Hub")
    assert chooser.input_value() == ready_hubs()[longest].name
    assert chooser.evaluate("node => node.scrollWidth <= node.clientWidth")
    box = page.locator(".instrument .dial").bounding_box()
    assert box is not None
    assert box["y"] + box["height"] <= height


def test_a_fold_heard_by_itself_says_what_is_inside_and_that_it_is_closed(open_page: Open) -> None:
    page = open_page("/set-the-cone", width=390, height=844)
    folds = page.get_by_role("button", expanded=False).and_(page.locator("[aria-haspopup=dialog]"))
    assert [each.locator("p").inner_text() for each in folds.all()] == [
        "About this hub, or a file",
        "How it is locked",
        "What counts as good",
        "What is only assumed",
        "Take it with you: numbers and sheets",
    ]
    assert page.locator("summary").inner_text().strip().endswith("why they come out so")


def test_the_advised_turn_makes_it_right_and_a_key_undoes_it(open_page: Open) -> None:
    scenario = cm.load_scenario(SCENARIOS / "touring-rear.toml")
    turn = cm.predict(apply_overrides(scenario, {"thread-slack": "0.09", "clamp-force": "5000"})).verdict.turn
    assert turn is not None
    page = open_page("/set-the-cone?slack=0.09&clamp=5")
    page.get_by_role("button", name="Make that turn").click()
    page.get_by_text(f"{90 + DEG.from_si(turn.angle):.0f}° out:", exact=False).wait_for()
    page.locator(".instrument .state .words", has_text=re.compile("right", re.IGNORECASE)).wait_for()
    assert f"turn={90 + DEG.from_si(turn.angle):.0f}" in page.url
    page.keyboard.press("Control+z")
    page.get_by_text("90° out:", exact=False).wait_for()
    page.locator(".instrument .state .words", has_text=re.compile("loose", re.IGNORECASE)).wait_for()


def test_two_turns_undone_while_the_first_still_plays_leave_picture_and_page_alike(open_page: Open) -> None:
    page = open_page("/set-the-cone?turns_made=30_60&turn=90")
    undo = page.get_by_role("button", name="Undo the last turn")
    for left in ("60° out:", "30° out:"):  # after a reload too: the way back stands in the address
        undo.click()
        page.get_by_text(left, exact=False).wait_for()
    page.locator(".instrument .dial", has_text="5 minutes out").wait_for()
    page.locator(".instrument[data-busy=no]").wait_for()
    assert "turn=30" in page.url
    assert cone(page).get_attribute("aria-valuenow") == "5"


def test_of_two_turns_that_the_page_is_told_of_at_once_undo_takes_back_one(open_page: Open) -> None:
    page = open_page("/set-the-cone?turn=72&stage=backed_off")
    wait_rest(page)
    page.locator(".instrument .acts").evaluate(
        """acts => ['contact', 'backed_off'].forEach(stage => acts.querySelector(`[data-stage=${stage}]`).click())"""
    )
    page.wait_for_url(re.compile("turns_made=72_0&|turns_made=72_0$"))
    assert "turn=72" in page.url
    page.get_by_role("button", name="Undo the last turn").click()
    page.get_by_text(re.compile("^0° out:")).wait_for()
    page.locator(".instrument .dial", has_text="At finger contact").wait_for()


def test_the_spanner_turns_by_keys_and_the_page_follows(open_page: Open) -> None:
    page = open_page("/set-the-cone")
    cone(page).focus()
    for _ in range(5):
        page.keyboard.press("Shift+ArrowRight")
    page.get_by_text("85° out:", exact=False).wait_for()
    wait_idle(page)
    assert "turn=85" in page.url


def test_the_hand_is_answered_before_the_rest_of_the_page_is_asked_for(open_page: Open) -> None:
    page = open_page("/set-the-cone?stage=backed_off")
    wait_rest(page)
    before = page.evaluate("traffic.asked")
    page.evaluate(
        """() => {
            const frame = [...document.querySelectorAll('*')]
                .map(node => node.shadowRoot?.querySelector('.instrument')).find(Boolean);
            new MutationObserver(() => { window.answered ??= [frame.dataset.exact, traffic.asked]; })
                .observe(frame, { attributes: true, attributeFilter: ['data-exact'] });
        }"""
    )
    cone(page).focus()
    page.keyboard.press("ArrowRight")
    page.get_by_text("84° out:", exact=False).wait_for()
    wait_idle(page)
    assert page.evaluate("answered") == ["84", before]
    assert page.evaluate("traffic.asked") == before + 1
    assert "turn=84" in page.url


@pytest.mark.parametrize("body", ["<html>", "null"])
def test_without_an_answer_ahead_the_page_answers_the_hand(open_page: Open, body: str) -> None:
    page = open_page("/set-the-cone?stage=backed_off")
    wait_rest(page)
    page.route("**/conemodel/exact/**", lambda asked: asked.fulfill(body=body))
    cone(page).focus()
    page.keyboard.press("ArrowRight")
    page.get_by_text("84° out:", exact=False).wait_for()
    wait_idle(page)
    assert "turn=84" in page.url


def test_a_reload_finds_the_hub_after_the_act_it_was_left_at(open_page: Open) -> None:
    page = open_page("/set-the-cone?turn=61&stage=locked")
    act = page.locator(".instrument .acts [aria-current=step]")
    assert act.get_attribute("data-stage") == "locked"
    page.locator(".instrument [data-stage=clamped]").click()
    settle(page)
    assert "stage=" not in page.url
    page.reload()
    wait_idle(page)
    assert act.get_attribute("data-stage") == "clamped"
    assert "turn=61" in page.url


def test_the_chart_stays_while_the_cone_turns(open_page: Open) -> None:
    """Building it anew takes a browser longer than all else on the page; only the rule may move."""
    page = open_page("/set-the-cone")
    chart = page.locator(CHART)
    chart.wait_for()
    page.get_by_text("now 90°").wait_for()
    kept = chart.element_handle()
    cone(page).focus()
    page.keyboard.press("Shift+ArrowRight")
    page.get_by_text("now 89°").wait_for()
    assert kept is not None
    assert kept.evaluate("node => node.isConnected")


def test_a_link_carries_hub_and_setting(open_page: Open) -> None:
    page = open_page("/set-the-cone?hub=road-front&turn=61&clamp=8&technique=cone+turned+out&stage=locked")
    assert page.get_by_role("combobox").first.input_value() or "Road front" in page.inner_text("body")
    assert "61° out:" in page.inner_text("body")
    assert "hub=road-front" in page.url
    assert "technique=cone" in page.url


def test_nonsense_in_the_address_does_no_harm(open_page: Open) -> None:
    page = open_page(
        "/set-the-cone?hub=%3Cscript%3E&turn=lots&clamp=-5&technique=pray&seat=9&stage=x&drift=nan"
    )
    assert state(page) == "Probably loose"


@pytest.mark.parametrize(
    ("label", "start"),
    [
        ("Numbers (JSON)", b"{"),
        ("Curves (CSV)", b"cone_out_deg,"),
        ("Picture (PNG)", b"\x89PNG"),
        ("The closing gap (SVG)", b"<svg "),
        ("The closing gap (PDF)", b"%PDF"),
        ("The bearing, clamped (SVG)", b"<svg "),
        ("Sheet (PDF)", b"%PDF"),
        ("Cone dial, Letter (PDF)", b"%PDF"),
        ("Wall chart, A3 (PDF)", b"%PDF"),
        ("This hub (TOML)", b"name = "),
    ],
)
def test_everything_can_be_taken_along(open_page: Open, label: str, start: bytes) -> None:
    page = open_page("/set-the-cone")
    page.get_by_role("button", name="Take it with you").click()
    with page.expect_download() as waiting:
        page.get_by_role("button", name=label).click()
    path = waiting.value.path()
    with open(path, "rb") as stream:
        assert stream.read(len(start)) == start


def test_a_proud_axle_is_an_alert(open_page: Open) -> None:
    page = open_page("/set-the-cone?hub=proud-axle", width=390, height=844)
    assert state(page).startswith("Do not ride")
    assert "Do not ride" in page.get_by_role("alert").first.inner_text()
