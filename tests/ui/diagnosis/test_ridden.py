"""Ridden between two rounds, as it is entered on the page Check a hub."""

import pytest

from tests.ui.diagnosis.driving import QUICK, add_round, enter, opened, pick, seen, words


def test_a_ride_between_rounds_is_a_round_of_its_own_with_its_distance() -> None:
    app = opened(**QUICK)
    app.number_input(key="check:next.turned").set_value(None).run()
    pick(app, "check:next.ridden", "yes")
    enter(app, "next.ridden_distance", 30.0)
    add_round(app)
    assert not app.exception
    assert seen(app).round_2.ridden_distance == pytest.approx(30e3)
    assert "30 km" in words(app)
