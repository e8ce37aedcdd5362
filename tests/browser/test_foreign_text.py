"""Hostile text on a page, read back from the browser: it stands there letter for letter and nothing came of it."""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from conemodel.base.plain_text import KEEP_APART, one_line
from tests.browser.pages import Visitor
from tests.browser.server import Server
from tests.hostile import HOSTILE

MARKUP = "img, a, .katex, code, em, del, ol, ul, [data-testid=stIconMaterial], [class*=Colored], span[style*=color]"


@pytest.fixture(scope="module")
def foreign(browser: Browser, serve: Callable[[Path], Server]) -> Visitor:
    return Visitor(browser, serve(Path(__file__).with_name("foreign_text_page.py")).url)


def test_hostile_text_stands_letter_for_letter_and_nothing_comes_of_it(foreign: Visitor) -> None:
    with foreign.page() as page:
        for number, (name, text) in enumerate(HOSTILE.items()):
            case = page.locator(f".st-key-case-{number}")
            words = case.inner_text().replace(KEEP_APART, "")
            assert words.count(one_line(text)) == 8, (name, words)
            markup = case.locator(MARKUP).evaluate_all("all => all.map(each => each.outerHTML)")
            assert [each for each in markup if "stAlert" not in each] == [], name
