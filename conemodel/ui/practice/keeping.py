"""The journal of the bench on screen: each act is on the disk before it shows, and a bench is taken up from there."""

from contextlib import suppress
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from conemodel.base.errors import InputProblems
from conemodel.parts.exercise import Exercise
from conemodel.parts.toml_files import read_part
from conemodel.record.attempts import Attempt, save
from conemodel.record.database import Database, RecordError
from conemodel.record.journal import (
    Deleted,
    KeptAct,
    Opening,
    begin_bench,
    find_bench,
    keep_acts,
    kept_acts,
    name_bench,
    save_once,
)
from conemodel.record.names import clean_name
from conemodel.record.server_key import server_key
from conemodel.tasks.practice.actions import Action
from conemodel.tasks.practice.catalogue import read_link
from conemodel.tasks.practice.hidden_hub import Given, begin
from conemodel.tasks.practice.playback import CannotPlayBack, PlayedAct, play_back, proof_of, write_act
from conemodel.tasks.practice.session import Bench

ELSEWHERE = (
    "This bench is open in another window too, and something was done there. Here it is as it stands now; what you "
    "did last in this window was not done."
)

DELETED = "This bench was deleted from the record: what is done at it now is not kept."


class TakenUp(NamedTuple):
    """A bench played back, and the hand's own words by number of the log's line."""

    bench: Bench
    own_words: dict[int, str]


def start_of(opening: Opening) -> Bench:
    """Return the start of a bench as it was begun.

    Raises:
        CannotPlayBack: its hubs cannot be drawn again as they were; RecordError: the server's key cannot be read.
    """
    try:
        link = read_link(opening.link)
        exercise = read_part(Exercise, opening.played, name="the exercise kept")
        start = begin(exercise, Given(salt=link.drawn_by, seed=link.seed, key=server_key()))
    except InputProblems as error:
        raise CannotPlayBack(f"its exercise cannot be read: {error}") from error
    if proof_of(start) != opening.proof:
        raise CannotPlayBack("its hubs are drawn otherwise now: the program or the server's key has changed")
    return start


def take_up(number: int) -> TakenUp:
    """Return a bench of the record as it was left.

    Raises:
        CannotPlayBack: its acts do not lead back to it; RecordError: the record could not be read.
    """
    found = find_bench(number, Database())
    if found is None:
        raise CannotPlayBack("it is no longer in the record")
    acts = kept_acts(number, Database())
    bench = play_back(start_of(found.opening), (PlayedAct(one.act, one.told) for one in acts))
    return TakenUp(bench, {i: one.own_words for i, one in enumerate(acts) if one.own_words is not None})


@dataclass
class Keeping:
    """What is kept of one bench; nothing is, before the first act.

    Attributes:
        opening: what it was begun from; name: it is kept under.
        id: its number in the record, None before the first act; number: of acts that are there.
        waiting: acts that could not be kept yet; trouble: why, in words.
        stopped: it was deleted, and stays so.
    """

    opening: Opening
    name: str | None
    id: int | None = None
    number: int = 0
    waiting: list[KeptAct] = field(default_factory=list)
    trouble: str = ""
    stopped: bool = False

    def keep(self, after: Bench, action: Action, own_words: str | None) -> None:
        """Keep the act that led to the bench `after`; where the record cannot be used, with the next one.

        Raises:
            Overtaken: something was done at this bench from another window.
        """
        if self.stopped:
            return
        self.waiting.append(KeptAct(write_act(action), after.log[-1].told, own_words, after.current))
        try:
            if self.id is None:
                self.id = begin_bench(replace(self.opening, name=self.name), Database())
            keep_acts(self.id, self.number, self.waiting, Database())
        except RecordError as error:
            self.trouble = f"Not kept just now; a reload would go back to before. {error}"
        except Deleted:
            self.stopped, self.trouble = True, DELETED
        else:
            self.number += len(self.waiting)
            self.waiting, self.trouble = [], ""

    def catch_up(self, number: int) -> TakenUp | None:
        """Return the bench as another window left it, None where it cannot be taken up: then it is kept no more."""
        try:
            there = take_up(number)
        except (CannotPlayBack, RecordError) as error:
            self.stopped, self.trouble = (
                True,
                f"Another window has this bench, and it cannot be read: {error}",
            )
            return None
        self.id, self.number, self.waiting = number, len(there.bench.log), []
        return there

    def call_it(self, name: str | None) -> None:
        """Keep the bench under the name typed now, or under none.

        Raises:
            RecordError: the record could not be read or written.
        """
        with suppress(InputProblems):  # said where the attempt is kept
            name = clean_name(name)
            if name != self.name and self.id is not None:
                name_bench(self.id, name, Database())
            self.name = name

    def save(self, attempt: Attempt) -> int | None:
        """Save the attempt it became, once from whatever window, and return its number.

        Raises:
            RecordError: the record could not be read or written.
        """
        if self.id is None:
            return save(attempt, Database()).id
        return save_once(self.id, attempt, Database())
