"""``real-hub``: thread slack, clamp and the hand's own thresholds, from what was counted on a real hub."""

from pathlib import Path

import click

from conemodel.cli.options import run_both
from conemodel.cli.reporting import Reported, say, write_picture
from conemodel.parts.toml_files import load_scenario

USUAL = "touring-rear.toml"
"""The ready hub that is taken where none is given."""


@click.command("real-hub")
@click.argument("readings")
@click.option(
    "--hub", default=None, help="scenario file of the hub as described; a usual rear hub where not given"
)
@click.option("--json", "as_json", is_flag=True, help="print one JSON object, numbers not rounded")
@click.option("--png", "png", default=None, help="write the model's lines and your marks to this file")
def real_hub(readings: str, hub: str | None, as_json: bool, png: str | None) -> None:
    """Print what READINGS counted on a real hub tell of its thread, its clamp and the hand that felt it."""
    from conemodel.parts.library import SCENARIOS
    from conemodel.parts.real_hub import load_real_hub
    from conemodel.show.real_hub.chart import real_hub_figure
    from conemodel.show.real_hub.text import real_hub_json, real_hub_text
    from conemodel.tasks.real_hub.fit import fit_real_hub
    from conemodel.tasks.real_hub.readings import readings_in

    with Reported():
        found, described = run_both(
            lambda: load_real_hub(readings), lambda: load_scenario(SCENARIOS / USUAL if hub is None else hub)
        )
        fitted = fit_real_hub(described, readings_in(found))
        if png is not None:
            write_picture(Path(png), lambda: real_hub_figure(fitted))
        say(real_hub_json(found, fitted) if as_json else real_hub_text(found, fitted))
