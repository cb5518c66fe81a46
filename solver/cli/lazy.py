"""A group of commands, each in a file of its own that is loaded only when it is asked for."""

from __future__ import annotations

import difflib
from importlib import import_module
from typing import Any

import click
from click.shell_completion import CompletionItem

from solver.cli.exits import STOPPED_EARLY, Exit


class Lazy(click.Group):
    """A group that knows its commands by name and loads one only to run it or to show its help.

    Args:
        lines: Every command with its line of help; its file in the package has its name, and ``command`` in it.
        package: Where the files are.
    """

    def __init__(self, *args: Any, lines: dict[str, str], package: str, **named: Any) -> None:
        super().__init__(*args, **named)
        self.lines = lines
        self._package = package

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names, for help and completion."""
        return list(self.lines)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Load one command."""
        if cmd_name not in self.lines:
            return None
        command = import_module(f"{self._package}.{cmd_name}").command
        assert isinstance(command, click.Command)
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command asked for; for an unknown one, name those that look like it."""
        name = args[0]
        if name in self.lines or name.startswith("-") or ctx.resilient_parsing:
            return super().resolve_command(ctx, args)
        near = difflib.get_close_matches(name, self.lines)
        hint = f" Did you mean {' or '.join(near)}?" if near else f" The commands are {', '.join(self.lines)}."
        asked = " ".join([*ctx.command_path.split()[1:], name])
        raise click.UsageError(f"There is no command {asked!r}.{hint}", ctx)

    def shell_complete(self, ctx: click.Context, incomplete: str) -> list[CompletionItem[str]]:
        """The names that begin so, with their lines, without loading them; and the group's own options."""
        names = [CompletionItem(name, help=line) for name, line in self.lines.items() if name.startswith(incomplete)]
        return names + click.Command.shell_complete(self, ctx, incomplete)

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
            formatter.write_dl(list(self.lines.items()))
