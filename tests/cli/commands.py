"""Every command that there is, with its words, and the example that its help ends with."""

import re
from collections.abc import Iterator
from typing import NamedTuple

import click

from solver.cli import main

EXAMPLE = re.compile(r"Example(?:, with exit status (\d))?:\n +(hardpan .*)\n\Z")


class Known(NamedTuple):
    """One command, or a group of them."""

    words: tuple[str, ...]
    command: click.Command
    context: click.Context

    @property
    def line(self) -> str:
        """How it is called."""
        return " ".join(self.words)

    @property
    def example(self) -> tuple[str, int]:
        """The line at the end of its help, and the exit status that is told there."""
        found = EXAMPLE.search(self.command.get_help(self.context) + "\n")
        assert found is not None, f"{self.line} --help ends without an example"
        return found[2], int(found[1] or 0)


def _walk(command: click.Command, words: tuple[str, ...], above: click.Context | None) -> Iterator[Known]:
    settings = {"help_option_names": ["-h", "--help"]} if above is None else {}
    context = click.Context(command, info_name=words[-1], parent=above, **settings)  # type: ignore[arg-type]
    yield Known(words, command, context)
    if isinstance(command, click.Group):
        for name in command.list_commands(context):
            inner = command.get_command(context, name)
            assert inner is not None
            yield from _walk(inner, (*words, name), context)


KNOWN = tuple(_walk(main, ("hardpan",), None))
EACH = tuple(known for known in KNOWN if not isinstance(known.command, click.Group))
EXAMPLES = tuple(dict.fromkeys(known.example for known in KNOWN))
