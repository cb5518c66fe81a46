"""``hardpan box schema``: the JSON Schema of a kind of file."""

from typing import get_args

import click

from solver.cli.options import Word, example
from solver.schemas import Kind, schema_file


@click.command(name="schema", epilog=example("hardpan box schema jam"))
@click.argument("kind", metavar="[KIND]", type=Word(get_args(Kind)), default="box")
def command(kind: Kind) -> None:
    """Print the JSON Schema (draft 2020-12) of a KIND of file: box (without KIND), jam or set.

    Save it, and tell your editor to check and complete your TOML files by it.
    """
    click.echo(schema_file(kind).read_bytes(), nl=False)
