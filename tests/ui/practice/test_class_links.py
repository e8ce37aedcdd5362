"""Links for a class: under an address that phones reach, else with a word that they do not; assessed or coached."""

import pytest
from streamlit.testing.v1 import AppTest

from conemodel.cli.local_network import EVERY_ADDRESS, Reach, in_address_bar
from conemodel.tasks.practice.catalogue import ladder, read_link
from conemodel.ui.practice.class_links import ONLY_HERE, WHAT_A_ROUND_IS, reached_by_others
from tests.patience import PATIENCE

AT_A_DESK = ("localhost", "127.0.0.1")
SERVED = Reach(EVERY_ADDRESS, ("192.168.1.20", "10.0.0.3"), ("office-pc.local", "office-pc"))


@pytest.mark.parametrize("opened", [*SERVED.here, *SERVED.names, "192.168.1.20"])
def test_under_serve_a_link_begins_with_the_address_that_serve_printed_first(opened: str) -> None:
    printed = in_address_bar(SERVED.addresses[0], 8501)
    assert reached_by_others(f"http://{opened}:8501/progress?part=class", SERVED.hosts) == printed


def test_another_address_by_which_it_was_reached_is_kept() -> None:
    assert reached_by_others("http://10.0.0.3:80/x/progress/", SERVED.hosts) == "http://10.0.0.3:80/x"


def test_an_address_of_ipv6_stands_in_brackets() -> None:
    served = Reach("fd00::2", ("fd00::2",), ("office-pc.local",))
    found = reached_by_others("http://office-pc.local:8501/progress", served.hosts)
    assert found == in_address_bar("fd00::2", 8501)


@pytest.mark.parametrize("opened", ["http://localhost:8501/progress", "http://127.0.0.1:8501/progress", ""])
def test_at_a_desk_there_is_no_address_for_others(opened: str) -> None:
    assert reached_by_others(opened, AT_A_DESK) is None


def _script() -> None:
    from conemodel.ui.practice.class_links import show_links

    show_links("evening")


def opened() -> AppTest:
    app = AppTest.from_function(_script, default_timeout=PATIENCE).run()
    assert not app.exception
    return app


def links(app: AppTest) -> list[str]:
    return [line.split("link=")[1] for line in app.code[0].value.splitlines()]


def test_links_that_open_on_this_machine_only_come_with_that_word() -> None:
    assert [warning.value for warning in opened().warning] == [ONLY_HERE]


def test_links_are_assessed_until_the_instructor_chooses_training_and_it_is_said_which() -> None:
    app = opened()
    assert not any(read_link(code).training for code in links(app))
    assert WHAT_A_ROUND_IS[False] in [caption.value for caption in app.caption]
    app.segmented_control(key="class_round").set_value(True).run()
    assert all(read_link(code).training for code in links(app))
    assert WHAT_A_ROUND_IS[True] in [caption.value for caption in app.caption]


def test_an_exercise_that_is_not_assessed_has_no_round_to_choose() -> None:
    app = opened()
    name = next(name for name, exercise in ladder().items() if not exercise.assessed)
    app.selectbox(key="class_exercise").set_value(name).run()
    assert not app.segmented_control
    assert not any(read_link(code).training for code in links(app))
