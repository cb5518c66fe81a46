"""``hardpan box``: commands about box files. Each stands in a file of its own, loaded only when it is asked for."""

from importlib import import_module

import click

COMMANDS = {
    "new": "Make a box file by questions, or as a copy.",
}
"""Every command about boxes with its line of help; its file in this folder has its name."""


class Lazy(click.Group):
    """A group that knows its commands by name and loads one only to run it or to show its help."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names, for help and completion."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Load one command."""
        if cmd_name not in COMMANDS:
            return None
        command = import_module(f"solver.cli.box.{cmd_name}").command
        assert isinstance(command, click.Command)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands without loading them."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.group(cls=Lazy, name="box")
def command() -> None:
    """Make box files. Each command takes --json for one JSON document."""
