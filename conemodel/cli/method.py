"""``method``: published values beside what is computed for them now."""

import sys

import click

from conemodel.cli.reporting import NO_ANSWER, Reported, say


@click.command()
@click.option("--csv", "as_csv", is_flag=True, help="print comma separated values, numbers not rounded")
def method(as_csv: bool) -> None:
    """Print published values beside what is computed for them now."""
    from conemodel.base.table import csv_text
    from conemodel.show.bearing.tables import list_checks
    from conemodel.show.bearing.text import checks_text
    from conemodel.tasks.validation.method import published_checks

    with Reported():
        checks = published_checks()
        say(csv_text(list_checks(checks)) if as_csv else checks_text(checks), end="" if as_csv else "\n")
        if not all(each.holds for each in checks):
            sys.exit(NO_ANSWER)
