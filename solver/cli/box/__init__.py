"""``hardpan box``: box files. Each command stands in a file of its own, loaded only when it is asked for."""

import click

from solver.cli.lazy import Lazy
from solver.cli.options import example

COMMANDS = {
    "schema": "Print the JSON Schema of a kind of file, for editors.",
}
"""Every command with its line of help; its file in this folder has its name."""


@click.group(cls=Lazy, name="box", lines=COMMANDS, package=__name__, epilog=example("hardpan box schema"))
def command() -> None:
    """Tell of box files."""
