"""What does not fit is said as it is: a first reading has no others beside it, and a clamp not closed is not suspected.

Expected follow from the order of the two pushes, and from geometry: 0.24 mm on a thread of 1 mm is 15 minutes.
"""

import pytest

from conemodel.show.real_hub.measured_wording import headline_words, next_words
from conemodel.show.real_hub.misfit_words import misfit_words
from tests.tasks.real_hub.test_measured_hub import LATER, ONCE, mark, measure


@pytest.mark.parametrize(
    ("plays", "says"),
    [
        ((0.33, 0.35), "more play than such a hub shows there. Was finger contact taken early?"),
        ((0.10, 0.12), "less play than such a hub shows there."),
        ((0.26, 0.24), "The light push reads more than the hard one"),
        ((0.24, 0.28), "The two pushes lie further apart"),
    ],
)
def test_a_first_reading_is_said_by_itself(plays, says):
    measuring = measure(mark(15, plays))
    said = misfit_words(measuring)
    assert says.lower() in said.lower()
    assert "does not fit" not in headline_words(measuring)[0]
    assert "locknut loose, 15 min out" in said.lower()
    why = next_words(measuring)[1]
    for words in (said, why):
        assert "others" not in words
        assert "clamp" not in words


@pytest.mark.parametrize(("state", "suspected"), [("nut_loose", False), ("locked", False), ("clamped", True)])
def test_a_clamp_is_suspected_only_where_it_was_closed(state, suspected):
    slipped = LATER.replace(**{state: tuple(play + 1e-4 for play in getattr(LATER, state))})
    said = misfit_words(measure(ONCE, slipped))
    assert "does not fit the others" in said
    assert ("clamp closed" in said) == suspected
    assert misfit_words(measure(ONCE, LATER)) == ""
