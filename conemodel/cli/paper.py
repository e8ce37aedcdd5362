"""``paper``: what a hub takes to the bench and to the wall, as PDF."""

from pathlib import Path

import click

from conemodel.base.errors import InputProblems, Problem
from conemodel.cli.options import add_setting_options, read_scenario
from conemodel.cli.reporting import Reported, say, write_sheet

SIZES = {"a4": "A4", "letter": "Letter"}
"""Sheets by what they are called on the command line."""


@click.command()
@click.argument("scenario")
@add_setting_options
@click.option("--dial", default=None, help="write the cone dial, to print at full size, to this file")
@click.option(
    "--size",
    default="a4",
    type=click.Choice(list(SIZES), case_sensitive=False),
    help="sheet of the dial; a4 where not given",
)
def paper(scenario: str, dial: str | None, size: str, **options: str | None) -> None:
    """Write sheets to print for a hub: a dial to lay over its axle."""
    from conemodel.show.setting.cone_dial import cone_dial_figure

    with Reported():
        hub = read_scenario(scenario, options)
        if dial is None:
            raise InputProblems(
                [Problem(where="paper", value="", limit="has nothing to write", remedy="give --dial FILE")]
            )
        write_sheet("--dial", Path(dial), lambda: cone_dial_figure(hub, paper=SIZES[size.lower()]))
        say(f"{dial}: print it at 100 %, then measure its test lines")
