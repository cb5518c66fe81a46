"""The ``hardpan`` command. Each command stands in a file of its own, loaded only when it is asked for."""

import atexit
import gc

import click

import solver
from solver.cli.lazy import Lazy

COMMANDS = {
    "box": "List, show and check box files.",
    "check": "Follow the signals through a plan and list each rule it breaks.",
    "explain": "Say why a jam is impossible and what the cheapest ways out are.",
    "plan": "Plan cables and settings for a jam, with the fewest cables.",
    "whatif": "Say what a change does to a plan: what to move, what it gains and costs.",
}
"""Every command with its line of help; its file in this folder has its name."""


@click.group(
    cls=Lazy,
    name="hardpan",
    package=__name__,
    lines=COMMANDS,
    context_settings={"help_option_names": ["-h", "--help"]},
)
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
