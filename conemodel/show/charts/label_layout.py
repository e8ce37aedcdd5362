"""Names above the tops of lines in a chart, kept clear of each other."""

from collections import Counter
from collections.abc import Mapping, Sequence

WIDTH = 700
"""Width of a chart that the names are kept apart in [px]."""

NAME_LIMIT, LETTER, LINE = 220, 6.2, 20
"""Longest name, mean width of a letter, and height of a line [px]."""


def shorten_names(names: Sequence[str]) -> dict[str, str]:
    """Return each name up to its first comma, or whole where that would not tell it from another.

    >>> shorten_names(["Rear, M10 × 1", "Front, snug", "Front, worn"])
    {'Rear, M10 × 1': 'Rear', 'Front, snug': 'Front, snug', 'Front, worn': 'Front, worn'}
    """
    first = {name: name.split(",")[0] for name in names}
    count = Counter(first.values())
    return {name: short if count[short] == 1 else name for name, short in first.items()}


def names_apart(
    tops: Mapping[str, tuple[float, float]], *, across: float, height: float
) -> dict[str, tuple[float, float, int]]:
    """Return the top of each line (x, y) by its name, with how far to lift the name to stand clear [px].

    Lower tops keep their place. `across`: span of x that the chart shows; `height`: of the chart [px].

    >>> names_apart({"one": (10, 0.5), "two": (12, 0.5)}, across=100, height=300)
    {'one': (10, 0.5, 0), 'two': (12, 0.5, 20)}
    """
    up = height / max(max(y for _, y in tops.values()), 1e-3)
    placed: list[tuple[float, float, float]] = []
    found: dict[str, tuple[float, float, int]] = {}
    for name, (x, y) in sorted(tops.items(), key=lambda each: each[1][1]):
        half, middle, at = min(len(name) * LETTER, NAME_LIMIT) / 2, x * WIDTH / across, y * up
        lift = 0
        while any(abs(middle - m) < half + h and abs(at + lift - v) < LINE for m, v, h in placed):
            lift += 2
        placed.append((middle, at + lift, half))
        found[name] = x, y, lift
    return found
