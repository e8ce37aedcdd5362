"""Pictures to judge a race by: a cone from its side and a cup from above, good, with a pale track, pitted.

Ours, drawn by code; they show what an eye finds on a clean race: a fine bright line all round where the balls run; a
broad pale band, matt where the good line shines; such a band broken by dark holes with sharp edges.
"""

from collections.abc import Callable, Iterator
from math import cos, pi, sin

from conemodel.show.palette import Tones, mix_colours
from conemodel.tasks.job_card.sections.strip import GOOD, PALE, PITTED

WIDTH, HEIGHT = 120, 90
"""Of a picture, in its own units."""

FINE, BROAD = 2.5, 11.0
"""Width of the track on a good race, and on a worn one."""

PITS = ((0.06, -0.2, 2.6), (0.19, 0.4, 1.7), (0.27, -0.5, 3.3), (0.43, 0.1, 2.2), (0.52, 0.5, 3.0), (0.68, -0.3, 2.1),
        (0.79, 0.3, 3.6), (0.91, -0.1, 1.9))  # fmt: skip
"""Holes: where round the race (share of a turn), where across the track (of its half width), and their radius."""


def condition_pictures(tones: Tones) -> dict[str, dict[str, str]]:
    """Return SVG by part and condition, as a card names them."""
    return {
        part: {condition: _picture(draw, tones, condition) for condition in (GOOD, PALE, PITTED)}
        for part, draw in {"cone": _cone, "cup": _cup}.items()
    }


def _picture(draw: Callable[[Tones, str], Iterator[str]], tones: Tones, condition: str) -> str:
    """Return one picture; its words stand beside it, so none are in it."""
    marks = "".join(draw(tones, condition))
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" aria-hidden="true">{marks}</svg>'


def _bright_and_deep(tones: Tones) -> tuple[str, str]:
    """Return the brightest and the darkest colour of either ground; as hex, the brighter is the greater."""
    return max(tones.paper, tones.ink), min(tones.paper, tones.ink)


def _track(tones: Tones, condition: str) -> tuple[str, float]:
    """Return colour and width of the track: bright where it is good, else broad, duller, and paler than its cone."""
    bright, _ = _bright_and_deep(tones)
    pale = mix_colours(tones.steel, bright, 0.5)
    return {GOOD: (bright, FINE), PALE: (pale, BROAD), PITTED: (pale, BROAD)}[condition]


def _cone(tones: Tones, condition: str) -> Iterator[str]:
    """Yield a cone standing on its wide end: flats below, the race above, the track as an arc on its front."""
    steel, edge = tones.steel, f'stroke="{tones.ink}" stroke-width="1.5" stroke-linejoin="round"'
    yield f'<path d="M22 62 V80 Q60 94 98 80 V62 Q60 76 22 62Z" fill="{tones.dark_steel}" {edge}/>'
    yield f'<path d="M44 16 Q38 48 22 62 Q60 76 98 62 Q82 48 76 16Z" fill="{steel}" {edge}/>'
    yield f'<ellipse cx="60" cy="16" rx="16" ry="5" fill="{tones.dark_steel}" {edge}/>'
    colour, width = _track(tones, condition)
    yield f'<path d="M35 41 Q60 52 85 41" fill="none" stroke="{colour}" stroke-width="{width}"/>'
    if condition == PITTED:
        for turn, across, size in PITS:
            x = 37 + 46 * turn
            sag = 41 + 5.5 * (1 - ((x - 60) / 25) ** 2)
            yield _pit(tones, x, sag + across * 0.5 * BROAD, size)


def _cup(tones: Tones, condition: str) -> Iterator[str]:
    """Yield a cup seen from above: rim, race and bore as rings, the track as a ring on the race."""
    edge = f'stroke="{tones.ink}" stroke-width="1.5"'
    for radius, fill in ((42.0, tones.dark_steel), (36.0, tones.steel), (15.0, tones.paper)):
        yield f'<circle cx="60" cy="45" r="{radius}" fill="{fill}" {edge}/>'
    colour, width = _track(tones, condition)
    yield f'<circle cx="60" cy="45" r="26" fill="none" stroke="{colour}" stroke-width="{width}"/>'
    if condition == PITTED:
        for turn, across, size in PITS:
            out, angle = 26 + across * 0.5 * BROAD, 2 * pi * turn
            yield _pit(tones, 60 + out * cos(angle), 45 + out * sin(angle), size)


def _pit(tones: Tones, x: float, y: float, radius: float) -> str:
    """Return a hole with a ragged edge, one side of it lit."""
    ragged = (radius * (1.0 if corner % 2 else 0.72) for corner in range(9))
    points = " ".join(
        f"{x + out * cos(2 * pi * corner / 9):.1f},{y + out * sin(2 * pi * corner / 9):.1f}"
        for corner, out in enumerate(ragged)
    )
    bright, deep = _bright_and_deep(tones)
    return f'<polygon points="{points}" fill="{deep}" stroke="{bright}" stroke-width="0.5"/>'
