"""The bench on screen as a flow: chosen, worked by gestures and buttons, marked, kept, not given away."""

import dataclasses
import re
import secrets
from dataclasses import replace
from math import nan, radians
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from conemodel.record.attempts import attempts
from conemodel.record.database import FILE_OPTION, Database
from conemodel.record.progress import progress
from conemodel.record.server_key import server_key
from conemodel.tasks.practice.actions import Rock, Twirl
from conemodel.tasks.practice.apply import act
from conemodel.tasks.practice.catalogue import ladder, read_link
from conemodel.tasks.practice.commitment import AT_THE_END, TO_SAY
from conemodel.tasks.practice.widget_data import feel_of
from conemodel.ui.practice.bench import ADVISED
from conemodel.ui.practice.steps import advised_action
from tests.tasks.practice.hubs import open_link
from tests.ui.practice.trainee import Trainee


def test_every_exercise_opens_with_its_goal_and_what_to_do_next() -> None:
    for name, exercise in ladder().items():
        trainee = Trainee(exercise=name)
        assert " ".join(exercise.goal.split())[:60] in trainee.words
        assert "Next →" in trainee.words
        assert trainee.app.query_params["link"].startswith(name)


def test_a_link_gives_the_same_hub_to_everybody_and_another_server_other_ones(monkeypatch, tmp_path) -> None:
    code = "05-quick-release.evening.7"
    one, other = Trainee(link=code), Trainee(link=code)
    assert one.sitting.stand.bench.hidden == other.sitting.stand.bench.hidden
    monkeypatch.setenv(FILE_OPTION, str(tmp_path / "elsewhere" / "record.sqlite3"))
    assert Trainee(link=code).sitting.stand.bench.hidden != one.sitting.stand.bench.hidden


@pytest.mark.parametrize("code", ["<script>", "05-quick-release.evening", "99-none.evening.1"])
def test_a_link_that_leads_nowhere_is_explained_and_something_is_on_the_bench(code: str) -> None:
    trainee = Trainee(link=code)
    assert [warning.value for warning in trainee.app.warning]
    assert read_link(trainee.sitting.link.code).exercise == "01-first-touch"


def test_each_gesture_counts_once_and_only_on_the_hub_it_was_made_on() -> None:
    trainee = Trainee(exercise="02-loose-right-tight")
    trainee.rock()
    assert [event.kind for event in trainee.sitting.stand.bench.log] == ["Rock"]
    trainee.run().run()
    assert len(trainee.sitting.stand.bench.log) == 1
    trainee.hand("rim", set_id=99, cycles=3, knocks=0, brisk=False)
    assert len(trainee.sitting.stand.bench.log) == 1
    trainee.hand("rim", cycles=0, knocks=0, brisk=False)
    assert len(trainee.sitting.stand.bench.log) == 1


@pytest.mark.parametrize("angle", [nan, None, 1e9])
def test_a_gesture_no_widget_makes_does_no_harm(angle: object) -> None:
    trainee = Trainee(exercise="01-first-touch").hold("vice")
    before = trainee.sitting.stand.bench.hub
    trainee.hand("turn", angle=angle, turned=angle, stopped=False)
    assert trainee.sitting.stand.bench.hub == before


def test_an_axle_nobody_holds_turns_with_the_cone_and_the_picture_springs_back() -> None:
    trainee = Trainee(exercise="01-first-touch")
    before, picture = trainee.sitting.stand.bench.hub, trainee.sitting.stand.set_of("turn")
    trainee.turn(-0.5)
    assert "axle turns with the cone" in trainee.words
    assert trainee.sitting.stand.bench.hub == before
    assert trainee.sitting.stand.set_of("turn") > picture
    trainee.hold("vice").turn(-0.5)
    assert trainee.sitting.stand.bench.hub.cone < before.cone


def test_turning_on_keeps_what_the_widget_tells() -> None:
    """A new set would wipe its words and throw away keys pressed meanwhile."""
    trainee = Trainee(exercise="01-first-touch").hold("vice")
    picture = trainee.sitting.stand.set_of("turn")
    trainee.turn(0.1).turn(-0.2)
    assert trainee.sitting.stand.set_of("turn") == picture


def _find_touch(trainee: Trainee) -> None:
    """Turn in by a degree or two until it no longer turns freely; looks at words only."""
    trainee.hold("vice").turn(radians(-1))
    for stride in (30, 10, 3, 1):
        while "freely" in trainee.told:
            trainee.turn(radians(-stride))
        if stride > 1:
            trainee.turn(radians(stride + 2))
    trainee.press("Done: it is right")


def test_first_touch_by_words_alone_is_marked_kept_and_goes_on(database: Database) -> None:
    trainee = Trainee(link="01-first-touch.evening.3")
    trainee.app.text_input(key="practise_name").set_value("Kim")
    for _ in range(4):
        _find_touch(trainee)
    assert "Passed" in trainee.words
    assert "4 of 4 right" in trainee.words
    assert "Locknut tightened" not in trainee.words  # no locknut has a part in it
    (kept,) = attempts(database, name="Kim")
    assert (kept.passed, kept.exercise, kept.salt, kept.seed) == (True, "01-first-touch", "evening", 3)
    trainee.run()
    assert len(attempts(database)) == 1  # a rerun keeps nothing twice
    trainee.press("Next exercise")
    assert trainee.sitting.link.exercise == "02-loose-right-tight"
    assert trainee.sitting.link.salt == "evening"


MARKS = {"loose": -8, "right": 0, "tight": 8}


def test_hubs_are_named_by_a_mark_and_no_word_of_what_was_felt_is_read_before_the_end() -> None:
    trainee = Trainee(link="02-loose-right-tight.evening.5")
    for hub in range(8):
        assert trainee.sitting.stand.bench.current == hub
        trainee.rock().twirl()
        assert AT_THE_END in trainee.words
        assert trainee.told not in trainee.words
        state = trainee.sitting.stand.bench.secret.state
        trainee.say(MARKS[state], "sure" if hub < 6 else "guessing")
    assert "Passed" in trainee.words
    assert "Called right" not in trainee.words  # nothing was: that is not said
    assert "Hint" not in trainee.words
    assert "guessing: right 2 of 2 times; sure: right 6 of 6 times" in trainee.words
    assert "free movement" in trainee.words


def test_who_asks_for_words_reads_them_at_once_and_the_record_says_so(database: Database) -> None:
    trainee = Trainee(link="02-loose-right-tight.evening.6").rock()
    assert AT_THE_END in trainee.words
    trainee.app.toggle[0].set_value(True)
    trainee.run().twirl()
    assert trainee.told in trainee.words
    assert AT_THE_END not in trainee.words
    for _ in range(8):
        trainee.rock().twirl().say(0, "guessing")
    (kept,) = attempts(database)
    assert kept.worded
    assert not kept.passed


def test_in_training_the_words_come_once_it_is_said_what_it_was() -> None:
    trainee = Trainee(exercise="free-practice").rock()
    felt = trainee.told
    assert felt not in trainee.words
    assert TO_SAY in trainee.words
    trainee.say(3, "fairly sure")
    assert felt in trainee.words
    assert TO_SAY not in trainee.words
    trainee.rock()
    assert TO_SAY in trainee.words


def test_a_hub_that_is_done_is_called_done_and_not_right() -> None:
    """Whether it is right stands in the mark, after the last word on all of them."""
    trainee = Trainee(link="02-loose-right-tight.evening.5").rock().twirl().say(-5, "sure")
    groups: list[Any] = list(trainee.app.get("button_group"))
    hubs = next(group for group in groups if group.label == "Hub")
    assert [option.content for option in hubs.proto.options][:3] == ["Hub 1 done", "2", "3"]
    assert "✓" not in trainee.words
    assert "Hub 2 is on the bench." in trainee.words
    assert "Hub 1: Hub 2" not in trainee.words


def test_the_act_that_is_advised_is_the_one_main_button() -> None:
    trainee = Trainee(link="04-locknut.evening.2")
    trainee.choose("Locking will make it", "tighter")
    assert trainee.main == []  # first a hand holds the axle
    trainee.hold("vice")
    assert trainee.main == ["Screw in by finger"]
    trainee.press("Screw in by finger").turn(1.5)
    assert trainee.main == []  # the next act is on the bench, where its hand stands out
    advised = advised_action(trainee.sitting.stand.bench)
    assert advised is not None
    assert ADVISED[advised] == "locknut"


def test_what_is_next_after_an_exercise_hangs_on_the_mark() -> None:
    trainee = Trainee(link="04-locknut.evening.2").press("Done: it is right")
    assert trainee.main == ["Again, another hub"]


def test_the_log_says_in_plain_words_what_was_answered_and_that_a_cone_would_not_turn() -> None:
    trainee = Trainee(link="04-locknut.evening.2")
    trainee.choose("Locking will make it", "tighter")
    trainee.hold("vice").press("Screw in by finger")
    now = trainee.sitting.stand.bench.hub.shown
    trainee.hand("turn", angle=now, turned=0.0, stopped=True)
    assert "Said what locking will make it: tighter" in trainee.words
    assert "it would not turn further" in trainee.words
    assert not re.search(r"foretell|\b0 minutes", trainee.words)
    trainee.tighten()
    assert "firm hand, the nut turned" in trainee.words
    assert "cone held" not in trainee.words  # it was left free


def test_setting_a_hub_through_every_button_of_the_work() -> None:
    trainee = Trainee(link="04-locknut.evening.2")
    trainee.choose("Locking will make it", "tighter")
    trainee.hold("vice").press("Screw in by finger")
    trainee.press("Draw a pen line").turn(radians(80))
    trainee.hold("cone").tighten()
    assert "The locknut is tight." in trainee.told
    trainee.choose("Where the lever sits", "spacers on locknuts").close()
    trainee.hand("locknut", effort="undo")
    assert "open it first" in trainee.told
    assert trainee.sitting.stand.bench.log[-1].refused
    trainee.rock()
    trainee.press("Done: it is right")
    marked = trainee.sitting.marked
    assert marked is not None
    assert marked.unchecked
    assert marked.hint in trainee.words
    assert 'class="cm-falls"' in "".join(html.proto.body for html in trainee.app.get("html"))


def test_undo_in_free_practice_only() -> None:
    trainee = Trainee(exercise="free-practice").hold("vice").turn(0.3)
    trainee.press("Take the last move back")
    assert "(taken back)" in trainee.words
    labels = [button.label for button in Trainee(link="05-quick-release.evening.1").app.button]
    assert "Take the last move back" not in labels


def _seen(app: AppTest) -> str:
    """Everything the page says or hands to a browser, but for the names of widgets."""
    parts = [
        re.sub(r"bench\d+", "bench", str(element.proto)) for element in app.main if hasattr(element, "proto")
    ]
    return "\n".join(parts)


def _what_is_felt(code: str) -> str:
    """Everything that a hand meets which rocks a hub and then twirls it, at each step."""
    bench, felt = open_link(code, key=server_key()), []
    for action in (Rock(), Twirl(), None):
        feel = feel_of(bench)
        felt.append((feel.rim, feel.axle_end, feel.twirl, feel.spin))
        bench = act(bench, action) if action else bench
    return repr(felt)


def _pairs_that_feel_alike(most: int = 3) -> list[tuple[str, str]]:
    """Links to hubs that feel the same, from many seeds: the server's key, new in each test, decides which."""
    alike: dict[str, list[str]] = {}
    for seed in range(1, 301):
        code = f"08-from-a-mark.alike.{seed}"
        alike.setdefault(_what_is_felt(code), []).append(code)
        pairs = [(group[0], group[1]) for group in alike.values() if len(group) > 1]
        if len(pairs) == most:
            break
    return pairs


def test_two_hubs_that_feel_the_same_look_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    """Hidden numbers differ, what is felt does not: pages, labels and what widgets get are equal."""
    monkeypatch.setattr(secrets, "randbelow", lambda _: 1)  # the names of their widgets, drawn at random, too
    pairs = _pairs_that_feel_alike()
    assert pairs
    for links in pairs:
        one, other = (Trainee(link=code).rock().twirl() for code in links)
        assert one.sitting.stand.bench.hidden != other.sitting.stand.bench.hidden
        feels = [feel_of(t.sitting.stand.bench) for t in (one, other)]
        assert replace(feels[0], turn=feels[1].turn) == feels[1]  # where the cone stands on the clock is seen
        on_clock = r"alike\.\d+|\"angle[\\\\]*\": -?[\d.]+"
        mine, theirs = (re.sub(on_clock, "", _seen(t.app)) for t in (one, other))
        assert len(mine) > 1000
        assert mine == theirs


def test_an_exercise_begins_in_training_and_its_assessed_round_is_another_hub() -> None:
    trainee = Trainee(exercise="02-loose-right-tight")
    assert trainee.app.query_params["link"].endswith(".training")
    trainee.rock().twirl().say(0, "guessing")
    state = trainee.sitting.stand.bench.hidden[0].state
    assert f"It is {state}." in trainee.words
    assert "**Hub 1.** You said right. It was " in trainee.words
    trainee.press("A hint")
    assert any("moves freely" in info.value for info in trainee.app.info)
    trainee.press("Take the last move back")
    assert trainee.sitting.stand.bench.hubs[0].done is None
    trainee.choose("Round", False)
    assert not trainee.sitting.link.training
    assert not {"A hint", "Take the last move back"} & {button.label for button in trainee.app.button}
    coached, assessed = (open_link(f"05-quick-release.x.3{end}") for end in (".training", ""))
    assert coached.hidden != assessed.hidden


def test_a_trained_hub_is_kept_as_trained_and_is_not_yet_learnt() -> None:
    for seed in (2, 3):
        trainee = Trainee(link=f"04-locknut.evening.{seed}.training").press("Done: it is right")
        assert trainee.press("Again, another hub").sitting.link.training
    kept = attempts(Database(), exercise="04-locknut")
    assert [one.training for one in kept] == [True, True]
    passed = [dataclasses.replace(one, passed=True) for one in kept]
    assert not progress(passed)[0].learnt
    assert progress([dataclasses.replace(one, training=False) for one in passed])[0].learnt
