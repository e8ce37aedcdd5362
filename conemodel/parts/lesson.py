"""A story for a class: two hubs or settings side by side, with questions to commit to before each answer."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Any, Literal

from conemodel.base.errors import InputProblems, run_all
from conemodel.base.units import ONE
from conemodel.parts.changes import ScenarioChanges
from conemodel.parts.felt_play import Place
from conemodel.parts.foreign_file import read_bytes
from conemodel.parts.library import SCENARIOS, find_scenario, scenario_folders
from conemodel.parts.scenario import Scenario
from conemodel.parts.schema import FieldError, Part, PartProblems, quantity
from conemodel.parts.toml_files import read_part

STORIES = SCENARIOS / "stories"
"""The project's own stories."""

Ask = Literal["nothing", "turn", "change", "compare"]
About = Literal["left", "right", "both"]

STEPS = ("contact", "backed_off", "locked", "clamped", "ridden")
"""Steps a story can have, in order: the stages of a setting."""

LONGEST = {"title": 60, "caption": 36, "question": 130, "reveal": 260, "opening": 260}
"""Most characters of what a class reads from four metres away."""


MOST_ASKED = 3
"""Most steps of a story that ask: a class tires, and the handout is one page."""

MOST_LINES, LONGEST_LINE = 5, 100
"""Most lines of the box for one's own hub, and characters in each."""

PLACED = re.compile(
    r"\b(?:on|to) the (?:left|right)\b|\bthe (?:left|right) (?:one|hub|side)\b", re.IGNORECASE
)
"""Words that are wrong once the sides are swapped."""


TOLD_IN_CAPTION = re.compile(r"\b(?:right|loose|looser|tight|tighter|too tight|leave it)\b", re.IGNORECASE)
"""Answers to what a class is asked."""


class Told(Part):
    """A part of a story whose words must fit on the wall."""

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """No text is longer than can be read from the back of the room, and none breaks when the sides are swapped."""
        yield from super().cross_checks(values)
        for name, most in LONGEST.items():
            text = values.get(name)
            if isinstance(text, str) and len(text.strip()) > most:
                limit = f"must not be longer than {most} characters, to be read from the back of the room"
                yield FieldError(field=name, value=f"{len(text.strip())} characters", limit=limit)
            if isinstance(text, str) and (found := PLACED.search(text)):
                limit = "must name a side by its caption: the sides can be swapped"
                yield FieldError(field=name, value=f"… {found[0]} …", limit=limit)


class StorySide(ScenarioChanges, Told):
    """One side of a story: a scenario by name, what is changed in it, and what to call it."""

    scenario: str = quantity(ONE, "name of the scenario's file, without its ending")
    caption: str = quantity(ONE, "what to call this side")
    place: Place = quantity(ONE, "where its play is felt", default="rim")
    pen_mark: bool = quantity(ONE, "the cone was set from a pen mark, not by eye", default=False)
    gauged: bool = quantity(
        ONE, "its end play was read off a dial gauge along the axle, locked", default=False
    )

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """What a side is called tells nothing that the class is asked."""
        yield from super().cross_checks(values)
        caption = values.get("caption")
        if isinstance(caption, str) and (found := TOLD_IN_CAPTION.search(caption)):
            limit = "must not hold an answer: say what was done, not how it stands"
            yield FieldError(field="caption", value=f"… {found[0]} …", limit=limit)


class StoryStep(Told):
    """One step of a story.

    `ask`: "turn" asks whether to turn the cone in, out, or leave it, once clamped; "change" asks whether this step
    makes the hub tighter, looser, or neither; "compare" asks how the side stands beside the other. The answer is never
    written: it is predicted.
    """

    ask: Ask = quantity(ONE, "what the class commits to before the answer", default="nothing")
    about: About = quantity(ONE, "the side that is asked about", default="both")
    question: str = quantity(ONE, "the question", default="")
    reveal: str = quantity(ONE, "what to say once the answer is shown", default="")
    note: str = quantity(ONE, "for the teacher alone", default="")
    left_out: bool = quantity(ONE, "not a step of its own: shown with the next one", default=False)

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """A question and what it asks for go together; a step that is left out says nothing."""
        yield from super().cross_checks(values)
        if not {"ask", "question", "left_out"} <= values.keys():
            return
        ask, question = values["ask"], values["question"].strip()
        if ask != "nothing" and not question:
            yield FieldError(field="question", value=None, limit="is missing: say what the class commits to")
        if ask == "nothing" and question:
            limit = "must be 'turn', 'change' or 'compare' where there is a question"
            yield FieldError(field="ask", value=ask, limit=limit)
        if values["left_out"] and ask != "nothing":
            yield FieldError(
                field="left_out", value=True, limit="must be false for a step that asks something"
            )


class StorySteps(Part):
    """The steps of a story, by the stage each shows."""

    contact: StoryStep = StoryStep()
    backed_off: StoryStep = StoryStep()
    locked: StoryStep = StoryStep()
    clamped: StoryStep = StoryStep()
    ridden: StoryStep = StoryStep()

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """At least one step asks something, and not too many do."""
        yield from super().cross_checks(values)
        asking = [name for name in STEPS if name in values and values[name].ask != "nothing"]
        if not asking and set(STEPS) <= values.keys():
            limit = "must ask something, or another step must: a class commits somewhere"
            yield FieldError(field="clamped", value=None, limit=limit)
        if len(asking) > MOST_ASKED:
            limit = f"must not ask: at most {MOST_ASKED} steps of a story do"
            yield FieldError(field=asking[-1], value=None, limit=limit)

    @property
    def shown(self) -> tuple[str, ...]:
        """Names of the steps that are not left out; a story ends at the last of them."""
        return tuple(name for name in STEPS if not getattr(self, name).left_out)


class Story(Told):
    """A story as an instructor writes it."""

    title: str = quantity(ONE, "what the story shows")
    opening: str = quantity(ONE, "what stands side by side, told before the first step")
    note: str = quantity(ONE, "for the teacher alone: what to draw out, what to beware of", default="")
    own_hub: tuple[str, ...] = quantity(ONE, "what to try on one's own hub, line by line", default=())
    left: StorySide
    right: StorySide
    steps: StorySteps

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """The box for one's own hub fits its place."""
        yield from super().cross_checks(values)
        lines = values.get("own_hub", ())
        if len(lines) > MOST_LINES:
            limit = f"must not have more than {MOST_LINES} lines"
            yield FieldError(field="own_hub", value=f"{len(lines)} lines", limit=limit)
        for line in lines:
            if len(line) > LONGEST_LINE:
                limit = f"must not have a line of more than {LONGEST_LINE} characters"
                yield FieldError(field="own_hub", value=line, limit=limit)


@dataclass(frozen=True, slots=True, kw_only=True)
class Staged:
    """A story with both its scenarios, changes made; hashable, so it can be a cache's key."""

    story: Story
    left: Scenario
    right: Scenario

    def told_of(self, hub: Scenario) -> "Staged":
        """Return the same story with `hub` on both sides, each changed as the story says.

        Raises:
            PartProblems: what is changed does not go with that hub.
        """
        return replace(self, left=self.story.left.apply_to(hub), right=self.story.right.apply_to(hub))


def load_story(path: str | Path) -> Staged:
    """Read a story and the scenarios it names, which stand beside it or one folder up.

    Raises:
        InputProblems: what cannot be used, naming file, field, value and limit of every mistake.
    """
    path = Path(path)
    return read_story(read_bytes(path), name=path.name, folders=scenario_folders(path))


def read_story(raw: bytes, *, name: str, folders: tuple[Path, ...] = (SCENARIOS,)) -> Staged:
    """Read a story from the bytes of a file called `name`, and the scenarios it names from `folders`.

    Raises:
        InputProblems: what cannot be used, naming file, field, value and limit of every mistake.
    """
    story = read_part(Story, raw, name=name)
    sides = (("left", story.left), ("right", story.right))
    left, right = run_all(
        partial(_scenario_of, side, folders, where=f"{name}: {side_name}.") for side_name, side in sides
    )
    return Staged(story=story, left=left, right=right)


def _scenario_of(side: StorySide, folders: tuple[Path, ...], *, where: str) -> Scenario:
    """Return the scenario of a side with its changes made.

    Raises:
        InputProblems: it is not there or has mistakes, or shows one once the changes are made.
    """
    whole = find_scenario(side.scenario, folders, where=f"{where}scenario")
    try:
        return side.apply_to(whole)
    except PartProblems as error:
        raise InputProblems(Scenario.say(mistake, where=where) for mistake in error.mistakes) from None


def stories(folder: Path = STORIES) -> tuple[Path, ...]:
    """Return the story files of a folder, by name."""
    return tuple(sorted(folder.glob("*.toml")))
