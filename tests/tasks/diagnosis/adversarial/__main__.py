"""Print how well the diagnosis does on hubs and mechanics that break its assumptions, and keep it for the page."""

import click

from conemodel.tasks.validation.calibration import TOLD, Told, Trials, misses
from tests.tasks.diagnosis.adversarial.calibration import (
    HEADING,
    PUSHES,
    calibration_of,
    keep,
    line_of,
    measure,
)


@click.command()
@click.option("--hubs", default=60, show_default=True, help="how many hubs for each push")
@click.option("--seed", default=1, show_default=True)
@click.option("--push", "pushes", multiple=True, type=click.Choice([f"{p:g}" for p in PUSHES]), help="in N")
@click.option("--told", multiple=True, type=click.Choice(TOLD), help="what a check is told")
@click.option("--jobs", default=1, show_default=True, help="how many processes share the work")
@click.option("--write", is_flag=True, help="keep the counts for the page Method; needs every push and kind")
def main(
    hubs: int, seed: int, pushes: tuple[str, ...], told: tuple[Told, ...], jobs: int, write: bool
) -> None:
    """Print the table: a line for each push and for what a check is told, and what misses its goal."""
    if write and (pushes or told):
        raise click.UsageError("what is kept has every push and kind: leave out --push and --told")
    click.echo(HEADING)
    trials: list[Trials] = []
    chosen = tuple(float(push) for push in pushes) or PUSHES
    for each in measure(hubs, seed, told=told or TOLD, pushes=chosen, jobs=jobs):
        trials.append(each)
        click.echo(line_of(each))
    found = calibration_of(trials, hubs=hubs, seed=seed)
    for line in misses(found):
        click.echo(f"missed: {line}")
    if write:
        keep(found)


if __name__ == "__main__":
    main()
