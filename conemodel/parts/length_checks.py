"""Lengths measured on one hub that cannot go together."""

from collections.abc import Iterator, Mapping
from typing import Any

from conemodel.parts.schema import FieldError


def check_lengths(values: Mapping[str, Any]) -> Iterator[FieldError]:
    """Yield what cannot be: an axle shorter than the hub it goes through."""
    length, width = (
        getattr(values.get(name), "size", None) for name in ("axle_length", "over_locknut_width")
    )
    if length is not None and width is not None and length < width:
        yield FieldError(
            field="axle_length.size",
            value=length,
            limit="must not be below the width over the locknuts, {}",
            bound=width,
            remedy="measure both again",
        )
