"""``hardpan completion``: the script with which a shell completes command lines of hardpan."""

import sys

import click

from solver.cli.options import Word, example

INSTALL = {
    "bash": (
        'For this shell only:     eval "$(hardpan completion bash)"',
        "For every shell to come: hardpan completion bash > ~/.hardpan-completion.bash",
        "                         echo 'source ~/.hardpan-completion.bash' >> ~/.bashrc",
    ),
    "zsh": (
        'For this shell only:     eval "$(hardpan completion zsh)"',
        "For every shell to come: hardpan completion zsh > ~/.hardpan-completion.zsh",
        "                         echo 'source ~/.hardpan-completion.zsh' >> ~/.zshrc",
        "Both need compinit to have run before: autoload -Uz compinit && compinit",
    ),
    "fish": (
        "For this shell only:     hardpan completion fish | source",
        "For every shell to come: hardpan completion fish > ~/.config/fish/completions/hardpan.fish",
    ),
}
"""How each shell gets its script."""


@click.command(name="completion", epilog=example("hardpan completion bash"))
@click.argument("shell", metavar="SHELL", type=Word(list(INSTALL)))
def command(shell: str) -> None:
    """Print the script with which SHELL (bash, zsh or fish) completes command lines of hardpan.

    It completes commands, options, files, kinds of cable, and the parts, boxes and statements of the jam on the line.
    On a terminal, it also says how to install it.
    """
    from solver.cli import ASKS_TO_COMPLETE, main  # noqa: PLC0415  they know this command
    from solver.cli.shells import SHELLS  # noqa: PLC0415  only here and while completing

    click.echo(SHELLS[shell](main, {}, "hardpan", ASKS_TO_COMPLETE).source(), nl=False)
    if is_terminal():
        click.echo("\n".join(("", *INSTALL[shell])), err=True)


def is_terminal() -> bool:
    """Whether the answer is seen as it comes."""
    return sys.stdout is not None and sys.stdout.isatty()
