"""``hardpan export``: the patch sheet of a plan, as files."""

from __future__ import annotations

from pathlib import Path

import click

from solver.cli.options import example, seconds


@click.command(name="export", epilog=example("hardpan export scenarios/low-tide.toml --to low-tide.html"))
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--to",
    "targets",
    metavar="SHEET",
    type=click.Path(path_type=Path),
    multiple=True,
    required=True,
    help="Write this file; its ending says what it is. May be given several times.",
)
@click.option("--jam", metavar="JAM", type=click.Path(path_type=Path), help="The jam of a plan that carries none.")
@click.option("--in", "inside", metavar="JAM", help="Of a set: one of its jams, for any kind of file.")
@click.option("--json", "as_json", is_flag=True, help="Answer with one JSON document.")
@click.option(
    "--time-limit", metavar="SECONDS", type=float, default=60.0, callback=seconds, help="Stop then (60 by default)."
)
def command(  # noqa: PLR0917  one argument an option
    file: Path, targets: tuple[Path, ...], jam: Path | None, inside: str | None, as_json: bool, time_limit: float
) -> None:
    """Write the patch sheet of the plan in FILE, or of a jam or set in FILE, which is planned first.

    The ending of SHEET says what is made: .html a page to tick off and to print, .md and .txt a text, .csv a table
    for spreadsheets, .svg the drawing, .mid a line check to play, .json the plan with its jam. Of a set, .html, .txt,
    .svg and .json are made; with --in, all of them of one jam.
    """
    from solver.cli.export_answer import Wanted, answer  # noqa: PLC0415  help and completion need no solver

    answer(file, targets, Wanted(jam, inside, as_json, time_limit))
