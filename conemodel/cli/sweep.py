"""``sweep``: end play and preload against cone position."""

from pathlib import Path

import click

from conemodel.cli.options import add_position_options, add_setting_options, read_swept
from conemodel.cli.reporting import Reported, say, write_picture


@click.command()
@click.argument("scenario")
@add_setting_options
@add_position_options
@click.option("--csv", "as_csv", is_flag=True, help="print comma separated values, numbers not rounded")
@click.option("--png", "png", default=None, help="write the curves to this file")
def sweep(
    scenario: str, start: str, end: str, points: str, as_csv: bool, png: str | None, **options: str | None
) -> None:
    """Print end play and preload against cone position, before and after clamping."""
    from conemodel.base.table import csv_text
    from conemodel.show.setting.setting_sheet import sweep_figure
    from conemodel.show.setting.tables import list_sweep
    from conemodel.show.setting.text import sweep_text
    from conemodel.tasks.setting.predict import predict
    from conemodel.tasks.setting.sweep import sweep as run

    with Reported():
        angles, hub = read_swept(scenario, options, start, end, points)
        result = run(hub, cone_angle=angles)
        if png is not None:
            write_picture(Path(png), lambda: sweep_figure(result, predict(hub)))
        say(csv_text(list_sweep(result)) if as_csv else sweep_text(result))
