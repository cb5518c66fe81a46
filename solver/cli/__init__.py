"""The ``hardpan`` command. Each command stands in a file of its own, loaded only when it is asked for."""

import atexit
import gc
import os

import click

import solver
from solver.cli.exits import MEANINGS
from solver.cli.lazy import Lazy
from solver.cli.options import example

COMMANDS = {
    "book": "List the jams of a folder, and where each is saved.",
    "box": "Make, list, show and check box files; print the schema of a file.",
    "check": "Follow the signals through a plan and list each rule it breaks.",
    "completion": "Let your shell complete commands, options and names.",
    "explain": "Say why a jam is impossible and what the cheapest ways out are.",
    "export": "Write the patch sheet of a plan as files: a page, a text, a table, the plan itself.",
    "new": "Make a jam file by questions, and plan it.",
    "plan": "Plan cables and settings for a jam, with the fewest cables.",
    "trace": "Follow one part from its track to your ears, with its levels.",
    "whatif": "Say what a change does to a plan: what to move, what it gains and costs.",
}
"""Every command with its line of help; its file in this folder has its name."""

HELP = f"""Plan the cables and settings of a hardware jam.

Exit status: {"; ".join(f"{status} {meaning}" for status, meaning in MEANINGS.items())}.
"""


@click.group(
    cls=Lazy,
    name="hardpan",
    help=HELP,
    lines=COMMANDS,
    package=__name__,
    epilog=example("hardpan plan scenarios/low-tide.toml"),
    context_settings={"help_option_names": ["-h", "--help"]},
)
@click.version_option(solver.__version__, prog_name="hardpan", message="%(prog)s %(version)s")
def main() -> None:
    """The group of all commands."""


ASKS_TO_COMPLETE = "_HARDPAN_COMPLETE"
"""The environment variable with which the scripts of ``hardpan completion`` ask; click reads it."""


def run() -> None:
    """Run ``hardpan`` as a process of its own: it ends before its garbage is worth collecting."""
    gc.disable()
    atexit.register(gc.freeze)
    if ASKS_TO_COMPLETE in os.environ:
        from solver.cli.shells import register  # noqa: PLC0415  only shells that complete need it

        register()
    main(prog_name="hardpan")
