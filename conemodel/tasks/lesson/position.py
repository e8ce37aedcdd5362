"""Where the telling of a story stands, and where its four keys lead."""

from dataclasses import dataclass, replace
from typing import Literal

from conemodel.parts.lesson import Story, StoryStep

Key = Literal["next", "back", "reveal", "swap"]

KEYS: tuple[Key, ...] = ("next", "back", "reveal", "swap")
"""All a story needs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Position:
    """Where a telling stands: `step` counts the shown steps from 0; `revealed`: its answer is shown; `swapped`."""

    step: int = 0
    revealed: bool = False
    swapped: bool = False


def step_of(story: Story, name: str) -> StoryStep:
    """Return a step of a story by its stage."""
    step: StoryStep = getattr(story.steps, name)
    return step


def positions(story: Story) -> tuple[Position, ...]:
    """Return every position of a telling in order: a step that asks stands hidden first, then revealed."""
    found: list[Position] = []
    for number, name in enumerate(story.steps.shown):
        if step_of(story, name).ask != "nothing":
            found.append(Position(step=number))
        found.append(Position(step=number, revealed=True))
    return tuple(found)


def start(story: Story) -> Position:
    """Return where a telling begins."""
    return positions(story)[0]


def press(story: Story, position: Position, key: Key) -> Position:
    """Return where a key leads. Next never reveals; back undoes the last next or reveal; a useless key does nothing."""
    order = positions(story)
    at = order.index(replace(position, swapped=False))
    if key == "swap":
        return replace(position, swapped=not position.swapped)
    hidden = not position.revealed
    if key == "back":
        at = max(at - 1, 0)
    elif (key == "reveal") == hidden:
        at = min(at + 1, len(order) - 1)
    return replace(order[at], swapped=position.swapped)
