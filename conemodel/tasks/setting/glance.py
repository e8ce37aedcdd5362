"""A glance at a setting: its end plays and its verdict, without the balance of forces that gives the loads."""

from collections.abc import Mapping
from typing import NamedTuple

from conemodel.parts.scenario import Scenario
from conemodel.solve.stages.terms import STAGES, setting_terms
from conemodel.tasks.setting.outlook import outlook_of
from conemodel.tasks.setting.verdict import Verdict, judge


class Glance(NamedTuple):
    """What somebody who turns a cone waits for.

    Attributes:
        scenario: what was asked.
        end_play: by stage, signed [m].
        verdict: as `predict` gives it, but for what is felt and the notes, of which it says nothing.
    """

    scenario: Scenario
    end_play: Mapping[str, float]
    verdict: Verdict


def glance_at(scenario: Scenario) -> Glance:
    """Return the end plays and the verdict of a scenario's setting; of a hub seen before a tenth of `predict`'s work.

    Raises:
        NotConverged: no balance of forces is found.

    >>> from conemodel.parts.toml_files import load_scenario
    >>> glance_at(load_scenario("scenarios/touring-rear.toml")).verdict.state
    'loose'
    """
    terms = setting_terms(scenario)
    verdict = judge(scenario, terms, outlook_of(scenario), None)
    return Glance(scenario, {name: terms.end_play(name) for name in STAGES}, verdict)
