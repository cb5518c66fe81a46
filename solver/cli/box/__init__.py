"""``hardpan box``: what is done with box files alone. Each command stands in a file of its own."""

import click

from solver.cli.lazy import Lazy

COMMANDS = {
    "check": "List what is wrong in box files, and what looks doubtful.",
    "list": "List the box files at hand.",
    "show": "Show what a box can do.",
}
"""Every command with its line of help; its file in this folder has its name."""


@click.group(cls=Lazy, name="box", package=__name__, lines=COMMANDS)
def command() -> None:
    """List, show and check box files. Each of these commands takes --json for one JSON document."""
