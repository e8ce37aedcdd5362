"""``races``: pressure, drag, spin time and life against cone position."""

import click

from conemodel.cli.options import add_position_options, add_setting_options, read_swept
from conemodel.cli.reporting import Reported, say


@click.command()
@click.argument("scenario")
@add_setting_options
@add_position_options
@click.option("--csv", "as_csv", is_flag=True, help="print comma separated values, numbers not rounded")
def races(scenario: str, start: str, end: str, points: str, as_csv: bool, **options: str | None) -> None:
    """Print pressure, drag, spin time and life against cone position, clamped."""
    from conemodel.base.table import csv_text
    from conemodel.show.bearing.tables import list_races
    from conemodel.show.bearing.text import races_text
    from conemodel.tasks.bearing.race_sweep import sweep_races

    with Reported():
        angles, hub = read_swept(scenario, options, start, end, points)
        result = sweep_races(hub, cone_angle=angles)
        say(csv_text(list_races(result)) if as_csv else races_text(result), end="" if as_csv else "\n")
