"""Options that several commands share, and how they are read."""

from collections.abc import Callable
from typing import Any

import click
import numpy as np

from conemodel.base.errors import InputProblems, Problem, run_all
from conemodel.base.typed_numbers import parse_whole
from conemodel.cli.reporting import say
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.setting.overrides import apply_overrides, cone_position, list_overridden, option_problems

MOST_POINTS = 2000
"""Most positions a sweep takes."""

SETTING_OPTIONS = (
    ("back-off", "how far the cone is turned out from finger contact: 1/4, 0.25 or 90deg"),
    ("technique", "nut turned, cone turned out, or both"),
    ("lock-torque", "torque at the locknut [N·m]"),
    ("drift", "how far the held cone still turns in [°]"),
    ("cone-held", "a spanner holds the cone: yes or no"),
    ("contact-found", "finger contact was found with the nut loose or the nut snug on the cone"),
    ("axle-held", "vice, far spanners, or nothing"),
    ("clamp-seat", "dropouts, spacers on locknuts, spacer on axle end, or one side in frame"),
    ("clamp-force", "force of the closed clamp [N]"),
    ("thread-slack", "axial slack of the cone on its thread, if measured [mm]"),
    ("limit-rim-play", "free play at the rim that still counts as none [mm]"),
    ("limit-torque", "turning torque from preload that is still good [N·mm]"),
    ("limit-pressure", "pressure on the cone from preload that is still good [MPa]"),
    ("limit-life", "share of the best fatigue life that is still good"),
)


def add_setting_options(command: Any) -> Any:
    """Add to a command every option that changes a setting; values are read by `tasks.setting.overrides`."""
    for name, help_text in reversed(SETTING_OPTIONS):
        command = click.option(f"--{name}", name.replace("-", "_"), default=None, help=help_text)(command)
    return command


def add_position_options(command: Any) -> Any:
    """Add to a command the options that say at which cone positions; values are read by `parse_cone_angles`."""
    for option in (
        click.option("--points", default="31", help="number of positions"),
        click.option("--to", "end", default="1/3", help="last cone position [turn]"),
        click.option(
            "--from", "start", default="-1/24", help="first cone position, out from finger contact [turn]"
        ),
    ):
        command = option(command)
    return command


def read_scenario(path: str, options: dict[str, str | None]) -> Scenario:
    """Return the scenario of a file with the options over it, and say which measured value of the file gives way.

    Raises:
        InputProblems: every mistake of the file and of the options together.
    """
    given = {name.replace("_", "-"): text for name, text in options.items() if text is not None}
    try:
        scenario = load_scenario(path)
    except InputProblems as error:
        raise InputProblems([*error.problems, *option_problems(given)]) from None
    for words in list_overridden(scenario, given):
        say(words, err=True)
    return apply_overrides(scenario, given)


def run_both(first: Callable[[], Any], second: Callable[[], Any]) -> tuple[Any, Any]:
    """Run both and return their results, so that the mistakes of both are reported together.

    Raises:
        InputProblems: the mistakes of both together.
    """
    one, other = run_all((first, second))
    return one, other


def read_swept(
    path: str, options: dict[str, str | None], start: str, end: str, points: str
) -> tuple[Any, Scenario]:
    """Return the cone positions of a sweep [rad] and the scenario it is of, with the options over it.

    Raises:
        InputProblems: every mistake of positions, file and options together.
    """
    return run_both(lambda: parse_cone_angles(start, end, points), lambda: read_scenario(path, options))


def parse_cone_angles(start: str, end: str, points: str) -> Any:
    """Return the cone positions from `start` to `end` [rad], shape (points,).

    Raises:
        InputProblems: every mistake in the three texts.
    """
    problems: list[Problem] = []
    turns: list[float] = []
    for name, text in (("--from", start), ("--to", end)):
        try:
            turns.append(cone_position(text))
        except ValueError as error:
            problems.append(Problem(where=name, value=text[:60], limit=str(error)))
    count = 2
    try:
        count = parse_whole(points, least=2, most=MOST_POINTS)
    except ValueError as error:
        problems.append(Problem(where="--points", value=points[:60], limit=str(error)))
    if not problems and turns[0] >= turns[1]:
        problems.append(Problem(where="--to", value=end[:60], limit=f"must be above --from, {start[:60]}"))
    if problems:
        raise InputProblems(problems)
    return np.linspace(turns[0], turns[1], count)
