"""Hostile text in every text field of every kind of file, through every output: it becomes markup nowhere.

What a page's parser makes of it is tried in a browser, in `tests/browser/test_foreign_text.py`; here, that no output
leaves out the function made for its target.
"""

import csv
import json
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from html.parser import HTMLParser
from io import StringIO
from pathlib import Path
from typing import Any, TypeVar

import pytest
from click.testing import CliRunner
from matplotlib.cbook import is_math_text
from matplotlib.figure import Figure
from matplotlib.text import Text
from streamlit.testing.v1 import AppTest

from conemodel.base.plain_text import KEEP_APART, one_line, visible
from conemodel.base.table import csv_text
from conemodel.cli import main
from conemodel.parts.crowd import Crowd, crowd_of, load_crowd
from conemodel.parts.exercise import Exercise
from conemodel.parts.lesson import Staged, load_story
from conemodel.parts.library import SCENARIOS
from conemodel.parts.readings import Readings, load_readings
from conemodel.parts.scenario import Scenario
from conemodel.parts.schema import Part
from conemodel.parts.toml_files import load_part, load_scenario, write_part
from conemodel.record.attempts import Attempt
from conemodel.record.progress import list_attempts
from conemodel.show.instrument.pictures import parts_svg
from conemodel.show.lesson.handout import handout_figure
from conemodel.show.lesson.html import side_html
from conemodel.show.lesson.slide import step_figure
from conemodel.show.paper.files import to_pdf, to_png
from conemodel.show.population.sheet import many_figure
from conemodel.show.setting.setting_sheet import prediction_figure, sweep_figure
from conemodel.tasks.lesson.lesson import play_story, view_of
from conemodel.tasks.lesson.position import positions
from conemodel.tasks.population.study import many_hubs
from conemodel.tasks.setting.predict import predict
from conemodel.tasks.setting.sweep import sweep
from tests.hostile import HOSTILE
from tests.patience import PATIENCE

P = TypeVar("P", bound=Part)

NOT_FREE = {"scenario", "axle_thread_class", "cone_thread_class"}
"""Texts that are looked up in a list: anything else is refused."""

EACH = pytest.mark.parametrize("text", HOSTILE.values(), ids=list(HOSTILE))
LONG = " ".join(HOSTILE.values())


def poisoned(part: P, text: str) -> P:
    """Return a part with `text` in every field, at any depth, that takes any text; no question is added."""
    changes: dict[str, Any] = {}
    for name, field in type(part).model_fields.items():
        value = getattr(part, name)
        if isinstance(value, Part):
            changes[name] = poisoned(value, text)
        elif field.annotation is str and name not in NOT_FREE and (value or name in ("note", "story")):
            changes[name] = text
        elif name == "own_hub":
            changes[name] = (text,) * 3
    return part.replace(**changes)


def scenario(text: str) -> Scenario:
    return poisoned(load_scenario(SCENARIOS / "touring-rear.toml"), text)


def readings(text: str) -> Readings:
    return poisoned(load_readings(SCENARIOS / "readings" / "three-answers.toml"), text)


def crowd(text: str) -> Crowd:
    usual = load_crowd(SCENARIOS / "populations" / "workshop-mix.toml")
    return crowd_of(poisoned(usual.population, text), tuple(poisoned(kind, text) for kind in usual.kinds))


def staged(text: str) -> Staged:
    usual = load_story(SCENARIOS / "stories" / "quick-release-or-nuts.toml")
    return Staged(story=poisoned(usual.story, text), left=usual.left, right=usual.right)


def exercise(text: str) -> Exercise:
    return poisoned(load_part(Exercise, SCENARIOS / "practise" / "04-locknut.toml"), text)


def test_the_walk_reaches_texts_in_every_kind_of_file() -> None:
    parts: list[Part] = [make("=x=") for make in (scenario, readings, exercise)]
    parts += [crowd("=x=").population, staged("=x=").story]
    assert [write_part(part).count("=x=") for part in parts] == [2, 2, 2, 19, 16]


# The command line.


def printed(*arguments: str, code: int = 0) -> str:
    result = CliRunner().invoke(main, arguments)
    assert result.exit_code == code, result.output
    assert visible(result.output) == result.output
    return result.output


def put(folder: Path, part: Part) -> str:
    path = folder / "foreign.toml"
    path.write_text(write_part(part), encoding="utf-8")
    return str(path)


@EACH
def test_a_terminal_takes_nothing_of_a_scenario_as_a_command(tmp_path: Path, text: str) -> None:
    path = put(tmp_path, scenario(text))
    assert printed("predict", path).splitlines()[0] == one_line(text)
    assert json.loads(printed("predict", path, "--json"))["scenario"]["name"] == text
    assert printed("feel", path).splitlines()[0].startswith(one_line(text))


@EACH
def test_a_terminal_takes_nothing_of_readings_as_a_command(tmp_path: Path, text: str) -> None:
    path = put(tmp_path, readings(text))
    assert one_line(text) in printed("check", path).splitlines()[0]
    assert json.loads(printed("check", path, "--json"))["readings"]["name"] == text


def test_a_terminal_takes_nothing_of_a_population_as_a_command(tmp_path: Path) -> None:
    for kind in crowd("x").population.hubs.files:
        (tmp_path / f"{kind}.toml").write_text(write_part(scenario(LONG)), encoding="utf-8")
    path = put(tmp_path, crowd(LONG).population)
    assert one_line(LONG) in printed("many-hubs", path, "--hubs", "50")
    assert json.loads(printed("many-hubs", path, "--hubs", "50", "--json"))["population"]["name"] == LONG


@EACH
def test_a_mistake_in_a_file_is_said_without_a_command(tmp_path: Path, text: str) -> None:
    path = tmp_path / "foreign.toml"
    path.write_text(f"{json.dumps(text)} = 1\nclamp = {json.dumps(text)}\n", encoding="utf-8")
    printed("check", str(path), code=2)


# Pictures and sheets.


def assert_no_mathematics(figure: Figure, text: str) -> None:
    """Every text of a figure is drawn as it stands; the hostile one is among them."""
    shown = []
    for drawn in figure.findobj(Text):
        words = drawn.get_text()
        shown.append(words.replace(r"\$", "$"))
        assert not is_math_text(words) or text not in shown[-1]
    assert any(one_line(text)[:20] in one_line(words) for words in shown)


@EACH
def test_a_setting_sheet_has_no_mathematics(text: str) -> None:
    hub = scenario(text)
    prediction, swept = predict(hub), sweep(hub)
    assert_no_mathematics(prediction_figure(prediction, swept), text)
    assert_no_mathematics(sweep_figure(swept, prediction), text)
    root = ET.fromstring(parts_svg(hub))
    assert visible(text) in "".join(root.itertext())
    assert not [each for each in root.iter() if each.tag.endswith("img") or "onerror" in each.attrib]


@EACH
def test_a_story_on_paper_and_as_a_slide_has_no_mathematics(text: str) -> None:
    played = play_story(staged(text))
    for answers in (False, True):
        assert_no_mathematics(handout_figure(played, answers=answers), text)
    for position in positions(played.story)[:3]:
        assert_no_mathematics(step_figure(played, view_of(played, position)), text)


def test_a_sheet_with_broken_mathematics_is_drawn_all_the_same() -> None:
    text = HOSTILE["mathematics"]
    assert to_pdf(handout_figure(play_story(staged(text)), answers=True)).startswith(b"%PDF")
    hub = scenario(text)
    assert to_png(prediction_figure(predict(hub), sweep(hub))).startswith(b"\x89PNG")


def test_the_pictures_of_a_population_have_no_mathematics() -> None:
    for text in (HOSTILE["mathematics"], HOSTILE["legend"]):
        study = many_hubs(crowd(text), hubs=50, seed=1, back_off=1.0)
        figure = many_figure(study, ())
        assert_no_mathematics(figure, text)
        legend = figure.axes[1].get_legend()
        assert legend is not None
        assert len(legend.get_texts()) == 2 + len(study.kinds)


def test_no_cell_of_kept_attempts_is_a_formula() -> None:
    for text in HOSTILE.values():
        values: dict[str, Any] = dict.fromkeys(Attempt.__dataclass_fields__, 0)
        values |= {"name": text, "made_at": "2020-01-01T00:00:00", "hubs": ()}
        (row,) = csv.DictReader(StringIO(csv_text(list_attempts([Attempt(**values)])), newline=""))
        assert row["name"].strip()[:1] not in ("=", "+", "-", "@")
        assert visible(row["name"]) == row["name"]


# Pages.


class Tags(HTMLParser):
    """What tags and handlers there are in HTML."""

    def __init__(self) -> None:
        super().__init__()
        self.bad: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        sources = [
            value or "" for name, value in attrs if name == "src" and not (value or "").startswith("data:")
        ]
        self.bad += sources + [name for name, _ in attrs if name.startswith("on")]


def assert_html_is_sound(body: str) -> None:
    tags = Tags()
    tags.feed(body)
    assert tags.bad == []


def marked_up(app: AppTest) -> Iterator[str]:
    """Yield everything on a page that its frame reads as markdown: bodies of texts, and labels."""
    for element in app.main:
        for name in ("body", "label", "help"):
            said = getattr(element.proto, name, None)
            if isinstance(said, str) and element.type not in ("text", "code", "html"):
                yield said


MARKUP = [HOSTILE[name] for name in ("image", "link", "mathematics", "colour and sign", "emphasis")]


def assert_no_markup(app: AppTest) -> None:
    assert not app.exception
    for said in marked_up(app):
        assert not [text for text in MARKUP if text in said.replace(KEEP_APART, "")], said
    for element in app.get("html"):
        assert_html_is_sound(element.proto.body)


def _set_cone() -> None:
    from conemodel.ui.setting import page

    page.page()


def _check() -> None:
    from conemodel.ui.diagnosis import page

    page.page()


def _many() -> None:
    from conemodel.ui.population import page

    page.page()


def _demonstrate() -> None:
    from conemodel.ui.lesson import page

    page.page()


def _practise() -> None:
    from conemodel.ui.practice import page

    page.page()


@pytest.mark.parametrize(
    ("script", "key", "part"),
    [
        (_set_cone, "hub_file", scenario),
        (_check, "check_file", readings),
        (_many, "crowd_file", lambda text: crowd(text).population),
        (_practise, "exercise_file", exercise),
    ],
    ids=["scenario", "readings", "population", "exercise"],
)
def test_a_page_takes_a_file_and_nothing_of_it_is_markup(script: Any, key: str, part: Any) -> None:
    app = AppTest.from_function(script, default_timeout=PATIENCE).run()
    sent = write_part(part(LONG)).encode()
    app.file_uploader(key=key).set_value((f"{HOSTILE['html']}.toml", sent, "application/toml")).run()
    assert not app.error
    assert_no_markup(app)


@pytest.mark.parametrize("text", MARKUP)
def test_a_story_on_a_page_and_on_the_wall_is_no_markup(text: str) -> None:
    app = AppTest.from_function(_demonstrate, default_timeout=PATIENCE).run()
    sent = write_part(staged(text).story).encode()
    app.file_uploader(key="story_file").set_value(("story.toml", sent, "application/toml")).run()
    assert not app.error
    assert_no_markup(app)
    app.query_params["step"] = "clamped"
    assert_no_markup(app.run())
    played = play_story(staged(text))
    for at in positions(played.story)[:3]:
        for place in (0, 1):
            assert_html_is_sound(side_html(played, view_of(played, at), place))
