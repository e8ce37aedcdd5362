"""What the eye rests on stays where it is when a fold is unfolded, a story is picked or something is felt."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Locator, Page

from tests.browser.pages import settle

Open = Callable[..., Page]
SIZES = [(1366, 768), (820, 1180), (390, 844)]


def top(piece: Locator) -> float:
    """Return how far below the top of the page's scroll a piece stands once it has come to rest [px].

    A fold that closes slides for a while: it rests when it has stood in the same place for thirty frames.
    """
    return float(
        piece.evaluate(
            """piece => new Promise(done => {
                const now = () => piece.getBoundingClientRect().top
                    + document.querySelector('[data-testid=stMain]').scrollTop;
                let last = now(), same = 0;
                const look = () => {
                    same = now() === last ? same + 1 : 0;
                    last = now();
                    if (same < 30) requestAnimationFrame(look);
                    else done(last);
                };
                look();
            })"""
        )
    )


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_another_story_leaves_the_way_in_where_it_is(open_page: Open, width: int, height: int) -> None:
    page = open_page("/demonstrate", width=width, height=height)
    way_in = page.get_by_role("button", name="Show it", exact=True)
    places = {top(way_in)}
    for steps in (1, 2, 3):
        page.get_by_role("combobox").first.click()
        for _ in range(steps):
            page.keyboard.press("ArrowDown")
        page.keyboard.press("Enter")
        settle(page)
        places.add(top(way_in))
    assert max(places) - min(places) <= 1


@pytest.mark.parametrize("path", ["/check-a-hub", "/set-the-cone", "/method"])
def test_a_fold_opens_downwards_only(open_page: Open, path: str) -> None:
    page = open_page(path, width=390, height=844)
    folds = page.locator("[data-testid=stMain] summary")
    for number in range(min(folds.count(), 4)):
        fold = folds.nth(number)
        before = top(fold)
        fold.click()
        settle(page)
        assert abs(top(fold) - before) <= 1
        fold.click()
        settle(page)


def test_what_is_felt_moves_neither_the_hub_nor_the_way_on(open_page: Open) -> None:
    page = open_page("/first-hub", width=820, height=1180)
    hub, way_on = page.locator("canvas").first, page.get_by_role("button", name="Next hub")
    places = top(hub), top(way_on)
    assert way_on.is_disabled()
    page.get_by_role("button", name="Rock briskly").click()
    page.get_by_role("button", name="Turn once round").wait_for()
    settle(page)
    assert (top(hub), top(way_on)) == pytest.approx(places, abs=1)
