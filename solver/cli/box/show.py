"""``hardpan box show``: what a box can do, and how it stands."""

import click

from solver.cli import completing
from solver.cli.answering import answering, line_width
from solver.cli.options import example
from solver.reading import read_box
from solver.reading.at_hand import box_file
from solver.sheet.box import box_data, box_text


@click.command(name="show", epilog=example("hardpan box show scenarios/boxes/barge.toml"))
@click.argument("file", shell_complete=completing.box_files)
@click.option("--json", "as_json", is_flag=True, help="Answer with one JSON document.")
def command(file: str, as_json: bool) -> None:
    """Show what the box in FILE can do and how it stands.

    FILE is a path, or the name of a box file at hand without .toml.
    """
    with answering(as_json) as answer:
        path = box_file(file)
        box = read_box(path)
        answer.give(lambda: box_text(box, path, line_width()), lambda: box_data(box, path))
