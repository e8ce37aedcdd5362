"""What readings at marks tell, on a page and in a terminal: what was never read is said to be assumed.

A clamp takes part in no reading before it was closed: order of the work.
"""

from conemodel.show.real_hub.measured_text import ASSUMED, list_known, measured_text
from conemodel.show.real_hub.measured_wording import next_words
from conemodel.show.real_hub.text import list_readings
from tests.tasks.real_hub.test_measured_hub import ONCE, mark, measure


def test_a_clamp_that_was_never_closed_is_assumed_and_not_found():
    steps = (mark(15, (0.24, 0.24)), mark(15, (0.24, 0.24), (0.15, 0.15)), ONCE)
    for assumed, at in zip((2, 1, 0), steps, strict=True):
        measuring = measure(at)
        found = [row[1] for row in list_known(measuring).records]
        assert found.count(ASSUMED) == assumed
        assert measured_text(measuring).count(ASSUMED) == assumed
        assert (found[1] == ASSUMED) == (assumed > 0)


def test_what_a_mechanic_reads_is_short_and_the_file_is_named_only_where_there_is_one():
    said = " ".join(measured_text(measure(ONCE)).split())
    for words in ("Sure enough", "another make", "was met within", "four of five"):
        assert words not in said
    assert "simulated hubs the first turn was right on" in said
    wrong = measure(mark(60, (0.24, 0.25)))
    assert "file" not in " ".join(next_words(wrong))
    assert "In the file: correct the count" in " ".join(measured_text(wrong).split())


def test_units_keep_their_capitals_and_the_headline_ends_once():
    assert next(iter(list_readings(measure(ONCE).fitted).records))[0].endswith("locknut loose, 10 N")
    turned = " ".join(measured_text(measure(ONCE, mark(9))).split())
    assert "clamp and read. No further turn before that." in turned
