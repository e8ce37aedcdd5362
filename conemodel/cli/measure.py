"""``measure``: slack, clamp, finger contact and the turn, from plays read at pen marks of the cone."""

from pathlib import Path

import click

from conemodel.cli.options import run_both
from conemodel.cli.real_hub import USUAL
from conemodel.cli.reporting import Reported, say, write_picture
from conemodel.parts.toml_files import load_scenario


@click.command("measure")
@click.argument("readings")
@click.option(
    "--hub", default=None, help="scenario file of the hub as described; a usual rear hub where not given"
)
@click.option("--json", "as_json", is_flag=True, help="print one JSON object, numbers not rounded")
@click.option("--png", "png", default=None, help="write the fitted lines and what was read to this file")
def measure(readings: str, hub: str | None, as_json: bool, png: str | None) -> None:
    """Print what plays in READINGS, read at pen marks of the cone, tell of a hub: the turn, or what to read next."""
    from conemodel.parts.library import SCENARIOS
    from conemodel.parts.measured_hub import load_measured_hub
    from conemodel.show.real_hub.chart import real_hub_figure
    from conemodel.show.real_hub.measured_text import measured_json, measured_text
    from conemodel.tasks.real_hub.next_reading import measure_hub

    with Reported():
        found, described = run_both(
            lambda: load_measured_hub(readings),
            lambda: load_scenario(SCENARIOS / USUAL if hub is None else hub),
        )
        measuring = measure_hub(described, found)
        if png is not None:
            write_picture(Path(png), lambda: real_hub_figure(measuring.fitted))
        say(measured_json(measuring) if as_json else measured_text(measuring))
