"""A program killed while it keeps answers: each answer that was acknowledged is there, and none by half."""

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from conemodel.record.backups import back_up
from conemodel.record.cards import all_cards
from conemodel.record.database import Database
from conemodel.tasks.job_card.card import Card, Place

SIDES = (Place("ball_count", "left"), Place("ball_count", "right"))

WRITERS = """
import os, random, sys, time
from pathlib import Path
from conemodel.record.cards import answer, begin_card
from conemodel.record.database import Database
from tests.record.test_killed_cards import SIDES

def say(words):
    os.write(1, f"{words}\\n".encode())  # whole lines, at once

def write(database):
    say(f"writer {os.getpid()}")
    while True:
        card = begin_card(database)
        say(f"{card.id} 0")
        for number in range(1, 8):
            answer(card.id, dict.fromkeys(SIDES, number), database, by="Ada")
            say(f"{card.id} {number}")
            time.sleep(random.uniform(0, 0.004))  # a hand is slower still

for _ in sys.stdin:
    writer = os.fork()
    if not writer:
        write(Database(Path(sys.argv[1])))
    os.waitpid(writer, 0)
    say("killed 0")
"""
"""For each line that it is given, answers card after card until killed, and tells each answer once it was kept."""


def is_whole(card: Card) -> bool:
    """Return whether a card holds both sides of every round that it holds, in order."""
    expected = [(side, number) for number in range(1, len(card.entries) // 2 + 1) for side in SIDES]
    return [(entry.place, entry.value) for entry in card.entries] == expected


def kill_a_writer(writers: "subprocess.Popen[str]", told: dict[str, int], dice: random.Random) -> None:
    """Have answers written, kill the writer at any moment, and keep the last answer told of each card."""
    assert writers.stdin is not None
    assert writers.stdout is not None
    writers.stdin.write("\n")
    writers.stdin.flush()
    writer, left = 0, dice.randrange(6)
    for line in writers.stdout:
        word, number = line.split()
        if word == "killed":
            return
        if word == "writer":
            writer = int(number)
        else:
            told[word] = int(number)
        if left == 0:
            time.sleep(dice.uniform(0, 0.01))  # any moment will do: nothing waits for it
            os.kill(writer, signal.SIGKILL)
        left -= 1
    raise AssertionError("the writers ended by themselves")


@pytest.mark.skipif(not hasattr(os, "fork"), reason="no such processes on this system")
@pytest.mark.parametrize("kills", [10, pytest.param(100, marks=pytest.mark.slow)])
def test_a_program_killed_at_work_loses_no_answer_it_acknowledged(
    tmp_path: Path, root: Path, kills: int
) -> None:
    database, told, dice = Database(tmp_path / "record.sqlite3"), dict[str, int](), random.Random(1)
    untold = 0
    env = {**os.environ, "PYTHONPATH": str(root)}
    command = [sys.executable, "-c", WRITERS, str(database.path)]
    with subprocess.Popen(
        command, cwd=root, env=env, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as writers:
        for _ in range(kills):
            kill_a_writer(writers, told, dice)
            kept = {card.id: card for card in all_cards(database)}
            assert all(map(is_whole, kept.values()))
            assert all(len(kept[card_id].entries) >= 2 * number for card_id, number in told.items())
            before, untold = untold, len(kept) - len(told)
            untold += sum(len(card.entries) // 2 - told.get(card.id, 0) for card in kept.values())
            assert untold - before in (0, 1)  # one operation may be on the disk and not yet told of
            with database.reading() as connection:
                assert connection.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
        assert writers.stdin is not None
        writers.stdin.close()
    assert sum(told.values()) > kills // 2, "the kills came before much was answered"
    assert all_cards(Database(back_up(database, tmp_path / "another machine"))) == all_cards(database)
