"""What is remembered is worked out once, together, and forgotten in its turn."""

from collections.abc import Sequence

import pytest

from conemodel.base.batch_cache import BatchCache


class Squares:
    """Squares of numbers, and which were asked for together."""

    def __init__(self) -> None:
        self.asked: list[list[float]] = []
        self.known = BatchCache(self.work, size=3)

    def work(self, keys: Sequence[float]) -> list[float]:
        self.asked.append(list(keys))
        return [key**2 for key in keys]


def test_what_is_not_known_is_worked_out_together_and_once() -> None:
    squares = Squares()
    assert squares.known((2.0, 3.0, 2.0)) == (4.0, 9.0, 4.0)
    assert squares.known((3.0, 4.0)) == (9.0, 16.0)
    assert squares.asked == [[2.0, 3.0], [4.0]]


def test_keys_of_one_hash_are_told_apart() -> None:
    assert hash(-1.0) == hash(-2.0)
    assert Squares().known((-1.0, -2.0)) == (1.0, 4.0)


def test_what_was_not_used_for_longest_is_forgotten_first() -> None:
    squares = Squares()
    squares.known((1.0, 2.0, 3.0))
    squares.known.get(1.0)
    squares.known.get(4.0)
    squares.known((1.0, 3.0, 4.0))
    assert squares.asked == [[1.0, 2.0, 3.0], [4.0]]
    squares.known.get(2.0)
    assert squares.asked[-1] == [2.0]


def test_more_keys_than_are_kept_are_answered_all_the_same() -> None:
    assert Squares().known(map(float, range(9))) == tuple(float(n) ** 2 for n in range(9))


def test_a_failure_is_not_remembered() -> None:
    def fail(keys: Sequence[int]) -> list[int]:
        raise ValueError("no answer")

    known = BatchCache(fail, size=3)
    for _ in range(2):
        with pytest.raises(ValueError, match="no answer"):
            known.get(1)
