"""One palette: what is drawn, the page and the frame's own boxes share it, and all of it can be read.

Contrast: WCAG 2.2, 1.4.3 and 1.4.11, from memory, page not seen: 4.5 : 1 for text, 3 : 1 for what must be seen.
"""

import re
import tomllib

import pytest

from conemodel.show.palette import DARK, LIGHT, mix_colours

HUES = {
    "red": "forbidden",
    "orange": "taken",
    "yellow": "taken",
    "blue": "petrol",
    "green": "good",
    "violet": "petrol",
}
"""What the frame says in a colour of its own is said in ours."""

SPOKEN = ("petrol", "taken", "good", "forbidden")
BOTH = pytest.mark.parametrize(("name", "tones"), [("light", LIGHT), ("dark", DARK)], ids=["light", "dark"])


def contrast(one, other):
    """Return the contrast of two colours, by the definition of relative luminance in WCAG 2.2."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def luminance(colour):
    channels = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_black_on_white_has_the_greatest_contrast_there_is():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)


@BOTH
def test_words_can_be_read_on_every_ground_they_stand_on(name, tones):
    for words in ("ink", "faint", *SPOKEN):
        for ground in (tones.paper, tones.shell, tones.frame):
            assert contrast(getattr(tones, words), ground) >= 4.5, f"{words} on {ground}, {name}"
    for words in SPOKEN:
        assert contrast(getattr(tones, words), tones.tinted(words)) >= 4.5
    assert contrast(tones.paper, tones.petrol) >= 4.5  # on the main button


@BOTH
def test_lines_and_bars_stand_out_from_the_paper(name, tones):
    for mark in ("rule", "level", *SPOKEN):
        assert contrast(getattr(tones, mark), tones.paper) >= 3, f"{mark}, {name}"


@BOTH
def test_a_material_is_ink_in_paper_the_deeper_the_darker(name, tones):
    inks = [contrast(getattr(tones, each), tones.paper) for each in ("shell", "frame", "steel", "dark_steel")]
    assert inks == sorted(inks)
    assert len(set(inks)) == 4
    assert mix_colours(tones.paper, tones.ink, 0) == tones.paper
    assert mix_colours(tones.paper, tones.ink, 1) == tones.ink


@BOTH
def test_the_frame_speaks_in_the_same_colours(name, tones, root):
    theme = tomllib.loads((root / ".streamlit/config.toml").read_text("utf-8"))["theme"][name]
    expected = {
        "primaryColor": tones.petrol,
        "backgroundColor": tones.paper,
        "secondaryBackgroundColor": tones.shell,
        "textColor": tones.ink,
        "linkColor": tones.petrol,
        "borderColor": tones.rule,
        "grayColor": tones.faint,
        "grayBackgroundColor": tones.frame,
        "grayTextColor": tones.faint,
    }
    for hue, ours in HUES.items():
        expected |= {f"{hue}{part}": getattr(tones, ours) for part in ("Color", "TextColor")}
        expected[f"{hue}BackgroundColor"] = tones.tinted(ours)
    assert {key: value for key, value in theme.items() if "olor" in key} == expected


def test_no_colour_is_typed_a_second_time(root):
    typed = [
        f"{path.name}: {found}"
        for kind in ("py", "js", "css", "html")
        for path in sorted((root / "conemodel").rglob(f"*.{kind}"))
        if path.name != "palette.py"
        for found in re.findall(
            r"#(?:[0-9a-fA-F]{8}|[0-9a-fA-F]{6}|[0-9a-fA-F]{3})\b", path.read_text("utf-8")
        )
    ]
    assert typed == []
