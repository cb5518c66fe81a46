"""``hardpan box``: what is done with box files alone. Each command stands in a file of its own."""

import click

from solver.cli.lazy import Lazy
from solver.cli.options import example

COMMANDS = {
    "check": "List what is wrong in box files, and what looks doubtful.",
    "list": "List the box files at hand.",
    "new": "Make a box file by questions, or as a copy.",
    "schema": "Print the JSON Schema of a kind of file, for editors.",
    "show": "Show what a box can do.",
}
"""Every command with its line of help; its file in this folder has its name."""


@click.group(cls=Lazy, name="box", lines=COMMANDS, package=__name__, epilog=example("hardpan box list"))
def command() -> None:
    """Make, list, show and check box files, and print what may stand in them."""
