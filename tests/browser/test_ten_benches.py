"""Ten benches by mouse, by a finger and by keys in a real browser, on the widget that practice ships.

The players are the model's own (`tests/tasks/practice`), with hands and eyes on the page in place of the widgets'
data: the same seed is the same hub, so each outcome is held to the model's on that seed. What ten can show is little:
ten of ten passed leave shares down to 0.69 possible, none of ten passed up to 0.31 (Clopper and Pearson 1934, from
memory; scipy's). So ten are only held not to contradict a bound; the model's two hundred are held to the bound itself.
"""

from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Browser, Page
from scipy.stats import binomtest

from conemodel.tasks.practice.marking import mark
from conemodel.tasks.practice.session import Bench
from tests.browser.own_bench import empty_page
from tests.browser.page_player import PagePlayer, at_the_page
from tests.tasks.practice import namers
from tests.tasks.practice.hubs import open_link
from tests.tasks.practice.inputs import INPUTS, By
from tests.tasks.practice.players import careful, quarter_turn
from tests.tasks.practice.test_inputs import SETTING

SEEDS = range(10)
ASTRAY = 1
"""Most outcomes that a pixel beside what was meant may change: at the model another step changes one in a hundred."""
WELL = 0.05
"""Chance below which a count contradicts a share."""


@pytest.fixture
def page(browser: Browser, by: By) -> Iterator[Page]:
    """Return an empty page that has the bench's script."""
    with empty_page(browser, by) as page:
        yield page


Play = Callable[[Bench, int], bool]
"""Whether a player passes a bench, begun with its seed."""


def hold_ten_to_the_model(
    page: Page, by: By, begin: Callable[[int], Bench], play: Play, *, share: float, over: bool
) -> None:
    """Hold ten outcomes at the page to the model's on the same seeds; together they must not contradict a bound."""
    here = []
    for seed in SEEDS:
        with at_the_page(PagePlayer(page, begin(seed), by)) as bench:
            here.append(play(bench, seed))
    model = [play(begin(seed), seed) for seed in SEEDS]
    assert sum(a != b for a, b in zip(here, model, strict=True)) <= ASTRAY
    counted = binomtest(sum(here), len(here), share, alternative="less" if over else "greater")
    assert counted.pvalue > WELL


@pytest.mark.slow
@pytest.mark.parametrize("by", INPUTS)
@pytest.mark.parametrize(
    ("judging", "share", "over"), [(namers.by_hand, 0.8, True), (namers.by_words_alone, 0.3, False)]
)
def test_ten_rounds_are_named_as_at_the_model(page, by, judging, share, over):
    """By a hand that feels what is drawn, and by a reader of all that is written."""

    def play(bench: Bench, seed: int) -> bool:
        return namers.name_all(bench, judging, seed)

    hold_ten_to_the_model(page, by, namers.start, play, share=share, over=over)


@pytest.mark.slow
@pytest.mark.parametrize("by", INPUTS)
@pytest.mark.parametrize(("player", "share", "over"), [(careful, 0.8, True), (quarter_turn, 0.3, False)])
def test_ten_hubs_are_set_as_at_the_model(page, by, player, share, over):
    """By a hand that corrects by feel, and by one that backs off a quarter turn whatever the hub."""

    def begin(seed: int) -> Bench:
        return open_link(f"{SETTING}.inputs.{seed}")

    def play(bench: Bench, _: int) -> bool:
        return mark(player(bench)).passed

    hold_ten_to_the_model(page, by, begin, play, share=share, over=over)
