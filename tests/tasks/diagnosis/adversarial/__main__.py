"""Print how well the diagnosis does on hubs and mechanics that break its assumptions."""

from typing import get_args

import click

from tests.tasks.diagnosis.adversarial.calibration import HEADING, calibrate, line_of
from tests.tasks.diagnosis.adversarial.mechanic import HARDER
from tests.tasks.diagnosis.adversarial.trial import Outcome, Told, set_up, try_all


@click.command()
@click.option("--hubs", default=60, show_default=True, help="how many hubs")
@click.option("--seed", default=1, show_default=True)
@click.option(
    "--push",
    "pushes",
    multiple=True,
    type=click.Choice([f"{push:g}" for push in HARDER]),
    help="in N, each way",
)
@click.option("--told", multiple=True, type=click.Choice(get_args(Told)), help="what is told of the push")
def main(hubs: int, seed: int, pushes: tuple[str, ...], told: tuple[Told, ...]) -> None:
    """Print the table: a line for each push and for what is told of it, and one over all pushes."""
    bench = set_up(hubs, seed)
    click.echo(HEADING)
    for tell in told or get_args(Told):
        together: list[Outcome] = []
        for push in map(float, pushes or [f"{push:g}" for push in HARDER]):
            outcomes = try_all(bench, push=push, told=tell)
            together += outcomes
            click.echo(line_of(f"{tell}, {push:g} N", calibrate(outcomes)))
        click.echo(line_of(f"{tell}, all pushes", calibrate(together)))


if __name__ == "__main__":
    main()
