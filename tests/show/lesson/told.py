"""The ready stories, each predicted once."""

from functools import cache

from conemodel.parts.lesson import STORIES, load_story, stories
from conemodel.tasks.lesson.lesson import Played, play_story

EVERY = [path.stem for path in stories()]


@cache
def played(name: str) -> Played:
    return play_story(load_story(STORIES / f"{name}.toml"))
