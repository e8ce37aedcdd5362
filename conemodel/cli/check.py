"""``check``: what a hub most likely is, from readings."""

from pathlib import Path

import click

from conemodel.cli.options import run_both
from conemodel.cli.reporting import Reported, say, write_sheet
from conemodel.parts.toml_files import load_scenario


@click.command()
@click.argument("readings")
@click.option(
    "--hub", default=None, help="scenario file of the hub as described; a usual hub where not given"
)
@click.option("--json", "as_json", is_flag=True, help="print one JSON object, numbers not rounded")
@click.option("--pdf", default=None, help="write a sheet of A5 with answer and readings to this file")
def check(readings: str, hub: str | None, as_json: bool, pdf: str | None) -> None:
    """Print what a hub most likely is, what to do and what to measure next, from a file of READINGS."""
    from conemodel.parts.readings import load_readings
    from conemodel.show.diagnosis.sheet import check_figure
    from conemodel.show.diagnosis.text import check_json, check_text
    from conemodel.tasks.diagnosis.diagnose import diagnose

    with Reported():
        read, described = run_both(
            lambda: load_readings(readings), lambda: None if hub is None else load_scenario(hub)
        )
        result = diagnose(read, described)
        if pdf is not None:
            write_sheet("--pdf", Path(pdf), lambda: check_figure(result))
        say(check_json(result) if as_json else check_text(result))
