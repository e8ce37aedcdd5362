"""``predict``: the five stages of a setting and the verdict."""

from pathlib import Path

import click

from conemodel.cli.options import add_setting_options, read_scenario
from conemodel.cli.reporting import Reported, say, write_picture


@click.command()
@click.argument("scenario")
@add_setting_options
@click.option("--json", "as_json", is_flag=True, help="print one JSON object, numbers not rounded")
@click.option("--png", "png", default=None, help="write the closing gap, stage under stage, to this file")
def predict(scenario: str, as_json: bool, png: str | None, **options: str | None) -> None:
    """Print the five stages of a setting and the verdict."""
    from conemodel.show.setting.closing_gap_paint import closing_gap_figure
    from conemodel.show.setting.prediction_json import prediction_json
    from conemodel.show.setting.text import prediction_text
    from conemodel.tasks.setting.predict import predict as run

    with Reported():
        result = run(read_scenario(scenario, options))
        if png is not None:
            write_picture(Path(png), lambda: closing_gap_figure(result))
        say(prediction_json(result) if as_json else prediction_text(result))
