"""Signs above the tops of lines in a chart, kept clear of each other, and the names they stand for."""

from collections import Counter
from collections.abc import Mapping, Sequence

NARROWEST = 250
"""Width of the narrowest chart, a phone's, that signs are kept apart in [px]; in a wider one they stand apart too."""

SIGN, LINE = 18, 18
"""Width of a sign of two figures, and height of a line [px]."""


def shorten_names(names: Sequence[str]) -> dict[str, str]:
    """Return each name up to its first comma, or whole where that would not tell it from another.

    >>> shorten_names(["Rear, M10 × 1", "Front, snug", "Front, worn"])
    {'Rear, M10 × 1': 'Rear', 'Front, snug': 'Front, snug', 'Front, worn': 'Front, worn'}
    """
    first = {name: name.split(",")[0] for name in names}
    count = Counter(first.values())
    return {name: short if count[short] == 1 else name for name, short in first.items()}


def lift_signs(
    tops: Mapping[str, tuple[float, float]], *, across: float, height: float, wide: float = SIGN
) -> dict[str, int]:
    """Return how far to lift the sign of each line from the line's top (x, y) to stand clear of the others [px].

    Lower tops keep their place. `across`: span of x that the chart shows; `height`: of the chart [px], filled by
    the highest top; `wide`: the widest sign [px].

    >>> lift_signs({"1": (10, 0.5), "2": (12, 0.5)}, across=100, height=300)
    {'1': 0, '2': 18}
    """
    up = height / max(max(y for _, y in tops.values()), 1e-3)
    placed: list[tuple[float, float]] = []
    lifts: dict[str, int] = {}
    for sign, (x, y) in sorted(tops.items(), key=lambda each: each[1][1]):
        middle, at, lift = x * NARROWEST / across, y * up, 0
        while any(abs(middle - other) < wide and abs(at + lift - high) < LINE for other, high in placed):
            lift += 2
        placed.append((middle, at + lift))
        lifts[sign] = lift
    return lifts
