"""What a PDF draws, read from its content stream by nothing but the operators of ISO 32000-1, 8.2 to 8.5.

It knows nothing of what wrote the file: paths as runs of corners, curves walked along, all in mm of the page.
"""

import re
import zlib
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

POINT = 25.4 / 72
"""One unit of user space [mm]. ISO 32000-1, 8.3.2.3."""

CLOSE = 0.02
"""Within what a run of corners counts as a circle or as a straight line [mm]."""


@dataclass(frozen=True)
class Circle:
    x: float
    y: float
    diameter: float


def page_size(pdf: bytes) -> tuple[float, float]:
    """Return width and height of the first page [mm]."""
    found = re.search(rb"/MediaBox\s*\[\s*([-\d. ]+)\]", pdf)
    assert found is not None
    left, bottom, right, top = map(float, found[1].split())
    return (right - left) * POINT, (top - bottom) * POINT


def paths(pdf: bytes) -> list[np.ndarray]:
    """Return every path that is drawn, each (n, 2) [mm] from the lower left of the page."""
    page = re.search(rb"/Contents (\d+) 0 R", pdf)
    assert page is not None
    stream = re.search(rb"\n%s 0 obj.*?stream\r?\n(.*?)\r?\nendstream" % page[1], pdf, re.DOTALL)
    assert stream is not None
    content = zlib.decompress(stream[1])
    drawn: list[np.ndarray] = []
    kept: list[np.ndarray] = []
    runs: list[list[np.ndarray]] = []
    numbers: list[float] = []
    matrix = np.eye(3)
    # texts in brackets and dashes hold no path
    words = re.sub(rb"\((?:\\.|[^()\\])*\)|<[0-9A-Fa-f]*>|\[[^\]]*\]", b" 0 ", content).split()
    for word in words:
        try:
            numbers.append(float(word))
            continue
        except ValueError:
            pass
        points = np.array(numbers[-len(numbers) // 2 * 2 :]).reshape(-1, 2) if len(numbers) % 2 == 0 else None
        if word == b"q":
            kept.append(matrix)
        elif word == b"Q":
            matrix = kept.pop()
        elif word == b"cm":
            a, b, c, d, e, f = numbers
            matrix = np.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ matrix
        elif word in (b"m", b"l", b"c") and points is not None:
            ends = _placed(points, matrix)
            if word == b"m":
                runs.append([ends[-1]])
            else:
                runs[-1].extend([ends[-1]] if word == b"l" else _curve(runs[-1][-1], ends))
        elif word == b"h":
            runs[-1].append(runs[-1][0])
        elif word in (b"S", b"s", b"f", b"B", b"b", b"n", b"W"):
            drawn += [np.array(run) for run in runs if word not in (b"n", b"W")]
            runs = []
        numbers = []
    return drawn


def circles(pdf: bytes) -> list[Circle]:
    """Return every closed path all of whose places are as far from its middle."""
    found = []
    for path in paths(pdf):
        if len(path) < 40 or not np.allclose(path[0], path[-1], atol=CLOSE):
            continue
        middle = (path.max(0) + path.min(0)) / 2
        away = np.hypot(*(path - middle).T)
        if np.ptp(away) < CLOSE:
            found.append(Circle(float(middle[0]), float(middle[1]), 2 * float(away.mean())))
    return found


def lines(pdf: bytes) -> list[tuple[np.ndarray, np.ndarray]]:
    """Return both ends of every straight stroke [mm]."""
    # a circle is made of many short strokes, and is none of these
    return [(start, end) for path in paths(pdf) if len(path) <= 4 for start, end in pairwise(path)]


def _placed(points: np.ndarray, matrix: np.ndarray) -> np.ndarray:
    return np.asarray((np.column_stack([points, np.ones(len(points))]) @ matrix)[:, :2] * POINT)


def _curve(start: np.ndarray, handles: np.ndarray) -> list[np.ndarray]:
    """Return places along a cubic Bézier curve, by its definition. ISO 32000-1, 8.5.2.2."""
    one, two, end = handles
    return [
        (1 - t) ** 3 * start + 3 * (1 - t) ** 2 * t * one + 3 * (1 - t) * t**2 * two + t**3 * end
        for t in np.linspace(0.1, 1, 10)
    ]
