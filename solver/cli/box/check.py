"""``hardpan box check``: what is wrong in box files, and what looks doubtful."""

import click

from solver.cli import completing
from solver.cli.answering import answering, leave
from solver.cli.exits import Exit
from solver.cli.options import example
from solver.reading.at_hand import box_file
from solver.reading.box_checks import Looked, look_over
from solver.reading.problems import BadInput
from solver.sheet.boxes import checks_data, checks_text


@click.command(name="check", epilog=example("hardpan box check scenarios/boxes/barge.toml"))
@click.argument("files", metavar="FILE...", nargs=-1, required=True, shell_complete=completing.box_files)
@click.option("--json", "as_json", is_flag=True, help="Answer with one JSON document.")
def command(files: tuple[str, ...], as_json: bool) -> None:
    """List what is wrong in box files, and what looks doubtful, each with its line.

    FILE is a path, or the name of a box file at hand without .toml. An error is something that a box file cannot say; a
    doubt is something that it can say and rarely means. Exit status: 0 no error, 2 errors.
    """
    with answering(as_json) as answer:
        checked = [_looked(word) for word in files]
        answer.give(lambda: checks_text(checked), lambda: checks_data(checked))
        leave(Exit.BAD_INPUT if any(one.problems for one in checked) else Exit.WELL)


def _looked(word: str) -> Looked:
    try:
        return look_over(box_file(word))
    except BadInput as error:
        return Looked(word, None, error.problems)
