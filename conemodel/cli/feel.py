"""``feel``: what a hand finds that turns the hub."""

import click

from conemodel.cli.options import add_setting_options, read_scenario
from conemodel.cli.reporting import Reported, say


@click.command()
@click.argument("scenario")
@add_setting_options
@click.option("--bench", is_flag=True, help="turn it locked on the bench, not clamped in the frame")
@click.option("--csv", "as_csv", is_flag=True, help="print the torque at each angle of the wheel")
def feel(scenario: str, bench: bool, as_csv: bool, **options: str | None) -> None:
    """Print what a hand finds that turns the hub, and what the cone cannot put right."""
    from conemodel.base.table import csv_text
    from conemodel.show.bearing.tables import list_torque
    from conemodel.show.bearing.text import feel_text
    from conemodel.show.formatting import STAGE_WORDS
    from conemodel.tasks.bearing.feel_when_turned import signature
    from conemodel.tasks.setting.defects import defects_of

    stage = "locked" if bench else "clamped"
    with Reported():
        hub = read_scenario(scenario, options)
        found = signature(hub, stage=stage)
        words = feel_text(hub.name, STAGE_WORDS[stage], found, defects_of(hub))
        say(csv_text(list_torque(found)) if as_csv else words, end="" if as_csv else "\n")
