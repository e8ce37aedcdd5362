"""What must hold of the pushes a play was read under."""

from collections.abc import Iterator, Mapping
from typing import Any

from conemodel.parts.schema import FieldError


def check_pushes(values: Mapping[str, Any]) -> Iterator[FieldError]:
    """Yield what is wrong with the pushes of one play: `values` are its valid fields by name [SI].

    A push belongs to a measured play, a harder one to a first one, and each push to the play read under it.
    """
    push, hard = values.get("push"), values.get("push_hard")
    if "play" in values and values["play"] is None:
        for name in ("push", "play_hard", "push_hard"):
            if values.get(name) is not None:
                yield FieldError(field=name, value=values[name], limit="belongs to a measured play")
        return
    if values.get("play_hard") is not None and hard is None and "push_hard" in values:
        yield FieldError(
            field="push_hard",
            value=None,
            limit="is missing beside play_hard",
            remedy="say how hard that push was",
        )
    if hard is None:
        return
    if values.get("play_hard") is None and "play_hard" in values:
        yield FieldError(
            field="play_hard",
            value=None,
            limit="is missing beside push_hard",
            remedy="give the play under that push",
        )
    if push is None and "push" in values:
        yield FieldError(
            field="push",
            value=None,
            limit="is missing beside push_hard",
            remedy="say how hard the first push was",
        )
    if push is not None and hard <= push:
        yield FieldError(
            field="push_hard",
            value=hard,
            limit="must be above the first push, {}",
            bound=push,
            remedy="two pushes alike tell nothing of what gives",
        )


def check_places(values: Mapping[str, Any]) -> Iterator[FieldError]:
    """Yield what is wrong with the pushes and words of a round: `values` are its valid fields by name.

    Pushes count at the rim, where the wheel gives; along the axle nobody's fingers know a word for play.
    """
    for name, play in values.items():
        if name.startswith("axle_"):
            for field in ("push", "push_hard"):
                if getattr(play, field) is not None:
                    yield FieldError(
                        field=f"{name}.{field}",
                        value=getattr(play, field),
                        limit="belongs to a play at the rim",
                        remedy="leave it out: at the axle next to nothing gives",
                    )
        if name.startswith("axle_along") and play.hand is not None:
            yield FieldError(
                field=f"{name}.hand",
                value=play.hand,
                limit="cannot be told by hand along the axle",
                remedy="give what a dial gauge shows",
            )
