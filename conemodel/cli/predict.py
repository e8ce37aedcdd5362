"""``predict``: the five stages of a setting and the verdict."""

import click

from conemodel.cli.options import add_setting_options, read_scenario
from conemodel.cli.reporting import Reported, say


@click.command()
@click.argument("scenario")
@add_setting_options
@click.option("--json", "as_json", is_flag=True, help="print one JSON object, numbers not rounded")
def predict(scenario: str, as_json: bool, **options: str | None) -> None:
    """Print the five stages of a setting and the verdict."""
    from conemodel.show.setting.prediction_json import prediction_json
    from conemodel.show.setting.text import prediction_text
    from conemodel.tasks.setting.predict import predict as run

    with Reported():
        result = run(read_scenario(scenario, options))
        say(prediction_json(result) if as_json else prediction_text(result))
