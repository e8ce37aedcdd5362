"""What is written on the pages is written in the sizes of the scale, at every width; the wall is larger.

The instrument is left out: it fits its words to its own boxes.
"""

import pytest

from conemodel.show.type_scale import COMPACT, FRONT, HEADING, LABEL, STATE, TEXT, TITLE, VALUE

WIDE = {LABEL, TEXT, TITLE, VALUE, HEADING, STATE, FRONT}
PAGES = (
    "/",
    "/first-hub",
    "/practise",
    "/my-hand",
    "/progress",
    "/set-the-cone",
    "/demonstrate",
    "/check-a-hub?open=slight",
)

SIZES = """() => {
    const sizes = {}, skip = 'style, script, noscript, svg, .katex, [data-testid=stIconMaterial]';
    const look = root => root.querySelectorAll('*').forEach(each => {
        if (each.shadowRoot && !each.shadowRoot.querySelector(".instrument")) look(each.shadowRoot);
        const own = [...each.childNodes].some(node => node.nodeType === 3 && node.textContent.trim());
        if (!own || each.closest(skip) || !each.checkVisibility() || each.getBoundingClientRect().width < 2) return;
        sizes[Math.round(parseFloat(getComputedStyle(each).fontSize))] = each.textContent.trim().slice(0, 60);
    });
    look(document.body);
    return sizes;
}"""


@pytest.mark.parametrize("path", PAGES)
@pytest.mark.parametrize(("width", "height"), [(1366, 768), (390, 844)])
def test_every_word_is_of_the_scale(open_page, path, width, height):
    allowed = WIDE if width > 640 else WIDE - {HEADING, STATE, FRONT} | set(COMPACT.values())
    page = open_page(path, width=width, height=height)
    assert {
        int(size): words for size, words in page.evaluate(SIZES).items() if int(size) not in allowed
    } == {}


def test_nothing_on_the_wall_is_below_thirty_pixels_on_a_projector(open_page):
    page = open_page("/demonstrate?story=quick-release-or-nuts&step=locked", width=1920, height=1080)
    assert page.locator(".st-key-cm-wall").count() == 1
    small = {size: words for size, words in page.evaluate(SIZES).items() if int(size) < 30}
    assert small == {}
