"""What is said of faults once fingers found that there is one: not each of them unlikely and nothing else."""

from dataclasses import replace
from itertools import product

import pytest

from conemodel.parts.felt_play import PLAY_WORDS
from conemodel.parts.readings import Play, Readings, Round
from conemodel.show.diagnosis.tables import NONE_FITS, say_fault, say_none_fits
from conemodel.show.diagnosis.text import check_text
from conemodel.tasks.diagnosis.causes import CAUSES
from conemodel.tasks.diagnosis.diagnose import Diagnosis, diagnose


def felt(opened: str, closed: str, turns: str, clamp: str = "quick release") -> Diagnosis:
    look = Round(rim_open=Play(hand=opened), rim_closed=Play(hand=closed), turns_closed=turns)  # type: ignore[arg-type]
    return diagnose(Readings(clamp=clamp, found=look))


@pytest.mark.parametrize(("opened", "closed"), list(product(PLAY_WORDS, repeat=2)))
def test_of_a_notchy_hub_one_cause_is_worth_a_look(opened: str, closed: str) -> None:
    """It is notchy, so something is the matter: shares of what is left add up to one, whatever a slip would explain."""
    said = felt(opened, closed, "notchy")
    words = {say_fault(fault, said) for fault in said.faults if fault.key in CAUSES}
    assert said.contradictions or words & {"likely", "a toss-up"}
    assert NONE_FITS not in check_text(said)  # worn or pitted races fit notches, play or no play


def test_clear_play_and_notches_are_a_worn_hub_and_no_contradiction() -> None:
    """Common practice, no source: a worn, pitted hub is loose and is felt as steps."""
    said = felt("clear", "clear", "notchy")
    assert said.contradictions == ()
    assert said.headline.answer.act.startswith("Strip it")
    assert "pitted races are likely" in said.headline.answer.why
    assert {say_fault(fault, said) for fault in said.faults if fault.key == "dented"} == {"likely"}


def test_a_cause_is_weighed_against_the_others_and_not_against_a_slip() -> None:
    """By hand: 0.2 and 0.2 of which one must be leave each a toss-up; six at 0.1 leave none that is."""
    said = felt("clear", "slight", "tight in one place")
    causes = [fault for fault in said.faults if fault.key in CAUSES]
    two = replace(said, faults=tuple(replace(fault, chance=0.2, blocks=False) for fault in causes[:2]))
    assert [say_fault(fault, two) for fault in two.faults] == ["a toss-up", "a toss-up"]
    assert say_none_fits(two) == ""
    six = replace(said, faults=tuple(replace(fault, chance=0.1, blocks=False) for fault in causes[:6]))
    assert {say_fault(fault, six) for fault in six.faults} == {"unlikely"}
    assert say_none_fits(six) == NONE_FITS


def test_where_nothing_is_felt_nothing_has_to_fit() -> None:
    said = felt("clear", "slight", "free")
    assert say_none_fits(said) == ""
    assert NONE_FITS not in check_text(said)
