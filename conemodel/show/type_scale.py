"""Sizes of type on every page and in every picture on it [px]: one scale, so that a larger word matters more.

The smallest can still be read at arm's length; common practice, no source.
"""

LABEL, TEXT, TITLE, VALUE, HEADING, STATE, FRONT = 13, 15, 18, 22, 34, 44, 60
"""Labels and notes; running text; titles and advice; values and sections; a page's name; the state of a hub; what
the front page asks for."""

COMPACT = {"heading": VALUE, "state": 27, "front": STATE}
"""What is smaller on a telephone."""

_NAMED = {
    "label": LABEL,
    "text": TEXT,
    "title": TITLE,
    "value": VALUE,
    "heading": HEADING,
    "state": STATE,
    "front": FRONT,
}


def type_style() -> str:
    """Return the sizes as custom properties of a page, by name: ``--cm-label`` and so on."""
    return f":root {{{_properties(_NAMED)}}} @media (max-width: 640px) {{:root {{{_properties(COMPACT)}}}}}"


def _properties(sizes: dict[str, int]) -> str:
    return "; ".join(f"--cm-{name}: {size}px" for name, size in sizes.items())
