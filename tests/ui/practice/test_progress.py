"""Progress, classes and exercises of one's own on screen; attempts put in by hand."""

import re
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

from streamlit.testing.v1 import AppTest

from conemodel.parts.exercise import Exercise
from conemodel.parts.toml_files import read_part, write_part
from conemodel.record.attempts import Attempt, attempts, save
from conemodel.record.database import Database
from conemodel.record.journal import begin_bench, save_once
from conemodel.record.progress import NAMES_KEPT_BACK
from conemodel.tasks.practice.catalogue import ladder, read_link
from tests.patience import PATIENCE
from tests.record.test_journal import KIM


def _script() -> None:
    from conemodel.ui.practice import progress

    progress.page()


def opened(part: str, **state: str) -> AppTest:
    app = AppTest.from_function(_script, default_timeout=PATIENCE)
    app.query_params["part"] = part
    for key, value in state.items():
        app.session_state[key] = value
    app.run()
    assert not app.exception
    return app


def words(app: AppTest) -> str:
    html = [element.proto.body for element in app.get("html")]
    return "\n".join(
        [*html, *(m.value for m in app.markdown), *(i.value for i in app.info), *(c.value for c in app.code)]
    )


def attempt(
    name: str | None, seed: int, *, passed: bool = True, stage: str = "none", salt: str = "evening"
) -> Attempt:
    return Attempt(
        made_at=datetime(2026, 3, seed, tzinfo=UTC).isoformat(timespec="seconds"),
        name=name,
        exercise="05-quick-release",
        salt=salt,
        seed=seed,
        passed=passed,
        stage=stage,
        unchecked=False,
        critical="",
        false_right=0,
        false_wrong=0,
        off_by=0.0 if passed else 3e-5,
        off_turn=0.0 if passed else 0.19,
        locks=3,
        moves=7,
        hint="x",
    )


def test_nothing_is_shown_of_anybody_until_a_name_is_typed(database: Database) -> None:
    save(attempt("Kim", 1), database)
    app = opened("mine")
    assert "Kim" not in words(app)
    assert not app.get("vega_lite_chart")


def test_progress_is_of_the_name_typed_and_learnt_takes_two_hubs(database: Database) -> None:
    save(attempt("Kim", 1, passed=False, stage="slack"), database)
    save(attempt("Kim", 2), database)
    save(attempt("Robin", 3), database)
    app = opened("mine", practise_name=" Kim ")
    assert app.get("vega_lite_chart")
    assert "<td>2</td><td>1</td><td>not yet</td>" in words(app)
    save(attempt("Kim", 4), database)
    app.run()
    assert "<td>3</td><td>2</td><td>yes</td>" in words(app)


def test_what_was_done_without_a_name_is_found_by_its_visit_alone(database: Database) -> None:
    opening = replace(KIM, name=None)
    save_once(begin_bench(opening, database), replace(attempt("Kim", 1), name=None), database)
    app = opened("mine", visit_word=opening.visit)
    assert "**No name:**" in words(app)
    assert app.query_params["visit"] in (opening.visit, [opening.visit])
    assert "**No name:**" not in words(opened("mine", visit_word="w" * 16))
    next(button for button in app.button if button.label == "Delete").click().run()
    assert attempts(database) == ()


def test_deleting_takes_only_that_name(database: Database) -> None:
    save(attempt("Kim", 1), database)
    save(attempt("Robin", 3), database)
    app = opened("mine", practise_name="Kim")
    next(button for button in app.button if button.label == "Delete").click().run()
    assert [one.name for one in attempts(database)] == ["Robin"]
    assert "Nothing is kept under that name" in words(app)


def test_a_class_has_its_links_and_its_table_by_stage(database: Database) -> None:
    save(attempt("Kim", 1, passed=False, stage="slack"), database)
    save(attempt("Robin", 2, passed=False, stage="clamp"), database)
    save(attempt("Alex", 3, salt="morning"), database)
    app = opened("class", class_name="evening")
    lines = app.code[0].value.splitlines()
    assert len(lines) == 12
    links = [read_link(line.split("link=")[1]) for line in lines]
    assert {link.salt for link in links} == {"evening"}
    assert len({link.seed for link in links}) == 12
    # people 2, tries 2, passed 0, hubs not kept, tight 0, loose 2, touch 0, slack 1, drift 0, clamp 1
    row = (2, 2, 0, "–", 0, 2, 0, 1, 0, 1)
    assert "".join(f"<td>{cell}</td>" for cell in row) in words(app)
    captions = [caption.value for caption in app.caption]
    assert NAMES_KEPT_BACK in captions
    headings = re.findall(r'<th scope="col">([^<]+)</th>', words(app))
    explained = next(caption for caption in captions if caption.startswith("Tries count"))
    for heading in headings[4:]:  # after exercise, people, tries, passed
        assert heading.lower() in explained.lower()


def test_a_class_name_that_cannot_stand_in_a_link_is_explained() -> None:
    app = opened("class", class_name="two words")
    assert app.error
    assert not app.exception


def test_an_exercise_written_here_is_one_and_can_be_brought_to_the_bench() -> None:
    app = opened("write")
    app.text_input[0].set_value("Monday")
    app.number_input[0].set_value(2)
    app.button[0].click().run()
    text = next(code.value for code in app.code if "Monday" in code.value)
    exercise = read_part(Exercise, text, name="x")
    assert (exercise.name, exercise.hubs, exercise.most_locks) == ("Monday", 2, 4)
    bench = AppTest.from_function(_bench, default_timeout=PATIENCE).run()
    bench.file_uploader(key="exercise_file").upload("../../e.toml", text.encode()).run()
    assert not bench.exception
    assert bench.session_state["sitting"] == "own-monday"
    assert "Set this rear hub right" in words(bench)


def _bench() -> None:
    from conemodel.ui.practice import page as practise

    practise.page()


def test_what_cannot_be_an_exercise_is_explained() -> None:
    app = opened("write")
    next(box for box in app.number_input if box.label == "Of which must be right").set_value(9)
    app.button[0].click().run()
    assert any("needed" in code.value and "at most 1" in code.value for code in app.code)


def test_a_file_that_is_none_is_explained_and_the_bench_stays() -> None:
    bench = AppTest.from_function(_bench, default_timeout=PATIENCE)
    bench.query_params["exercise"] = "01-first-touch"
    bench.run()
    good = write_part(ladder()["04-locknut"])
    bad = good.replace('kind = "set"', 'kind = "sing"') + "\nprior_x = 1\n"
    bench.file_uploader(key="exercise_file").upload("e.toml", bad.encode()).run()
    assert any("kind" in code.value for code in bench.code)
    assert bench.session_state["sitting"] == "01-first-touch"


def test_a_file_can_neither_bring_markup_nor_name_a_hub_that_is_not_here() -> None:
    bench = AppTest.from_function(_bench, default_timeout=PATIENCE).run()
    good = write_part(ladder()["04-locknut"].replace(goal="<img src=x> ![a](http://outside.invalid/a.png)"))
    bench.file_uploader(key="exercise_file").upload("e.toml", good.encode()).run()
    assert "&lt;img src=x&gt;" in words(bench)
    assert not any("outside.invalid" in m.value for m in bench.markdown)
    bad = good.replace('scenario = "road-front"', 'scenario = "nowhere"')
    bench.file_uploader(key="exercise_file").upload("e.toml", bad.encode()).run()
    assert any("is not a hub here" in code.value for code in bench.code)
    assert not any(str(Path.cwd()) in code.value for code in bench.code)
