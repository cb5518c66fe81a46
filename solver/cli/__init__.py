"""The ``hardpan`` command. Each command stands in a file of its own, loaded only when it is asked for."""

import atexit
import difflib
import gc
from importlib import import_module
from typing import Any

import click

import solver
from solver.cli.exits import STOPPED_EARLY, Exit

COMMANDS = {
    "box": "Make a box file by questions, or as a copy.",
    "check": "Follow the signals through a plan and list each rule it breaks.",
    "explain": "Say why a jam is impossible and what the cheapest ways out are.",
    "new": "Make a jam file by questions, and plan it.",
    "plan": "Plan cables and settings for a jam, with the fewest cables.",
    "whatif": "Say what a change does to a plan: what to move, what it gains and costs.",
}
"""Every command with its line of help; its file in this folder has its name."""


class Lazy(click.Group):
    """A group that knows its commands by name and loads one only to run it or to show its help."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names, for help and completion."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Load one command."""
        if cmd_name not in COMMANDS:
            return None
        command = import_module(f"solver.cli.{cmd_name}").command
        assert isinstance(command, click.Command)
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command asked for; for an unknown one, name those that look like it."""
        name = args[0]
        if name in COMMANDS or name.startswith("-"):
            return super().resolve_command(ctx, args)
        near = difflib.get_close_matches(name, COMMANDS)
        hint = f" Did you mean {' or '.join(near)}?" if near else f" The commands are {', '.join(COMMANDS)}."
        raise click.UsageError(f"There is no command {name!r}.{hint}", ctx)

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
            formatter.write_dl(list(COMMANDS.items()))


@click.group(cls=Lazy, name="hardpan", context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(solver.__version__, prog_name="hardpan", message="%(prog)s %(version)s")
def main() -> None:
    """Plan the cables and settings of a hardware jam.

    Exit status: 0 a plan, or all is well; 1 proved impossible, or a check that failed; 2 bad input or usage;
    3 not decided in the time given; 70 a mistake of hardpan's own.
    """


def run() -> None:
    """Run ``hardpan`` as a process of its own: it ends before its garbage is worth collecting."""
    gc.disable()
    atexit.register(gc.freeze)
    main(prog_name="hardpan")
