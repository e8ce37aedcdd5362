"""The headline: unsafe before unsound before the adjustment, wherever a hub is judged."""

import json
import re

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

import conemodel as cm
from conemodel.parts import library
from conemodel.parts.bearing import Dents
from conemodel.parts.scenario import Scenario
from conemodel.show.headline import headline_html
from conemodel.show.setting.prediction_json import prediction_json
from conemodel.show.setting.text import prediction_text
from conemodel.tasks.headline import SELDOM, Answer, headline_of, of_ten, shares_of_ten
from conemodel.tasks.setting.defects import defects_of

SCENARIOS = sorted(library.SCENARIOS.glob("*.toml"))
ADJUSTMENT = Answer(words="Right", act="Leave it.")
DENTED = Answer(words="Dented", act="Renew it.")
PROUD = Answer(words="Do not ride: proud", act="Fit another axle.", unsafe=True)


def test_the_three_questions_are_answered_in_order() -> None:
    whole = headline_of(unsafe=[PROUD], unsound=[DENTED], adjustment=ADJUSTMENT)
    assert (whole.question, whole.answer, whole.below) == ("safe", PROUD, (DENTED,))
    unsound = headline_of(unsafe=[], unsound=[DENTED], adjustment=ADJUSTMENT)
    assert (unsound.question, unsound.answer, unsound.below) == ("sound", DENTED, (ADJUSTMENT,))
    sound = headline_of(unsafe=[], unsound=[], adjustment=ADJUSTMENT)
    assert (sound.question, sound.answer, sound.below) == ("adjustment", ADJUSTMENT, ())


def test_what_is_unsafe_is_told_by_the_answer_and_not_by_its_words() -> None:
    reworded = Answer(words="Leave it in the stand", unsafe=True)
    whole = headline_of(
        unsafe=[reworded], unsound=[Answer(words="Do not ride fast: dented")], adjustment=ADJUSTMENT
    )
    assert whole.unsafe == (reworded.sentence,)
    assert headline_of(unsafe=[PROUD], unsound=[], adjustment=ADJUSTMENT).unsafe == (PROUD.sentence,)


def assert_fault_first(scenario: Scenario) -> None:
    """Assert that text, JSON and page name what is wrong with a hub before its adjustment."""
    prediction = cm.predict(scenario)
    headline = prediction.verdict.headline
    faults = [each for each in defects_of(scenario) if each.short]
    if not faults:
        return
    assert headline.question in ("safe", "sound")
    told = {
        "text": prediction_text(prediction),
        "json": json.loads(prediction_json(prediction))["verdict"]["sentence"],
        "page": headline_html(headline, sign="?"),
    }
    for where, text in told.items():
        said = " ".join(text.split())
        at = said.index(faults[0].short)
        for words in ("Leave it", "Turn the cone", "Try "):
            assert said.find(words) == -1 or said.find(words) > at, (where, words)
    shown = json.loads(prediction_json(prediction))["verdict"]["headline"]
    assert shown["question"] != "adjustment"
    if headline.question == "sound":
        assert faults[0].short in shown["words"]
        assert prediction.verdict.turn_to_make is None
        assert "Turn the cone" not in prediction.verdict.sentence


@pytest.mark.parametrize("path", SCENARIOS, ids=lambda path: path.stem)
def test_every_shipped_fault_is_named_before_the_adjustment(path: object) -> None:
    assert_fault_first(cm.load_scenario(str(path)))


def with_fault(kind: str, side: str, size: float, back_off: float) -> Scenario:
    """Return a touring hub with one fault: dents, pits, an odd ball, skew races, dry grease or a ball short."""
    hub = cm.load_scenario(library.SCENARIOS / "touring-rear.toml").with_setting(back_off=back_off)
    row = getattr(hub.condition, side)
    count = getattr(hub.hub, side).ball_count
    if kind == "dents":
        row = row.replace(cone_dents=Dents(count=count, depth=1e-6 + 3e-6 * size))
    elif kind == "pits":
        row = row.replace(cup_dents=Dents(positions=(1.0,), depth=1e-6 + 3e-6 * size))
    elif kind == "odd ball":
        row = row.replace(ball_oversize=(10e-6 + 15e-6 * size, *[0.0] * (count - 1)))
    elif kind == "skew":
        row = row.replace(cone_tilt=(1e-3 + 3e-3 * size, 0.0), cup_tilt=(0.0, 2e-3))
    if kind == "ball short":
        short = getattr(hub.hub, side).replace(ball_count=count - 1)
        return hub.replace(hub=hub.hub.replace(**{side: short}))
    condition = hub.condition.replace(**{side: row})
    if kind == "dry grease":
        condition = condition.replace(grease="dry")
    return hub.replace(condition=condition)


KINDS = st.sampled_from(["dents", "pits", "odd ball", "skew", "dry grease", "ball short"])
FAULTY = {"kind": KINDS, "side": st.sampled_from(["left", "right"]), "size": st.floats(0, 1)}


@settings(max_examples=40, deadline=None)
@given(**FAULTY, back_off=st.floats(0, 3))
def test_random_faults_are_named_before_the_adjustment(
    kind: str, side: str, size: float, back_off: float
) -> None:
    assert_fault_first(with_fault(kind, side, size, back_off))


@pytest.mark.slow
def test_five_hundred_random_faults_are_named_before_the_adjustment() -> None:
    random = np.random.default_rng(5)
    kinds = ["dents", "pits", "odd ball", "skew", "dry grease", "ball short"]
    for _ in range(500):
        fault = str(random.choice(kinds)), str(random.choice(["left", "right"]))
        assert_fault_first(with_fault(*fault, random.random(), random.uniform(0, 3)))


@pytest.mark.parametrize(
    ("chances", "tenths"),
    [
        ({"loose": 0.56, "right": 0.38, "too tight": 0.06}, [5, 4, 1]),  # each rounded for itself: 6 + 4 + 1
        ({"loose": 0.44, "right": 0.44, "too tight": 0.12}, [5, 4, 1]),  # 4 + 4 + 1
        ({"loose": 0.34, "right": 0.33, "too tight": 0.33}, [4, 3, 3]),  # 3 + 3 + 3
        ({"loose": 0.9, "right": 0.05, "too tight": 0.05}, [8, 1, 1]),
        ({"right": 0.55, "too tight": 0.15}, [5, 2]),  # loose on the other 3
    ],
)
def test_shares_in_one_breath_add_up_to_ten(chances: dict[str, float], tenths: list[int]) -> None:
    """Worked out by hand with the largest remainders, of equal ones the smaller chance; none said is none of ten."""
    assert [int(found) for found in re.findall(r"on (\d+)", shares_of_ten(chances))] == tenths


@example([1.0, 1.0, 0.0625, 0.0625])
@given(st.lists(st.floats(0.0, 1.0), min_size=3, max_size=4).filter(lambda parts: sum(parts) > 0.1))
def test_they_add_up_whatever_they_are_and_stay_within_what_rounding_may_do(parts: list[float]) -> None:
    chances = {str(place): part / sum(parts) for place, part in enumerate(parts)}
    said = {words for words, chance in chances.items() if chance >= SELDOM}
    found = re.findall(r"(\d) on (\d+)", shares_of_ten(chances))
    if len(said) > 1:
        # two kinds too rare to be named may be one of ten together
        unsaid = 1 - sum(chances[words] for words in said)
        assert sum(int(tenths) for _, tenths in found) == (9 if unsaid >= SELDOM else 10)
        assert {words for words, _ in found} == said
        assert all(abs(int(tenths) - 10 * chances[words]) < 1.6 for words, tenths in found)


def test_a_chance_by_itself_is_rounded_as_among_others() -> None:
    assert of_ten(0.945) == "on 9 of 10 such hubs"
    assert of_ten(0.06) == "on 1 of 10 such hubs"
