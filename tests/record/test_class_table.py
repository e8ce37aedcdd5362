"""The table of a class: hubs right, which side, a dash where an exercise has no such stage; attempts put in by hand."""

from dataclasses import replace

from conemodel.base.table import csv_text
from conemodel.record.progress import class_table, list_class
from conemodel.show.tables import table_html
from conemodel.tasks.practice.catalogue import ladder
from conemodel.tasks.practice.plan.hub_result import HubResult
from tests.ui.practice.test_progress import attempt

RIGHT, WRONG = HubResult(passed=True, checked=True), HubResult(passed=False, checked=True)


def test_hubs_are_counted_over_all_tries_and_failed_tries_by_their_side() -> None:
    done = [
        replace(attempt("Kim", 1, passed=False), hubs=(RIGHT, WRONG, RIGHT, RIGHT)),
        replace(attempt("Kim", 2), hubs=(RIGHT, RIGHT)),
        replace(attempt("Alex", 3, passed=False), off_by=-2e-5),
    ]
    (row,) = class_table(done)
    assert (row.hubs, row.hubs_right) == (6, 5)
    assert (row.too_tight, row.too_loose) == (1, 1)
    lines = csv_text(list_class(done, ladder())).splitlines()
    assert ",critical,hubs,hubs_right,too_tight,too_loose," in lines[0]
    assert ",0,6,5,1,1," in lines[1]
    assert "<td>5 of 6</td>" in table_html(list_class(done, ladder()))


def test_a_step_that_an_exercise_lacks_is_a_dash_and_no_count_is_hidden() -> None:
    def stages(exercise: str, stage: str) -> list[str]:
        done = [replace(attempt("Kim", 1, passed=False, stage=stage), exercise=exercise)]
        cells = table_html(list_class(done, ladder())).split("<td>")
        return [cell.split("</td>")[0] for cell in cells[-9:-3]]

    assert stages("01-first-touch", "touch") == ["1", "–", "–", "–", "0", "–"]
    assert stages("02-loose-right-tight", "judged") == ["–", "–", "–", "–", "0", "1"]
    assert stages("05-quick-release", "clamp") == ["0", "0", "0", "1", "0", "0"]
    assert stages("01-first-touch", "drift") == ["0", "–", "1", "–", "0", "–"]
