"""Colours of everything that is drawn, for light and for dark ground; the page's own in its settings are the same.

Six colours are chosen, all others are ink mixed into paper. Colour never carries a meaning alone: beside each stands a
word, a sign, a dash or a hatch.
"""

from dataclasses import dataclass

RULE, LEVEL, FAINT = 0.48, 0.62, 0.72
"""How much ink lies in thin lines, in bars of what stands still, and in lesser text."""

PALEST, PALE, MIDDLE, DEEPEST = 0.04, 0.09, 0.15, 0.24
"""How much ink lies in materials."""

TINT = 0.09
"""How much of a colour lies in the ground of a box that speaks in it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tones:
    """One set of colours.

    Attributes:
        paper: the ground; ink: parts and words; ball: what turns between the races.
        petrol: what a hand gives: turns of the cone, gaps, a loose hub. taken: what locknut and clamp take.
        good: the good range; forbidden: too tight, and what keeps a wheel from being ridden.
    """

    paper: str
    ink: str
    ball: str
    petrol: str
    taken: str
    good: str
    forbidden: str

    @property
    def faint(self) -> str:
        """Lesser text."""
        return self._inked(FAINT)

    @property
    def level(self) -> str:
        """Bars and lines of what stands still."""
        return self._inked(LEVEL)

    @property
    def rule(self) -> str:
        """Thin lines, borders."""
        return self._inked(RULE)

    @property
    def shell(self) -> str:
        """The hub shell, and the page's second ground."""
        return self._inked(PALEST)

    @property
    def frame(self) -> str:
        """Frame and rod: what clamps."""
        return self._inked(PALE)

    @property
    def steel(self) -> str:
        """Cones, locknuts, dust caps."""
        return self._inked(MIDDLE)

    @property
    def dark_steel(self) -> str:
        """Axle, cups, washers."""
        return self._inked(DEEPEST)

    def tinted(self, name: str) -> str:
        """Return the ground of a box that speaks in a colour, by the colour's name."""
        return mix_colours(self.paper, getattr(self, name), TINT)

    def _inked(self, part: float) -> str:
        return mix_colours(self.paper, self.ink, part)


def mix_colours(ground: str, colour: str, part: float) -> str:
    """Return `part` of a colour mixed into a ground, all three channels alike.

    >>> mix_colours("#ffffff", "#000000", 0.2)
    '#cccccc'
    """
    pairs = [(int(ground[at : at + 2], 16), int(colour[at : at + 2], 16)) for at in (1, 3, 5)]
    return "#" + "".join(f"{round(low + (high - low) * part):02x}" for low, high in pairs)


WHITE = "#ffffff"
LIGHT = Tones(
    paper="#fbfaf7",
    ink="#0c1317",
    ball=WHITE,
    petrol="#1d6075",
    taken="#9a4f00",
    good="#2c6e49",
    forbidden="#a3123f",
)
DARK = Tones(
    paper="#161b1e",
    ink="#e9ebe6",
    ball="#5e6261",
    petrol="#7cc4d6",
    taken="#f0a552",
    good="#8bd0a0",
    forbidden="#ff8ea6",
)


def tones(*, dark: bool) -> Tones:
    """Return the colours for a dark or a light ground."""
    return DARK if dark else LIGHT
