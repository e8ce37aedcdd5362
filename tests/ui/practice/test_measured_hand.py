"""A measured hand serves in its own practice, and in no class. The law: what was measured is what hubs scatter by."""

import pytest

from conemodel.parts.scatter import Scatter
from conemodel.record.database import Database
from conemodel.record.hand_sittings import begin_sitting, keep_answer, latest_thresholds
from conemodel.tasks.hand.kinds import KINDS
from conemodel.tasks.hand.procedure import PAIRS, Answer
from conemodel.tasks.hand.spreads import scatter_of_hand
from tests.ui.practice.trainee import Trainee


@pytest.fixture(autouse=True)
def measured(database: Database) -> Scatter:
    """Keep a finished sitting of Ada's, and return what her hubs scatter by."""
    kind = KINDS["tightness"]
    sitting = begin_sitting(kind, database, name="Ada")
    for number in range(PAIRS):
        answer = Answer(difference=kind.usual * (-1) ** number, second=number % 2 == 0)
        sitting = keep_answer(sitting, answer, database)
    return scatter_of_hand(Scatter(), latest_thresholds("Ada", database))


def scatter_for(name: str, **address: str) -> Scatter:
    """Return how the next hub scatters once a name was typed."""
    trainee = Trainee(**address)
    trainee.app.text_input(key="practise_name").set_value(name)
    trainee.run().press("Start over, another hub")
    return trainee.sitting.stand.bench.secret.scatter


def test_hubs_scatter_as_the_measured_hand_of_the_name_does(measured: Scatter) -> None:
    assert measured.drag < Scatter().drag
    assert scatter_for(" Ada ", exercise="05-quick-release") == measured
    assert scatter_for("Bob", exercise="05-quick-release") == Scatter()


def test_hubs_given_to_a_class_scatter_alike_for_all() -> None:
    assert scatter_for("Ada", link="05-quick-release.evening.7") == Scatter()
