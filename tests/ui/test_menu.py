"""Every page has one place in the menu."""

from collections import Counter

from conemodel.ui.pages import PAGES
from conemodel.ui.start import DOORS


def test_every_page_but_the_start_is_behind_one_door():
    behind = Counter(name for door in DOORS for name in door.pages)
    assert behind == Counter(set(PAGES) - {"start"})
