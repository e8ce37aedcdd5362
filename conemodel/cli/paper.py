"""``paper``: what a hub takes to the bench and to the wall, as PDF."""

from pathlib import Path

import click

from conemodel.base.errors import InputProblems, Problem
from conemodel.cli.options import add_setting_options, read_scenario
from conemodel.cli.reporting import Reported, say, write_sheet

SIZES = {"a3": "A3", "a4": "A4", "letter": "Letter"}
"""Sheets by what they are called on the command line."""


@click.command()
@click.argument("scenario")
@add_setting_options
@click.option("--dial", default=None, help="write the cone dial, to print at full size, to this file")
@click.option("--wall-chart", default=None, help="write how far the cone is backed off by clamp to this file")
@click.option(
    "--size",
    default="a4",
    type=click.Choice(list(SIZES), case_sensitive=False),
    help="of the sheets; a4 where not given",
)
def paper(scenario: str, dial: str | None, wall_chart: str | None, size: str, **options: str | None) -> None:
    """Write sheets to print for a hub: a dial to lay over its axle, a chart for the wall."""
    from conemodel.show.setting.cone_dial import cone_dial_figure
    from conemodel.show.setting.wall_chart import wall_chart_figure

    with Reported():
        hub, sheet = read_scenario(scenario, options), SIZES[size.lower()]
        if dial is None and wall_chart is None:
            remedy = "give --dial FILE, --wall-chart FILE or both"
            raise InputProblems(
                [Problem(where="paper", value="", limit="has nothing to write", remedy=remedy)]
            )
        if dial is not None:
            write_sheet("--dial", Path(dial), lambda: cone_dial_figure(hub, paper=sheet))
            say(f"{dial}: print it at 100 %, then measure its test lines")
        if wall_chart is not None:
            write_sheet("--wall-chart", Path(wall_chart), lambda: wall_chart_figure(hub, paper=sheet))
            say(f"{wall_chart}: for the wall")
