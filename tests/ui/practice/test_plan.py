"""The first screen of practice, and the way through a day's plan; attempts put in, and dates counted, by hand."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest
from streamlit.testing.v1 import AppTest

from conemodel.record.attempts import Attempt, attempts, delete_attempt, delete_name, save
from conemodel.record.database import Database
from conemodel.tasks.practice.plan.hub_result import HubResult
from conemodel.ui.practice.begin import DONE_FOR_TODAY
from conemodel.ui.practice.name import WITH_NAME, WITHOUT_NAME
from tests.patience import PATIENCE
from tests.ui.practice.trainee import Trainee

BEGIN = "Begin today's hubs"


def keep(
    exercise: str, ago: int, *, passed: bool, name: str = "Kim", hubs: tuple[HubResult, ...] = ()
) -> Attempt:
    made = Attempt(
        made_at=(datetime.now(UTC) - timedelta(days=ago)).isoformat(timespec="seconds"),
        name=name,
        exercise=exercise,
        salt="self",
        seed=1,
        passed=passed,
        stage="none" if passed else "slack",
        unchecked=False,
        critical="",
        false_right=0,
        false_wrong=0,
        off_by=0.0,
        off_turn=0.0,
        locks=1,
        moves=1,
        hint="x",
        seconds=60.0 * max(len(hubs), 1),
        hubs=hubs,
    )
    return save(made, Database())


def named(said: str, truth: str) -> HubResult:
    return HubResult(passed=said == truth, checked=True, question="name", said=said, truth=truth)


def heads(trainee: Trainee) -> list[str]:
    return [header.value for header in trainee.app.header]


def captions(trainee: Trainee) -> list[str]:
    return [caption.value for caption in trainee.app.caption]


def as_kim() -> Trainee:
    trainee = Trainee()
    trainee.app.text_input(key="practise_name").set_value("Kim")
    return trainee.run()


def finish(trainee: Trainee) -> Trainee:
    """Say of every hub, as it came, that it is done."""
    while trainee.sitting.marked is None:
        trainee.press("Done: it is right")
    return trainee


def test_the_first_screen_says_what_today_is_and_what_a_name_means() -> None:
    trainee = Trainee()
    assert heads(trainee) == ["Today: four hubs, about four minutes"]
    assert "First touch" in trainee.words
    assert WITHOUT_NAME in captions(trainee)
    assert "sitting" not in trainee.app.session_state  # nothing was chosen for anybody
    assert WITH_NAME in captions(as_kim())


def test_what_was_missed_yesterday_leads_and_next_goes_on_by_the_plan() -> None:
    keep("04-locknut", 1, passed=False)
    keep("05-quick-release", 4, passed=True)
    trainee = as_kim()
    assert heads(trainee) == ["Today: three hubs, about three minutes"]
    assert "missed in thread slack at the locknut" in trainee.words
    trainee.press(BEGIN)
    assert (trainee.sitting.link.exercise, trainee.sitting.link.training) == ("04-locknut", True)
    finish(trainee).press("Next exercise")
    assert (trainee.sitting.link.exercise, trainee.sitting.link.training) == ("05-quick-release", False)
    finish(trainee).press("Next exercise")
    assert (trainee.sitting.link.exercise, trainee.sitting.link.training) == ("04-locknut", False)
    finish(trainee).press("Next exercise")  # the plan is done: what was pressed still opens the next one
    assert trainee.sitting.link.exercise == "05-quick-release"
    assert [toast.value for toast in trainee.app.toast] == [DONE_FOR_TODAY]
    trainee.press("Today's plan")
    assert heads(trainee) == ["Done for today"]
    assert "Today's hubs" not in trainee.words  # a table of nothing
    assert BEGIN not in [button.label for button in trainee.app.button]
    assert any("Next due tomorrow" in caption for caption in captions(trainee))


def test_a_bench_left_half_done_goes_on_and_an_exercise_of_ones_own_choice_leaves_the_plan() -> None:
    keep("04-locknut", 1, passed=False)
    trainee = as_kim().press(BEGIN)
    code = trainee.sitting.link.code
    trainee.press("Today's plan").press(BEGIN)
    assert trainee.sitting.link.code == code
    trainee.choose("Exercise", "08-from-a-mark")
    finish(trainee).press("Next exercise")
    assert trainee.sitting.link.exercise == "09-trim-or-leave"


def test_what_was_left_half_done_is_offered_on_the_first_screen() -> None:
    left = as_kim().choose("Or choose an exercise", "05-quick-release").hold("vice")
    labels = [button.label.replace("\u2060", "") for button in as_kim().app.button]
    (offer,) = [label for label in labels if label.startswith("Go on with")]
    assert offer.startswith("Go on with 5. ")
    left.press("Today's plan")
    assert {"exercise", "link"}.isdisjoint(left.app.query_params)


def test_without_a_name_the_plan_knows_this_visit_and_no_other() -> None:
    trainee = Trainee().press(BEGIN)
    for _ in range(4):
        trainee.hold("vice").turn(-0.1)
        trainee.press("Done: it is right")
    trainee.press("Next exercise")
    assert trainee.sitting.link.exercise == "02-loose-right-tight"
    trainee.press("Today's plan")
    assert heads(trainee) == ["Done for today"]
    word = trainee.app.query_params["visit"]
    assert heads(Trainee(visit=word if isinstance(word, str) else word[0])) == ["Done for today"]
    assert heads(Trainee()) == ["Today: four hubs, about four minutes"]
    (kept,) = attempts(Database())
    assert kept.name is None


def test_hubs_are_dealt_by_what_one_mixes_up_but_not_where_a_class_gave_them_out() -> None:
    wrong = (named("right", "tight"), named("tight", "right"))
    keep("02-loose-right-tight", 1, passed=False, hubs=wrong)
    trainee = as_kim().choose("Or choose an exercise", "02-loose-right-tight")
    assert trainee.sitting.link.mix == "0111222"
    assert trainee.app.query_params["link"].endswith(".mix0111222")
    states = [hub.state for hub in trainee.sitting.stand.bench.hidden]
    assert states == [hub.state for hub in Trainee(link=trainee.sitting.link.code).sitting.stand.bench.hidden]
    given = Trainee(link="02-loose-right-tight.evening.5")
    given.app.text_input(key="practise_name").set_value("Kim")
    assert given.run().press("Start over, another hub").sitting.link.mix == ""


def test_time_and_hubs_are_kept_with_the_attempt_and_go_with_it(database: Database) -> None:
    trainee = finish(Trainee(link="04-locknut.evening.2"))
    (kept,) = attempts(database)
    assert kept.seconds is not None
    assert kept.seconds >= 0.0
    assert kept.hubs == (HubResult(passed=False, checked=False),)
    trainee.press("Delete this attempt")
    other = keep("04-locknut", 1, passed=True, hubs=(named("loose", "loose"),))
    assert attempts(database) == (other,)
    assert other.id is not None
    delete_attempt(other.id, database)
    keep("04-locknut", 1, passed=True, hubs=(named("loose", "loose"),))
    delete_name("Kim", database)
    with database.reading() as connection:
        assert connection.execute("SELECT count(*) FROM attempt_hub").fetchone()[0] == 0


def _progress() -> None:
    from conemodel.ui.practice import progress

    progress.page()


def test_progress_draws_only_what_was_trained() -> None:
    hubs = (named("right", "tight"), *[named("loose", "loose")] * 3)
    keep("02-loose-right-tight", 2, passed=False, hubs=hubs)
    app = AppTest.from_function(_progress, default_timeout=PATIENCE)
    app.session_state["practise_name"] = "Kim"
    app.run()
    html = "\n".join(element.proto.body for element in app.get("html"))
    assert not app.get("vega_lite_chart")  # no cone was set
    assert "said right" in html
    assert any("1 of 4 named wrongly" in caption.value for caption in app.caption)
    keep("01-first-touch", 1, passed=True)
    app.run()
    (chart,) = app.get("vega_lite_chart")
    assert "How far from first touch" in str(chart.proto)


@pytest.mark.parametrize(
    ("before", "said"),
    [
        (lambda: None, ""),
        (lambda: keep("04-locknut", 1, passed=False), "Today: two hubs, about two minutes."),
        (lambda: keep("04-locknut", 1, passed=True), "Today: four hubs, about four minutes."),
    ],
    ids=["nothing done yet", "missed", "something new"],
)
def test_start_has_a_line_only_for_whoever_has_practised(before: Callable[[], object], said: str) -> None:
    before()
    found = AppTest.from_function(_say_due, default_timeout=PATIENCE)
    found.session_state["practise_name"] = "Kim"
    assert [markdown.value for markdown in found.run().markdown] == [said or "nothing"]


def _say_due() -> None:
    import streamlit as st

    from conemodel.ui.start import due_today

    st.markdown(due_today() or "nothing")
