"""What is known of somebody's own hub, and what is assumed of it, in the words of a page."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from conemodel.base.plain_text import for_html
from conemodel.base.units import KILONEWTON, MM, NEWTON
from conemodel.parts.hub_families import BALLS, FAMILIES, Usual
from conemodel.parts.known_hub import KnownHub, Sizes
from conemodel.parts.known_scenario import KnownScenario
from conemodel.parts.schema import unit_of

NOT_ALLOWED_FOR = (
    "A turn advised allows for the thread's slack, the clamp force and the hands in their ranges, not for a size that "
    "is only assumed here: enter what you can, the thread and the width first."
)

SAME_BALL = 0.02e-3
"""Balls closer than this in size are called the same [m]."""

YES_NO = {True: "yes", False: "no"}

_ERRORS = ("thread_slack_error", "clamp_force_error")
"""Said beside what they are errors of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """One thing about a hub.

    Attributes:
        field: of `KnownHub`; label: what it is called.
        value: as known, or usual [SI]; words: it in words; known: whether it was entered.
        span: the range it is assumed in, in words; empty where it is known, or where nothing is said of a range.
    """

    field: str
    label: str
    value: Any
    words: str
    known: bool
    span: str = ""


def label_of(field: str) -> str:
    """Return what a field of a known hub is called."""
    words = str(KnownHub.model_fields[field].description)
    return words[:1].upper() + words[1:]


def value_words(field: str, value: Any) -> str:
    """Return a value of a field [SI] in words.

    >>> (
    ...     value_words("over_locknut_width", 0.135),
    ...     value_words("keyed_washer", True),
    ...     value_words("thread", "M9 x 1"),
    ... )
    ('135 mm', 'yes', 'M9 × 1')
    """
    if isinstance(value, bool):
        return YES_NO[value]
    unit = unit_of(KnownHub.model_fields[field])
    if unit is NEWTON:
        return f"{KILONEWTON.from_si(value):.3g} kN"
    if field.startswith("ball_diameter"):
        sold = (words for words, size in BALLS.items() if abs(size - value) < SAME_BALL)
        return next(sold, f"{MM.from_si(value):.4g} mm")
    if unit is MM:
        return f"{MM.from_si(value):.4g} mm"
    return str(value).replace(" x ", " × ")


def sizes_of(hub: KnownScenario) -> tuple[Size, ...]:
    """Return everything that can be known of a hub, as it is known or assumed."""
    known = hub.known.known
    fields = [name for name in KnownHub.model_fields if name != "family" and name not in _ERRORS]
    return tuple(
        Size(field=name, label=label_of(name), value=known[name], words=_with_error(name, known), known=True)
        if name in known
        else _assumed(name, hub)
        for name in fields
    )


def _with_error(field: str, known: dict[str, Any]) -> str:
    """Return a known value in words, with its error where that is known too."""
    error = known.get(f"{field}_error")
    return value_words(field, known[field]) + ("" if error is None else f" ± {value_words(field, error)}")


def _assumed(field: str, hub: KnownScenario) -> Size:
    """Return what is assumed of a thing, and in which range."""
    sizes, span = Sizes(dict(hub.known)), ""
    name, _, side = field.rpartition("_")
    usual: Any
    if side in ("left", "right"):
        usual = sizes.of_side(name, side)
        as_left = side == "right" and f"{name}_left" in sizes.values
        span = "as on the left" if as_left else _range(field, getattr(sizes.family, name))
    elif isinstance(found := getattr(sizes.family, field, None), Usual):
        usual, span = getattr(sizes, field, found.usual), _range(field, found)
    elif field == "dropout_width":
        usual, span = sizes.dropout_width, "as the hub"
    elif field == "keyed_washer":
        usual = True
    elif field == "thread_slack":
        low, high = hub.axle.backlash_range
        usual, span = hub.axle.backlash, _range(field, Usual(low, hub.axle.backlash, high))
    elif field == "clamp_force":
        force = hub.unknowns["clamp_force"]
        usual, span = force.usual, force.range_in_words(KILONEWTON)
    else:
        usual = getattr(sizes.family, field)
    words = value_words(field, usual)
    return Size(field=field, label=label_of(field), value=usual, words=words, known=False, span=span)


def _range(field: str, usual: Usual) -> str:
    """Return a range in words, its unit once."""
    low, high = value_words(field, usual.low), value_words(field, usual.high)
    return low if low == high else f"{low.removesuffix(' mm')} to {high}"


def known_html(hub: KnownScenario) -> str:
    """Return as HTML what is known of a hub and what is assumed, folded to one line."""
    sizes = sizes_of(hub)
    known = "; ".join(_said(sizes, known=True)) or "nothing yet"
    assumed = "; ".join(_said(sizes, known=False))
    count = sum(size.known for size in sizes)
    family = FAMILIES[hub.known.family].words
    return (
        f'<details class="cm-known"><summary>{for_html(f"{family[:1].upper()}{family[1:]}")}: {count} known, '
        f"{len(sizes) - count} assumed</summary><p><strong>Known:</strong> {for_html(known)}.</p>"
        f"<p><strong>Assumed</strong> (usual for its kind; common practice, no source): {for_html(assumed)}.</p>"
        f"<p>{for_html(NOT_ALLOWED_FOR)}</p></details>"
    )


def _said(sizes: tuple[Size, ...], *, known: bool) -> Iterator[str]:
    """Yield each size that is known, or each that is not, in words."""
    for size in sizes:
        if size.known is known:
            span = f" ({size.span})" if size.span else ""
            yield f"{size.label[:1].lower()}{size.label[1:]} {size.words}{span}"
