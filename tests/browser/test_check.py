"""Check a hub in a real browser: by mouse and keys, with files, on a desk and on a phone, light and dark."""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from conemodel.parts import library
from tests.browser.pages import Visitor, findings, go_to, overflow, settle, wait_idle
from tests.browser.server import Server

Open = Callable[..., Page]
FILES = library.SCENARIOS / "readings"
SIZES = [(1280, 900), (390, 844)]
QUICK = "/check-a-hub?play_open=clear&play_closed=just+felt&turns=free&held_by=quick+release"


def state(page: Page) -> str:
    return page.locator(".cm-state").inner_text().strip()


def answer(page: Page, question: str, word: str) -> None:
    """Press an answer to the first question that has these words."""
    group = page.get_by_role("radiogroup").or_(page.get_by_role("group")).filter(has_text=word)
    labelled = page.locator("[data-testid=stButtonGroup]").filter(has_text=question).first
    (labelled if labelled.count() else group.first).get_by_text(word, exact=True).click()
    settle(page)


def bring(page: Page, name: str, data: bytes | None = None) -> None:
    page.get_by_role("button", name="Load readings, or start afresh").click()
    sent = data if data is not None else (FILES / name).read_bytes()
    page.locator("input[type=file]").set_input_files(
        {"name": name, "mimeType": "application/toml", "buffer": sent}
    )
    settle(page)
    page.keyboard.press("Escape")
    settle(page)


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize(("width", "height"), SIZES)
def test_the_page_fits_reads_and_is_accessible(open_page: Open, width: int, height: int, dark: bool) -> None:
    page = open_page(QUICK, width=width, height=height, dark=dark)
    assert "Loose" in state(page)
    assert "in (clockwise) about" in page.locator(".cm-turn").inner_text()
    assert (
        page.locator("[data-testid=stVegaLiteChart] canvas, [data-testid=stVegaLiteChart] svg").count() >= 1
    )
    assert overflow(page) == 0
    assert findings(page) == []


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_everything_unfolded_still_fits_and_is_accessible(open_page: Open, width: int, height: int) -> None:
    page = open_page(QUICK, width=width, height=height)
    for number in range(page.locator("summary").count()):
        page.locator("summary").nth(number).click()
        settle(page)
    assert page.locator("[data-testid=stNumberInput]").count() > 20
    assert overflow(page) == 0
    assert findings(page) == []


def test_the_answer_is_large_and_seen_without_scrolling(open_page: Open) -> None:
    """Letters of 1/200 of the distance are read at ease (common practice, no source): 0.6 m asks for 3 mm, 12 px."""
    page = open_page(QUICK)
    for part, times in ((".cm-state", 3), (".cm-turn", 1.8), (".cm-big b", 1.8)):
        size = page.locator(part).first.evaluate("node => parseFloat(getComputedStyle(node).fontSize)")
        assert size >= times * 12
    box = page.locator(".cm-next").bounding_box()
    assert box is not None
    assert box["y"] + box["height"] < 900


def test_the_verdict_is_seen_on_a_phone_while_questions_are_answered(open_page: Open) -> None:
    page = open_page(QUICK, width=390, height=844, touch=True)
    box = page.locator(".cm-verdict").bounding_box()
    assert box is not None
    assert box["y"] + box["height"] <= 844
    page.get_by_text("thru-axle", exact=True).tap()  # what lies behind it can be tapped
    settle(page)
    assert overflow(page) == 0


def test_three_answers_by_mouse(open_page: Open) -> None:
    page = open_page("/check-a-hub")
    assert "Not looked at yet" in state(page)
    answer(page, "open: play?", "clear")
    answer(page, "closed: play?", "slight")
    answer(page, "how does it turn?", "free")
    answer(page, "What holds the wheel?", "quick release")
    assert "Loose" in state(page)
    for part in ("play_open=clear", "play_closed=slight", "turns=free", "held_by=quick+release"):
        assert part in page.url


def test_three_answers_by_keys(open_page: Open) -> None:
    page = open_page("/check-a-hub")
    for question, word in (
        ("open: play?", "clear"),
        ("closed: play?", "clear"),
        ("how does it turn?", "free"),
    ):
        group = page.locator("[data-testid=stButtonGroup]").filter(has_text=question).first
        wanted = group.get_by_role("radio", name=word, exact=True)
        wanted.focus()
        page.keyboard.press("Space")
        settle(page)
    assert "Loose" in state(page)
    assert "play_closed=clear" in page.url


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_a_proud_axle_is_an_alert_that_stands_first(open_page: Open, width: int, height: int) -> None:
    page = open_page("/check-a-hub", width=width, height=height)
    bring(page, "proud-axle.toml")
    alert = page.get_by_role("alert").first
    assert "Do not ride" in alert.inner_text()
    assert alert.locator(".cm-state").count() == 1  # it is the largest that is said
    assert "step by step" not in page.inner_text("body")
    assert findings(page) == []


@pytest.mark.parametrize(("width", "height", "dark"), [(390, 844, True), (820, 1180, False)])
def test_two_finds_are_two_cards_that_fit_and_are_accessible(
    open_page: Open, width: int, height: int, dark: bool
) -> None:
    finds = "&checks.track_dented=yes&checks.axle_wobbles=yes"
    page = open_page(f"{QUICK}{finds}", width=width, height=height, dark=dark)
    assert "Bent axle" in state(page)
    assert page.locator(".cm-card strong").inner_text() == "Dented or pitted race."
    assert overflow(page) == 0
    assert findings(page) == []


def test_a_round_is_added_and_a_key_takes_it_back(open_page: Open) -> None:
    page = open_page(QUICK)
    page.locator("summary").filter(has_text="Turned it?").click()
    answer(page, "clamp open, now", "slight")
    answer(page, "clamp closed, now", "none")
    page.get_by_role("button", name="Add this round").click()
    page.get_by_text("Right", exact=False).first.wait_for()
    settle(page)
    assert "Right" in state(page)
    assert page.locator(".cm-words tbody tr").count() >= 2
    page.keyboard.press("Control+z")
    settle(page)
    assert "Loose" in state(page)


def test_a_bad_file_is_explained_and_keeps_everything(open_page: Open) -> None:
    page = open_page(QUICK)
    before = page.locator(".cm-verdict").inner_text()
    bring(page, "../../x<b>.toml", b"[found]\nrim_open = { play_mm = 99 }\n[extra](http://example.org)\n")
    assert page.get_by_text("What you entered is as it was").is_visible()
    assert page.locator(".cm-verdict").inner_text() == before
    assert "play_open=clear" in page.url


@pytest.mark.parametrize(
    ("label", "start"),
    [
        ("Readings (TOML)", b"name = "),
        ("Result (text)", b"A hub"),
        ("Result (JSON)", b"{"),
        ("Curves (CSV)", b"clamp,end_play_mm"),
        ("Sheet, A5 (PDF)", b"%PDF"),
    ],
)
def test_everything_can_be_taken_along(open_page: Open, label: str, start: bytes) -> None:
    page = open_page(QUICK)
    page.get_by_role("button", name="Take it with you").click()
    with page.expect_download() as waiting:
        page.get_by_role("button", name=label).click()
    with open(waiting.value.path(), "rb") as stream:
        assert stream.read(len(start)) == start


def test_an_answer_asks_the_server_once_and_is_on_screen(open_page: Open) -> None:
    """One click, one run: a second one would keep whoever answers waiting twice as long on any machine."""
    page = open_page(QUICK)
    before, asked = state(page), page.evaluate("traffic.asked")
    answer(page, "closed: play?", "none")
    assert page.evaluate("traffic.asked") == asked + 1
    assert state(page) != before


def test_what_was_entered_is_there_after_a_look_at_another_screen(open_page: Open) -> None:
    page = open_page(QUICK)
    page.locator("summary").filter(has_text="Axle, dropouts, thread").click()
    settle(page)
    page.get_by_role("spinbutton", name="Thickness of the dropouts [mm]").fill("6.8")
    page.keyboard.press("Enter")
    settle(page)
    for door, name in (("Learn it", "Set the cone"), ("Sort out a hub", "Check a hub")):
        go_to(page, door, name)
        page.get_by_role("heading", name=name, level=1).wait_for()
        settle(page)
    assert "Loose" in state(page)
    if not page.get_by_role("spinbutton", name="Thickness of the dropouts [mm]").count():
        page.locator("summary").filter(has_text="Axle, dropouts, thread").click()
        settle(page)
    assert page.get_by_role("spinbutton", name="Thickness of the dropouts [mm]").input_value() == "6.80"


def add_round(page: Page, *, way: str, by: str, felt: str) -> None:
    """Say what was turned and what is felt now, in a form that is open."""
    answer(page, "Cone turned", way)
    page.get_by_role("spinbutton", name="by [°]").fill(by)
    page.keyboard.press("Enter")
    settle(page)
    answer(page, "clamp open, now", felt)
    page.get_by_role("button", name="Add this round").click()
    settle(page)


def look(page: Page) -> tuple[str, str, str]:
    """Return the answer, the rounds so far and the thickness entered."""
    wait_idle(page)
    sizes = page.get_by_role("spinbutton", name="Thickness of the dropouts [mm]")
    if not sizes.count():
        page.locator("summary").filter(has_text="Axle, dropouts, thread").click()
        settle(page)
    said = page.locator(".cm-verdict").inner_text()
    return said, page.locator(".cm-words tbody").first.inner_text(), sizes.input_value()


def test_nothing_entered_is_lost_by_a_reload_another_browser_or_a_new_server(
    serve: Callable[[Path], Server], browser: Browser, root: Path
) -> None:
    server = serve(root / "app.py")
    visitor = Visitor(browser, server.url)
    with visitor.page(QUICK) as page:
        page.locator("summary").filter(has_text="Axle, dropouts, thread").click()
        settle(page)
        page.get_by_role("spinbutton", name="Thickness of the dropouts [mm]").fill("6.8")
        page.keyboard.press("Enter")
        settle(page)
        page.locator("summary").filter(has_text="Turned it?").click()
        add_round(page, way="in (clockwise)", by="12", felt="clear")
        add_round(page, way="in (clockwise)", by="9", felt="slight")
        before = look(page)
        assert before[1].count("in (clockwise)") == 2
        page.reload()
        assert look(page) == before

        address = page.url.removeprefix(server.url)
        with visitor.page(address) as other:
            assert look(other) == before

        server.stop()
        server.start()
        page.get_by_role("button", name="Take back the last round").wait_for()
        page.reload()
        assert look(page) == before
        page.get_by_role("button", name="Take back the last round").click()
        settle(page)
        fewer = look(page)
        assert fewer[1].count("in (clockwise)") == 1
        page.reload()
        assert look(page) == fewer


def test_the_door_leads_in(open_page: Open) -> None:
    page = open_page("/")
    assert page.get_by_role("heading", name="Sort out a hub").is_visible()
    page.locator("[data-testid=stMain]").get_by_role("link", name="Check a hub").click()
    page.get_by_text("Rule these out first").wait_for()
    wait_idle(page)
    assert "check-a-hub" in page.url
