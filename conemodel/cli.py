"""The command line: ``python -m conemodel``. The same use cases as the screens, from a shell."""

import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import click
import numpy as np

from conemodel.base.errors import ConemodelError, InputProblems, Problem
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.setting.overrides import asked, option_problems, parse_turn

BAD_INPUT = 2
"""Exit code where what was given cannot be used."""

NO_ANSWER = 1
"""Exit code where the model found no answer."""

MOST_POINTS = 2000
"""Most positions a sweep takes."""

SETTING_OPTIONS = (
    ("back-off", "how far the cone is turned out from finger contact: 1/4, 0.25 or 90deg"),
    ("technique", "nut turned, cone turned out, or both"),
    ("lock-torque", "torque at the locknut [N·m]"),
    ("drift", "how far the held cone still turns in [°]"),
    ("cone-held", "a spanner holds the cone: yes or no"),
    ("slack-taken", "the locknut was snug on the cone when play was judged: yes or no"),
    ("axle-held", "vice, far spanners, or nothing"),
    ("clamp-seat", "dropouts, spacers on locknuts, spacer on axle end, or one side in frame"),
    ("clamp-force", "force of the closed clamp [N]"),
    ("thread-slack", "axial slack of the cone on its thread, if measured [mm]"),
    ("limit-rim-play", "free play at the rim that still counts as none [mm]"),
    ("limit-torque", "turning torque from preload that is still good [N·mm]"),
    ("limit-pressure", "pressure on the cone from preload that is still good [MPa]"),
    ("limit-life", "share of the best fatigue life that is still good"),
)


def setting_options(command: Any) -> Any:
    """Give a command every option that changes a setting; values are read by `tasks.setting.overrides`."""
    for name, help_text in reversed(SETTING_OPTIONS):
        command = click.option(f"--{name}", name.replace("-", "_"), default=None, help=help_text)(command)
    return command


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
def main() -> None:
    """What a cup-and-cone hub becomes after the locknut and the clamp.

    Follow the maker's instructions and local rules; have a qualified mechanic check a wheel before it is ridden.
    """


@main.command()
@click.argument("scenario")
@setting_options
@click.option("--json", "as_json", is_flag=True, help="print one JSON object, numbers not rounded")
def predict(scenario: str, as_json: bool, **options: str | None) -> None:
    """Print the five stages of a setting and the verdict."""
    from conemodel.show.setting.rows import prediction_json
    from conemodel.show.setting.text import prediction_text
    from conemodel.tasks.setting.predict import predict as run

    with _Reported():
        result = run(_asked_scenario(scenario, options))
        click.echo(prediction_json(result) if as_json else prediction_text(result))


@main.command()
@click.argument("scenario")
@setting_options
@click.option("--from", "start", default="-1/24", help="first cone position, out from finger contact [turn]")
@click.option("--to", "end", default="1/3", help="last cone position [turn]")
@click.option("--points", default="31", help="number of positions")
@click.option("--csv", "as_csv", is_flag=True, help="print comma separated values, numbers not rounded")
@click.option("--png", "png", default=None, help="write the curves to this file")
def sweep(
    scenario: str, start: str, end: str, points: str, as_csv: bool, png: str | None, **options: str | None
) -> None:
    """Print end play and preload against cone position, before and after clamping."""
    from conemodel.show.setting.rows import sweep_csv
    from conemodel.show.setting.text import sweep_text
    from conemodel.tasks.setting.sweep import sweep as run

    with _Reported():
        angles, hub = _both(lambda: _angles(start, end, points), lambda: _asked_scenario(scenario, options))
        result = run(hub, cone_angle=angles)
        if png is not None:
            _write_png(Path(png), result, hub)
        click.echo(sweep_csv(result) if as_csv else sweep_text(result))


@main.command()
@click.argument("scenario")
@setting_options
@click.option("--from", "start", default="-1/24", help="first cone position, out from finger contact [turn]")
@click.option("--to", "end", default="1/3", help="last cone position [turn]")
@click.option("--points", default="31", help="number of positions")
@click.option("--csv", "as_csv", is_flag=True, help="print comma separated values, numbers not rounded")
def races(scenario: str, start: str, end: str, points: str, as_csv: bool, **options: str | None) -> None:
    """Print pressure, drag, spin time and life against cone position, clamped."""
    from conemodel.show.bearing.rows import races_csv
    from conemodel.show.bearing.text import races_text
    from conemodel.tasks.bearing.race_sweep import sweep_races

    with _Reported():
        angles, hub = _both(lambda: _angles(start, end, points), lambda: _asked_scenario(scenario, options))
        result = sweep_races(hub, cone_angle=angles)
        click.echo(races_csv(result) if as_csv else races_text(result), nl=not as_csv)


@main.command()
@click.argument("scenario")
@setting_options
@click.option("--bench", is_flag=True, help="turn it locked on the bench, not clamped in the frame")
@click.option("--csv", "as_csv", is_flag=True, help="print the torque at each angle of the wheel")
def feel(scenario: str, bench: bool, as_csv: bool, **options: str | None) -> None:
    """Print what a hand finds that turns the hub, and what the cone cannot put right."""
    from conemodel.show.bearing.rows import torque_csv
    from conemodel.show.bearing.text import feel_text
    from conemodel.show.formatting import STAGE_WORDS
    from conemodel.tasks.bearing.defects import troubles_of
    from conemodel.tasks.bearing.feel_when_turned import signature

    stage = "locked" if bench else "clamped"
    with _Reported():
        hub = _asked_scenario(scenario, options)
        found = signature(hub, stage=stage)
        words = feel_text(hub.name, STAGE_WORDS[stage], found, troubles_of(hub))
        click.echo(torque_csv(found) if as_csv else words, nl=not as_csv)


@main.command()
@click.option("--csv", "as_csv", is_flag=True, help="print comma separated values, numbers not rounded")
def method(as_csv: bool) -> None:
    """Print published values beside what is computed for them now."""
    from conemodel.show.bearing.rows import checks_csv
    from conemodel.show.bearing.text import checks_text
    from conemodel.tasks.validation.method import published_checks

    with _Reported():
        checks = published_checks()
        click.echo(checks_csv(checks) if as_csv else checks_text(checks), nl=not as_csv)
        if not all(each.holds for each in checks):
            sys.exit(NO_ANSWER)


@main.command("many-hubs")
@click.argument("population", required=False)
@click.option("--hubs", default=None, help="how many hubs to draw, 100000 where not given")
@click.option("--seed", default="1", help="a whole number; the same seed gives the same numbers")
@click.option(
    "--kind", default=None, help="look at one kind of the population's hubs only, by its file's name"
)
@click.option("--back-off", default=None, help="fixed back-off asked about: 1/4, 0.25 or 90deg")
@click.option("--csv", "as_csv", is_flag=True, help="print a line for each hub, numbers not rounded")
@click.option("--json", "as_json", is_flag=True, help="print one JSON object, numbers not rounded")
@click.option("--png", "png", default=None, help="write the pictures to this file")
def many_hubs(
    population: str | None, kind: str | None, as_csv: bool, as_json: bool, png: str | None, **typed: Any
) -> None:
    """Print how often a fixed back-off lands in the good range, over a POPULATION of hubs given as a file."""
    from conemodel.parts.population import DEFAULT, load_crowd
    from conemodel.show.population.charts import many_figure
    from conemodel.show.population.rows import many_csv, many_json
    from conemodel.show.population.text import many_text
    from conemodel.tasks.population.request import many_asked
    from conemodel.tasks.population.sampling import draws
    from conemodel.tasks.population.sobol import what_matters
    from conemodel.tasks.population.study import CHUNK
    from conemodel.tasks.population.study import many_hubs as run

    with _Reported():
        crowd, asked_for = _both(
            lambda: load_crowd(population or DEFAULT, kind=kind), lambda: many_asked(**typed)
        )
        angle = crowd.population.hands.back_off if asked_for.back_off is None else asked_for.back_off
        if as_csv:
            parts = draws(crowd, hubs=asked_for.hubs, seed=asked_for.seed, back_off=angle, chunk=CHUNK)
            for lines in many_csv(crowd, parts):
                click.echo(lines, nl=False)
        if as_csv and png is None:
            return
        study = run(crowd, hubs=asked_for.hubs, seed=asked_for.seed, back_off=angle, progress=_Told())
        matters = what_matters(crowd, seed=asked_for.seed, back_off=angle)
        if png is not None:
            _write_picture(Path(png), lambda: many_figure(study, matters))
        if not as_csv:
            click.echo(many_json(study, matters) if as_json else many_text(study, matters))


class _Told:
    """Tells a person at a terminal how far a long study has come; a pipe is told nothing."""

    def __call__(self, done: float) -> None:
        if sys.stderr.isatty():
            click.echo(f"\r{done:4.0%}" if done < 1 else "\r    \r", err=True, nl=False)


@main.command()
@click.argument("readings")
@click.option(
    "--hub", default=None, help="scenario file of the hub as described; a usual hub where not given"
)
@click.option("--json", "as_json", is_flag=True, help="print one JSON object, numbers not rounded")
def check(readings: str, hub: str | None, as_json: bool) -> None:
    """Print what a hub most likely is, what to do and what to measure next, from a file of READINGS."""
    from conemodel.parts.readings import load_readings
    from conemodel.show.diagnosis.text import check_json, check_text
    from conemodel.tasks.diagnosis.diagnose import diagnose

    with _Reported():
        read, described = _both(
            lambda: load_readings(readings), lambda: None if hub is None else load_scenario(hub)
        )
        result = diagnose(read, described)
        click.echo(check_json(result) if as_json else check_text(result))


class _Reported:
    """Turns the package's own errors into a message and an exit code, never a traceback."""

    def __enter__(self) -> None:
        pass

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: object) -> None:
        if isinstance(error, InputProblems):
            click.echo(str(error), err=True)
            sys.exit(BAD_INPUT)
        if isinstance(error, ConemodelError):
            click.echo(f"no answer: {error}", err=True)
            sys.exit(NO_ANSWER)


def _asked_scenario(path: str, options: dict[str, str | None]) -> Scenario:
    """Return the scenario of a file with the options over it; mistakes of both are reported together."""
    given = {name.replace("_", "-"): text for name, text in options.items() if text is not None}
    try:
        scenario = load_scenario(path)
    except InputProblems as error:
        raise InputProblems([*error.problems, *option_problems(given)]) from None
    return asked(scenario, given)


def _both(first: Callable[[], Any], second: Callable[[], Any]) -> tuple[Any, Any]:
    """Return both results, or raise the mistakes of both together."""
    found: list[Any] = []
    problems: list[Problem] = []
    for work in (first, second):
        try:
            found.append(work())
        except InputProblems as error:
            problems += error.problems
    if problems:
        raise InputProblems(problems)
    return found[0], found[1]


def _angles(start: str, end: str, points: str) -> Any:
    """Return the cone positions of a sweep [rad]. Errors: `InputProblems`."""
    problems: list[Problem] = []
    turns: list[float] = []
    for name, text in (("--from", start), ("--to", end)):
        try:
            turns.append(parse_turn(text))
        except ValueError as error:
            problems.append(Problem(where=name, value=text[:60], limit=str(error)))
    if not points.isdecimal() or not 2 <= int(points[:6]) <= MOST_POINTS:
        limit = f"must be a whole number from 2 to {MOST_POINTS}"
        problems.append(Problem(where="--points", value=points[:60], limit=limit))
    if not problems and turns[0] >= turns[1]:
        problems.append(Problem(where="--to", value=end, limit=f"must be above --from, {start}"))
    if problems:
        raise InputProblems(problems)
    return np.linspace(turns[0], turns[1], int(points))


def _write_png(path: Path, result: Any, hub: Scenario) -> None:
    """Write the curves of a sweep as a picture. Errors: `InputProblems` where the file cannot be written."""
    from conemodel.show.setting.setting_sheet import sweep_figure
    from conemodel.tasks.setting.predict import predict as run

    _write_picture(path, lambda: sweep_figure(result, run(hub)))


def _write_picture(path: Path, draw: Callable[[], Any]) -> None:
    """Write a figure as PNG. Errors: `InputProblems` where the file cannot be written."""
    from conemodel.show.setting.setting_sheet import to_png

    try:
        path.write_bytes(to_png(draw()))
    except OSError as error:
        problem = Problem(
            where=f"--png {path}", value="", limit="cannot be written", remedy=error.strerror or ""
        )
        raise InputProblems([problem]) from None
