"""A group of commands, each in a file of its own that is loaded only when the command is asked for."""

import difflib
from collections.abc import Mapping
from importlib import import_module
from typing import Any

import click

from solver.cli.exits import STOPPED_EARLY, Exit


class Lazy(click.Group):
    """A group that knows its commands by name and loads one only to run it or to show its help.

    Args:
        package: the folder of the commands as Python names it; each has a file there, or a folder, of its name.
        lines: every command with its line of help.
        given: what click asks of a group.
    """

    def __init__(self, *, package: str, lines: Mapping[str, str], **given: Any) -> None:
        super().__init__(**given)
        self._package = package
        self._lines = lines

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names, for help and completion."""
        return list(self._lines)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Load one command."""
        if cmd_name not in self._lines:
            return None
        command = import_module(f"{self._package}.{cmd_name}").command
        assert isinstance(command, click.Command)
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command asked for; for an unknown one, name those that look like it."""
        name = args[0]
        if name in self._lines or name.startswith("-"):
            return super().resolve_command(ctx, args)
        near = difflib.get_close_matches(name, self._lines)
        hint = f" Did you mean {' or '.join(near)}?" if near else f" The commands are {', '.join(self._lines)}."
        asked = " ".join([*ctx.command_path.split()[1:], name])
        raise click.UsageError(f"There is no command {asked!r}.{hint}", ctx)

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; one that is stopped before it answers has decided nothing."""
        try:
            return super().invoke(ctx)
        except KeyboardInterrupt:
            click.echo(STOPPED_EARLY, err=True)
            ctx.exit(Exit.UNDECIDED)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands without loading them."""
        with formatter.section("Commands"):
            formatter.write_dl(list(self._lines.items()))
