"""Reads a QR code as a phone does, apart from finding it and mending it; shares nothing with what draws it.

Source: ISO/IEC 18004 for versions 2 to 5 at level L, where all data is one block; from memory, page not seen.
"""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

Squares = NDArray[np.bool_]

FORMAT_MASK = 0b10101
"""The first five of the bits that the format is masked with."""

MASKS = (
    lambda row, column: (row + column) % 2,
    lambda row, column: row % 2,
    lambda row, column: column % 3,
    lambda row, column: (row + column) % 3,
    lambda row, column: (row // 2 + column // 3) % 2,
    lambda row, column: row * column % 2 + row * column % 3,
    lambda row, column: (row * column % 2 + row * column % 3) % 2,
    lambda row, column: ((row + column) % 2 + row * column % 3) % 2,
)
"""A square is turned over where its mask gives 0."""


def read_qr(squares: Squares) -> str:
    """Return the words in a code of the mode for bytes, from its squares without a margin, True where dark."""
    level, mask = divmod(_number(squares[8, :5]) ^ FORMAT_MASK, 8)
    assert level == 1, "level L"
    bits = [squares[at] ^ (MASKS[mask](*at) == 0) for at in _path(squares.shape[0])]
    assert _number(bits[:4]) == 4, "mode for bytes"
    length = _number(bits[4:12])
    return bytes(_number(bits[12 + 8 * at : 20 + 8 * at]) for at in range(length)).decode()


def _number(bits: object) -> int:
    return int("".join(str(int(bit)) for bit in np.asarray(bits)), 2)


def _path(side: int) -> Iterator[tuple[int, int]]:
    """Yield row and column of each square of data: two columns at a time from the right, up and down by turns."""
    kept = np.zeros((side, side), dtype=bool)
    for rows, columns in (
        (slice(0, 9), slice(0, 9)),
        (slice(0, 9), slice(side - 8, side)),
        (slice(side - 8, side), slice(0, 9)),
        (slice(side - 9, side - 4), slice(side - 9, side - 4)),
        (6, slice(None)),
        (slice(None), 6),
    ):
        kept[rows, columns] = True
    rights = [right for right in range(side - 1, 0, -2) if right > 6] + [5, 3, 1]
    for turn, right in enumerate(rights):
        for row in range(side) if turn % 2 else range(side - 1, -1, -1):
            yield from ((row, column) for column in (right, right - 1) if not kept[row, column])
