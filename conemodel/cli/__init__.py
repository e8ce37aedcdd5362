"""The command line: ``python -m conemodel``. The same use cases as the screens, from a shell; a file a command.

A command imports what it solves and shows with only when it is run, so that help and refusals come at once.
"""

import click

from conemodel._version import __version__
from conemodel.cli.card import card
from conemodel.cli.check import check
from conemodel.cli.feel import feel
from conemodel.cli.many_hubs import many_hubs
from conemodel.cli.measure import measure
from conemodel.cli.method import method
from conemodel.cli.paper import paper
from conemodel.cli.predict import predict
from conemodel.cli.races import races
from conemodel.cli.real_hub import real_hub
from conemodel.cli.serve import serve
from conemodel.cli.sweep import sweep


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, message="conemodel %(version)s")
def main() -> None:
    """What a cup-and-cone hub becomes after the locknut and the clamp.

    Follow the maker's instructions and local rules; have a qualified mechanic check a wheel before it is ridden.
    """


for _command in (
    card,
    check,
    feel,
    many_hubs,
    measure,
    method,
    paper,
    predict,
    races,
    real_hub,
    serve,
    sweep,
):
    main.add_command(_command)
