"""The table of what was said against what was true: its cells are all the answers, each once, by counting."""

import re

import pytest

from conemodel.show.practice.confusion_table import ASKED, confusion_table, confusion_words
from conemodel.show.tables import table_html
from conemodel.tasks.practice.plan.confusions import confusions
from conemodel.tasks.practice.plan.hub_result import HubResult
from conemodel.tasks.practice.questions import QUESTIONS

SAID = ["loose", "right", "right", "tight", "right", "loose"]
TRUE = ["loose", "tight", "right", "tight", "tight", "right"]


def results(question: str, said: list[str], true: list[str]) -> list[HubResult]:
    return [
        HubResult(passed=one == other, checked=True, question=question, said=one, truth=other)
        for one, other in zip(said, true, strict=True)
    ]


def cells(html: str) -> list[int]:
    """Every count of a table; the sign behind what was right is no part of it."""
    return [int(found) for found in re.findall(r"<td>(\d+)(?: ✓)?</td>", html)]


def test_the_cells_add_up_to_the_hubs_that_were_named():
    (found,) = confusions(results("name", SAID, TRUE))
    html = table_html(confusion_table(found))
    assert len(cells(html)) == 9
    assert sum(cells(html)) == len(SAID) == found.named
    assert html.count("✓") == 3  # what was right is told by a sign too
    line = next(row for row in html.split("<tr") if "said right" in row)
    assert cells(line) == [0, 1, 2]  # loose, right and tight ones called right
    assert confusion_words(found) == (
        "3 of 6 named wrongly; most often right was said where it was tight: twice."
    )


def test_no_pair_is_named_first_where_several_come_as_often():
    (found,) = confusions(results("name", ["loose", "tight"], ["right", "right"]))
    assert confusion_words(found) == "2 of 2 named wrongly."


def test_without_a_mistake_it_says_so():
    (found,) = confusions(results("name", ["loose", "tight"], ["loose", "tight"]))
    assert confusion_words(found) == "2 named, all as they were."


@pytest.mark.parametrize("question", ASKED)
def test_every_question_that_names_a_hub_has_its_table(question: str):
    answers = list(QUESTIONS[question].answers)
    (found,) = confusions(results(question, answers, answers[1:] + answers[:1]))
    html = table_html(confusion_table(found))
    assert sum(cells(html)) == len(answers)
    assert all(f"said {answer}" in html for answer in answers)
