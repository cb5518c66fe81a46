"""``hardpan book``: the jams of a folder, and where each is saved."""

from pathlib import Path

import click

from solver.cli import completing
from solver.cli.options import example


@click.command(name="book", epilog=example("hardpan book scenarios/sets --box barge"))
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path, file_okay=False), default=Path())
@click.option("--box", metavar="NAME", help="Only jams with a box of this name.", shell_complete=completing.book_boxes)
@click.option(
    "--slot", metavar="TEXT", help="Only jams saved on such a slot, of that box.", shell_complete=completing.book_slots
)
@click.option("--text", metavar="TEXT", help="Only jams with this in their title, file, boxes, parts or names.")
@click.option("--json", "as_json", is_flag=True, help="Answer with one JSON document.")
def command(folder: Path, box: str | None, slot: str | None, text: str | None, as_json: bool) -> None:
    """List the jams in DIR: boxes, sets, cables, where each is saved, and whether its saved plan still holds.

    DIR is here where none is named; folders in it are looked into. A piece of a name is enough, and capitals and spaces
    do not count. Nothing is planned. Exit status: 0 all listed plans hold, 1 one is stale.
    """
    from solver.cli.book_answer import answer  # noqa: PLC0415  help and completion need no rules

    answer(folder, box, slot, text, as_json)
