"""Colours of all pictures, for light and for dark ground; they go with the page's own.

Colour never carries a meaning alone: beside each stands a word, a sign, a dash or a hatch.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Tones:
    """One set of colours.

    Attributes:
        ground: behind everything; ink: text and outlines; faint: lesser text (still 4.5 : 1 on the ground).
        rule: thin lines; opens, closes: what adds play and what takes it; level: where the hub stands.
        good: the good range; steel, dark_steel, ball, shell, frame, rod: parts of a hub in section.
        warning: what keeps a wheel from being ridden.
    """

    ground: str
    ink: str
    faint: str
    rule: str
    opens: str
    closes: str
    level: str
    good: str
    steel: str
    dark_steel: str
    ball: str
    shell: str
    frame: str
    rod: str
    warning: str


LIGHT = Tones(
    ground="#fbfaf7",
    ink="#0c1317",
    faint="#4d585e",
    rule="#8a9499",
    opens="#1d6075",
    closes="#9a4a14",
    level="#56636a",
    good="#3d8b57",
    steel="#c3cbcf",
    dark_steel="#98a4aa",
    ball="#e9eef0",
    shell="#dcd3c0",
    frame="#b9c7b6",
    rod="#d9dee0",
    warning="#a3231a",
)
DARK = Tones(
    ground="#161b1e",
    ink="#e9ebe6",
    faint="#a7b1b5",
    rule="#6d787d",
    opens="#7cc4d6",
    closes="#e39a5f",
    level="#9fabb1",
    good="#6cc08b",
    steel="#5d696f",
    dark_steel="#46525a",
    ball="#8e9aa0",
    shell="#4b4535",
    frame="#3a4a3b",
    rod="#767f83",
    warning="#ff8f80",
)


def tones(*, dark: bool) -> Tones:
    """Return the colours for a dark or a light ground."""
    return DARK if dark else LIGHT
