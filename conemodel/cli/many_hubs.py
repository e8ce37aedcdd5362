"""``many-hubs``: how often a fixed back-off lands in the good range, over a population."""

from pathlib import Path
from typing import Any

import click

from conemodel.cli.options import run_both
from conemodel.cli.reporting import Reported, say, tell_progress, write_picture


@click.command("many-hubs")
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
    from conemodel.base.table import csv_pieces
    from conemodel.parts.crowd import load_crowd
    from conemodel.parts.population import DEFAULT
    from conemodel.show.population.sheet import many_figure
    from conemodel.show.population.study_json import many_json
    from conemodel.show.population.tables import list_hubs
    from conemodel.show.population.text import many_text
    from conemodel.tasks.population.request import many_asked
    from conemodel.tasks.population.sampling import draws
    from conemodel.tasks.population.sobol import what_matters
    from conemodel.tasks.population.study import CHUNK
    from conemodel.tasks.population.study import many_hubs as run

    with Reported():
        crowd, asked_for = run_both(
            lambda: load_crowd(population or DEFAULT, kind=kind), lambda: many_asked(**typed)
        )
        angle = crowd.population.hands.back_off if asked_for.back_off is None else asked_for.back_off
        if as_csv:
            parts = draws(crowd, hubs=asked_for.hubs, seed=asked_for.seed, back_off=angle, chunk=CHUNK)
            for lines in csv_pieces(list_hubs(crowd, parts)):
                say(lines, end="")
        if as_csv and png is None:
            return
        study = run(crowd, hubs=asked_for.hubs, seed=asked_for.seed, back_off=angle, progress=tell_progress)
        matters = what_matters(crowd, seed=asked_for.seed, back_off=angle)
        if png is not None:
            write_picture(Path(png), lambda: many_figure(study, matters))
        if not as_csv:
            say(many_json(study, matters) if as_json else many_text(study, matters))
