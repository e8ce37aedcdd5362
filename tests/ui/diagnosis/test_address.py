"""Nothing entered in Check a hub is lost: the address brings all of it back, and says what of it cannot be read."""

import random
from math import radians
from urllib.parse import urlencode

import pytest
from hypothesis import given
from hypothesis import strategies as st
from streamlit.testing.v1 import AppTest

from conemodel.parts import library
from conemodel.parts.foreign_file import FILE_SIZE_LIMIT
from conemodel.parts.readings import ROUNDS, Readings, Round, load_readings
from conemodel.ui.diagnosis.address import PACKED, SUM, fit_in, read_address, texts_of
from conemodel.ui.diagnosis.declared import DECLARED, LARGEST
from conemodel.ui.diagnosis.entries import QUICK, flatten
from conemodel.ui.packed_text import LONGEST_ADDRESS
from tests.hostile import HOSTILE
from tests.ui.diagnosis.driving import QUICK as ANSWERED
from tests.ui.diagnosis.driving import add_round, bring, enter, opened, pick, pills, seen, words

DIAL = library.SCENARIOS / "readings" / "dial-gauge.toml"


def address(app: AppTest) -> dict[str, str]:
    """Return what stands in the address."""
    return {
        name: text if isinstance(text, str) else text[-1] for name, text in dict(app.query_params).items()
    }


def reopened(app: AppTest) -> AppTest:
    """Open the address of a page in a visit that knows nothing else."""
    return opened(**address(app))


def headline(app: AppTest) -> str:
    return next(str(each.proto.body) for each in app.get("html") if "cm-verdict" in each.proto.body)


def two_rounds() -> AppTest:
    """Enter quick answers, a size, a measured play, two rounds, and something for the next."""
    app = opened(**ANSWERED, check_sizes=True, check_play=True, freehub="no")
    enter(app, "dropout_thickness.size", 6.85)
    enter(app, "found.axle_end_open.play", 0.12)
    for felt in ("slight", "none"):
        app.number_input(key="check:next.turned").set_value(13).run()
        pick(app, "check:next.way", "in")
        pick(app, "check:next.rim_open.hand", "slight")
        pick(app, "check:next.rim_closed.hand", felt)
        add_round(app)
    pick(app, "check:next.rim_open.hand", "clear")
    return app


def test_the_same_address_brings_back_rounds_sizes_and_answer() -> None:
    app = two_rounds()
    assert [look.turned for look in seen(app).rounds] == pytest.approx([0, -radians(13), -radians(13)])
    again = reopened(app)
    assert not again.exception
    assert seen(again) == seen(app)
    assert headline(again) == headline(app)
    assert pills(again, "check:next.rim_open.hand").value == "clear"
    assert address(again) == address(app)
    assert "Part of this address" not in words(again)


@pytest.mark.parametrize("measured", [False, True])
def test_a_round_half_entered_is_open_to_be_gone_on_with_after_a_reload(measured: bool) -> None:
    app = opened(**ANSWERED, check_next=True)
    app.number_input(key="check:next.turned").set_value(21).run()
    if measured:
        enter(app, "next.axle_end_closed.play", 0.08)
    again = reopened(app)
    assert again.number_input(key="check:next.turned").value == 21
    folds = {fold.label: fold.proto.expanded for fold in again.expander}
    assert folds["**Turned it? Say what it is like now**"]
    assert folds["Measured, or felt at the axle"] == measured
    if measured:
        assert again.number_input(key="check:next.axle_end_closed.play").value == 0.08


def test_what_was_taken_back_or_emptied_stays_so() -> None:
    app = two_rounds()
    app.button(key="take_back").click().run()
    assert len(seen(reopened(app)).rounds) == 2
    app.number_input(key="check:found.axle_end_open.play").set_value(None).run()
    app.number_input(key="check:next.turned").set_value(None).run()
    again = reopened(app)
    assert seen(again) == seen(app)
    assert not seen(again).found.axle_end_open.given
    assert again.number_input(key="check:next.turned").value is None
    next(button for button in again.button if button.label == "Clear everything").click().run()
    assert address(again) == {}
    assert seen(reopened(again)) == Readings()


def test_what_cannot_be_is_kept_too_and_said_again() -> None:
    app = opened(**ANSWERED, check_sizes=True)
    enter(app, "dropout_thickness.size", 999.0)
    again = reopened(app)
    assert "999 mm: must be at most 500 mm" in words(again)
    assert "Part of this address" not in words(again)


def test_a_file_of_readings_is_in_the_address_with_its_story() -> None:
    app = bring(opened(), DIAL.name, DIAL.read_bytes())
    assert seen(reopened(app)) == load_readings(DIAL)


def test_a_story_too_long_for_the_address_is_said_and_the_file_offered() -> None:
    app = opened(**ANSWERED)
    app.text_area(key="check:story").set_value("A long story. " * 600).run()
    assert not app.warning
    assert PACKED in address(app)
    assert seen(reopened(app)) == seen(app)
    dice = random.Random(1)
    app.text_area(key="check:story").set_value(
        "".join(chr(dice.randint(0x4E00, 0x9FFF)) for _ in range(6000))
    ).run()
    assert app.warning[0].value.startswith("Too long for the address: What is the matter")
    assert app.get("download_button")[0].proto.label == "Readings, all of them (TOML)"
    assert "play_open" in address(app)
    assert len(urlencode(address(app))) < LONGEST_ADDRESS
    assert "cut short" in words(reopened(app))


def test_a_damaged_address_is_said_field_by_field_and_the_rest_is_there() -> None:
    held = address(two_rounds())
    damaged = held | {"dropout_thickness.size": "6,85", "play_open": "lots", "found.rim_opn.play": "0.3"}
    app = opened(**damaged)
    assert not app.exception
    said = words(app)
    assert "The address: was cut short or changed on its way" in said
    assert "Thickness of the dropouts = 6,85: must be a number" in said.replace("\u2060", "")
    assert "must be one of none, slight, clear" in said
    assert "is not a known name" in said
    assert len(seen(app).rounds) == 3
    assert seen(app).found.axle_end_open.play == pytest.approx(0.12e-3)
    app.button(key="check_damage_seen").click().run()
    assert "Part of this address" not in words(app)


def test_an_address_cut_short_anywhere_is_known_for_one() -> None:
    """What is gone leaves no gap of its own: only the check of the rest tells that it was there."""
    held = address(two_rounds())
    names = list(held)
    assert names[0] == SUM
    for kept in range(1, len(names)):
        cut = {name: held[name] for name in names[:kept]}
        assert read_address(cut).problems
        last = names[kept]
        if len(held[last]) > 1:
            assert read_address({**cut, last: held[last][:-1]}).problems
    assert not read_address(held).problems


def test_after_a_round_that_cannot_be_read_none_is_taken_and_all_are_told() -> None:
    """A round stands on the turns before it: taken without one, it would tell another story."""
    held = address(two_rounds())
    for broken in ({"round_2.turned_in": "x"}, {"round_2.turned_in": "-5"}, {"round_2.turned_out": "4"}):
        found = read_address(held | broken)
        assert found.rounds == ()
        told = "\n".join(map(str, found.problems))
        assert "Rounds: not taken" in told
        assert "Round 3, turned in: 13" in told
    assert len(read_address(held | {"round_3.turned_in": "x"}).rounds) == 1


@pytest.mark.parametrize(
    "text", [*HOSTILE.values(), "1e400", "nan", "-inf", "9" * 5000, "x" * 70000, "\0", ""]
)
def test_a_hostile_address_gets_sentences(text: str) -> None:
    names = [
        *(QUICK.get(field, field) for field in DECLARED),
        SUM,
        "found.rim_open.__class__",
        f"{text}.{text}",
    ]
    found = read_address(dict.fromkeys(names, text))
    assert found.problems
    assert all(len(str(problem)) < 500 for problem in found.problems)
    texts = [value for value in found.entries.values() if isinstance(value, str)]
    assert all(len(value) <= FILE_SIZE_LIMIT for value in texts)
    assert found.rounds == ()


def test_a_hostile_address_opens() -> None:
    poison = dict.fromkeys(("name", "story", "clamp", "found.rim_open.play", "thread", "a.b"), LONG)
    app = opened(**ANSWERED, **poison)
    assert not app.exception
    assert "Part of this address" in words(app)


LONG = " ".join(HOSTILE.values())


def _values(field: str) -> st.SearchStrategy[object]:
    declared = DECLARED[field]
    if declared.words:
        return st.sampled_from(declared.words)
    if declared.kind is str:
        return st.text(st.characters(exclude_categories=["Cs"]), max_size=40)
    if declared.kind is int:
        return st.integers(-1000, 1000)
    return st.floats(-LARGEST, LARGEST).map(lambda value: float(f"{value:.12g}"))


ENTERED = [field for field in DECLARED if field not in QUICK and not field.startswith(ROUNDS[1:])]


@given(st.fixed_dictionaries({}, optional={field: _values(field) for field in ENTERED}))
def test_every_entry_comes_back_as_it_was(entered: dict[str, object]) -> None:
    """Whether or not it can be; what is as usual need not stand there."""
    back = read_address(texts_of(entered, ()))
    assert not back.problems
    expected = {field: value for field, value in entered.items() if value != DECLARED[field].usual}
    assert back.entries == {field: value for field, value in expected.items() if value != ""} | {
        field: "" for field in ("name", "story") if expected.get(field) == ""
    }


@given(
    st.lists(
        st.builds(
            Round,
            turned_in=st.integers(1, 360).map(radians),
            turns_closed=st.sampled_from(["free", "gritty"]),
            starting_weight=st.integers(0, 2000).map(lambda weight: weight / 1e3),
        ),
        max_size=5,
    )
)
def test_every_round_comes_back_as_it_was(looks: list[Round]) -> None:
    back = read_address(texts_of({}, looks))
    assert not back.problems
    for one, other in zip(back.rounds, looks, strict=True):
        assert dict(flatten(one)) == dict(flatten(other))


def test_as_found_nothing_was_turned_or_ridden_yet() -> None:
    """Taken from an address, it would stand in a field that no page shows, and could not be put right."""
    for field in ("found.turned_in", "found.ridden_distance"):
        assert [str(each) for each in read_address({field: "5"}).problems] == [
            f"{field} = 5: is not a known name"
        ]


def test_more_than_can_be_read_is_packed_and_comes_back() -> None:
    """Every field filled, each number with digits of its own: numbers and words alone always have room."""
    dice = random.Random(5)
    fullest = {
        field: dice.choice(declared.words) if declared.words else declared.kind(dice.uniform(0.1, 400.0))
        for field, declared in DECLARED.items()
        if field not in QUICK and (declared.words or declared.kind is not str)
    }
    numbers = {
        field: round(value, 2) if isinstance(value, float) else value for field, value in fullest.items()
    }
    texts = texts_of(numbers, ())
    standing, left_out = fit_in(texts, room=LONGEST_ADDRESS - 500)
    assert list(standing) == [PACKED]
    assert not left_out
    assert read_address(standing).entries == read_address(texts).entries
    assert read_address(standing | {PACKED: standing[PACKED][:-5]}).problems
