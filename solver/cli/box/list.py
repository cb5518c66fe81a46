"""``hardpan box list``: the box files at hand."""

from pathlib import Path

import click

from solver.boxes import your_folder
from solver.cli.answering import answering, line_width
from solver.cli.options import example
from solver.codes import Code
from solver.reading.at_hand import Shelf
from solver.reading.problems import BadInput, Problem
from solver.sheet.boxes import boxes_data, boxes_text


@click.command(name="list", epilog=example("hardpan box list scenarios"))
@click.argument("folder", type=click.Path(path_type=Path), default=Path())
@click.option("--json", "as_json", is_flag=True, help="Answer with one JSON document.")
def command(folder: Path, as_json: bool) -> None:
    """List the box files at hand for a jam in FOLDER, or here where none is named.

    They stand beside the jam (in FOLDER or in a folder "boxes" there), in your own folder, or come with hardpan.
    """
    with answering(as_json) as answer:
        if not folder.is_dir():
            raise BadInput(
                [Problem(Code.NO_FILE, str(folder), None, "", "no such folder", "a folder with box files or jams")]
            )
        at_hand, yours = Shelf(folder).all, your_folder()
        answer.give(lambda: boxes_text(at_hand, yours, line_width()), lambda: boxes_data(at_hand, folder, yours))
