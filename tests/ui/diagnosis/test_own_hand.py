"""Check a hub takes a threshold of the person named, found on a real hub; and none that practice found."""

from conemodel.parts.library import SCENARIOS
from conemodel.parts.real_hub import load_real_hub
from conemodel.parts.toml_files import load_scenario
from conemodel.record.database import Database
from conemodel.record.hand_sittings import begin_sitting, keep_answer
from conemodel.record.real_hubs import keep_real_hub
from conemodel.tasks.hand.kinds import KINDS
from conemodel.tasks.hand.procedure import PAIRS, Answer
from tests.ui.diagnosis.driving import QUICK, opened, words

SAID = "Ada feels play at the rim from 0.0"


def _keep(database: Database) -> None:
    found = load_real_hub(SCENARIOS / "real_hubs" / "practice-wheel.toml")
    keep_real_hub(found, load_scenario(SCENARIOS / "touring-rear.toml"), database, name="Ada")


def _named(app, name):
    app.session_state["practise_name"] = name
    return app.run()


def test_a_threshold_from_a_real_hub_serves_and_the_page_says_so(database: Database) -> None:
    _keep(database)
    app = _named(opened(**QUICK), "Ada")
    assert not app.exception
    assert SAID in words(app)
    assert "**Used** for the words at the rim" in words(app)
    with_hand = words(app)
    app.toggle(key="own_hand").set_value(False).run()
    assert app.query_params["own_hand"] == "no"
    assert "**Not used**" in words(app)
    assert "**Used**" not in words(app)
    assert words(app) != with_hand  # the chances are those of any hand again


def test_nobody_named_is_judged_as_any_hand(database: Database) -> None:
    _keep(database)
    for name in ("", "Kim"):
        said = words(_named(opened(**QUICK), name))
        assert "found on a real hub" not in said
        assert "Your hand's own threshold: **not used**" in said
        assert ("None is kept for Kim" if name else "Type your name on that page first") in said


def test_what_practice_found_does_not_serve(database: Database) -> None:
    sitting = begin_sitting(KINDS["play"], database, name="Ada")
    for number in range(PAIRS):
        sitting = keep_answer(sitting, Answer(difference=0.15e-3, second=number % 5 != 0), database)
    assert sitting.finished
    app = _named(opened(**QUICK), "Ada")
    assert SAID not in words(app)
    assert not [one for one in app.toggle if one.key == "own_hand"]
