"""My hand as a flow: broken off for another kind or another day, gone on with, and what belongs to no name.

A page opened anew is a new session: it has nothing but the address.
"""

from streamlit.testing.v1 import AppTest

from conemodel.record.database import Database
from conemodel.record.hand_sittings import begin_sitting, keep_answer, nameless_sittings
from conemodel.tasks.hand.kinds import KINDS
from conemodel.tasks.hand.procedure import PAIRS, Answer
from conemodel.ui.hand.pairs import FEEL_BOTH
from tests.patience import PATIENCE

VISIT = "v" * 16


def _script() -> None:
    from conemodel.ui.hand import page

    page.page()


def opened(**address: str) -> AppTest:
    app = AppTest.from_function(_script, default_timeout=PATIENCE)
    for name, value in {"visit": VISIT, **address}.items():
        app.query_params[name] = value
    app.run()
    assert not app.exception
    return app


def press(app: AppTest, label: str) -> None:
    next(button for button in app.button if button.label == label).click()
    app.run()
    assert not app.exception


def words(app: AppTest) -> str:
    return "\n".join(element.value for element in (*app.caption, *app.markdown, *app.header))


def sat(database: Database, kind: str, pairs: int, *, name: str | None = None, visit: str = VISIT) -> int:
    """Keep a sitting with so many pairs answered, and return its number."""
    sitting = begin_sitting(KINDS[kind], database, name=name, visit=visit)
    for number in range(pairs):
        answer = Answer(difference=KINDS[kind].usual * (-1) ** number, second=number % 2 == 0)
        sitting = keep_answer(sitting, answer, database)
    return sitting.id


def test_a_sitting_left_for_the_other_kind_waits_and_goes_on_in_a_new_session(database: Database) -> None:
    sat(database, "play", 12)
    other = opened(measure="tightness")
    assert f"**Play** waits at pair 13 of {PAIRS}" in words(other)
    press(other, "Begin")
    back = opened(measure="play")
    assert "sitting" in back.query_params
    assert f"**Tightness** waits at pair 1 of {PAIRS}" in words(back)
    assert "Break off whenever you like" in words(back)


def test_answers_that_cannot_be_given_yet_say_why(database: Database) -> None:
    sat(database, "play", 3)
    app = opened()
    (bar,) = app.get("progress")
    assert bar.proto.text == f"Pair 4 of {PAIRS}, some 8 min left. {FEEL_BOTH}"
    answers = [button for button in app.button if button.label.endswith("has more play")]
    assert [button.disabled for button in answers] == [True, True]
    assert [button.label for button in app.button][:2] == ["Hub A: feel it", "Hub B: feel it"]


def test_what_was_found_without_a_name_is_listed_for_its_visit_and_for_nobody_else(
    database: Database,
) -> None:
    sat(database, "play", PAIRS)
    sat(database, "play", PAIRS)
    app = opened()
    assert "No name: " in words(app)
    assert "Over time" in words(app)
    assert "Over time" not in words(opened(visit="w" * 16))
    press(app, "Delete")
    assert nameless_sittings(VISIT, KINDS["play"], database) == ()


def test_deleting_what_has_no_name_leaves_what_has_one(database: Database) -> None:
    sat(database, "play", PAIRS)
    kept = sat(database, "play", 2, name="Kim")
    press(opened(), "Delete")
    assert "Pair" not in words(opened())
    named = opened(sitting=str(kept))
    assert "kept under Kim" in words(named).replace("\\", "")


def test_another_person_finds_nothing_of_the_one_before(database: Database) -> None:
    sat(database, "play", 5)
    app = opened()
    press(app, "Another person")
    assert any(button.label == "Begin" for button in app.button)
    assert app.query_params["visit"] not in (VISIT, [VISIT])
    assert len(nameless_sittings(VISIT, KINDS["play"], database)[0].answers) == 5
