"""``hardpan explain``: why a jam is impossible and what the ways out are, or why its plan is as it is."""

from pathlib import Path
from typing import NoReturn, TypeVar

import click

import solver
from solver.cli.answering import Answer, answering, give_impossible, give_undecided, leave, line_width
from solver.cli.exits import Exit
from solver.cli.options import seconds
from solver.cli.telling import telling
from solver.jam.jam import Jam
from solver.outcome import Impossible, Undecided
from solver.reading import line_finder, read_jam, read_wish
from solver.reasons.explained import Fewer, Instead, WhyImpossible, fewer, instead
from solver.sheet.explaining import Source, explained_text
from solver.sheet.reasons_data import explained_data, fewer_data, instead_data, whys_data
from solver.sheet.text import plan_text
from solver.sheet.whys import fewer_text, instead_text, whys_text

T = TypeVar("T", Fewer, Instead)


@click.command(name="explain")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Answer with one JSON document.")
@click.option("--all", "every", is_flag=True, help="List every conflict, however long that takes.")
@click.option("--repair", "number", metavar="N", type=click.IntRange(min=1), help="Show the plan with way out N.")
@click.option("--fewer", "why_fewer", is_flag=True, help="Say why one cable less would not do.")
@click.option("--why-not", "wish", metavar="TOML", help="Ask for one keep or avoid more, such as 'keep = {...}'.")
@click.option(
    "--time-limit", metavar="SECONDS", type=float, default=60.0, callback=seconds, help="Stop then (60 by default)."
)
def command(  # noqa: PLR0917  one argument an option
    file: Path, as_json: bool, every: bool, number: int | None, why_fewer: bool, wish: str | None, time_limit: float
) -> None:
    """Say why the jam in FILE is impossible and what the ways out are, or why its plan is as it is."""
    with answering(as_json) as answer:
        if [number is not None, why_fewer, wish is not None].count(True) > 1:
            raise click.UsageError("--repair, --fewer and --why-not are asked one at a time.")
        jam = read_jam(file)
        source = Source(str(file), line_finder(file))
        if wish is not None:
            _give_instead(answer, jam, wish, source, time_limit)
        if why_fewer:
            _give_fewer(answer, jam, source, time_limit)
        with telling() as tell:
            why = solver.explain(jam, every=every, time_limit=time_limit, progress=tell)
        if isinstance(why, Undecided):
            give_undecided(answer, jam, why)
            leave(Exit.UNDECIDED)
        if isinstance(why, WhyImpossible):
            _give_impossible(answer, jam, why, source, number)
        if number is not None:
            raise click.UsageError("--repair is for a jam that is impossible; this one can be had.")
        answer.give(lambda: whys_text(jam, why, source, line_width()), lambda: whys_data(jam, why))


def _give_impossible(answer: Answer, jam: Jam, why: WhyImpossible, source: Source, number: int | None) -> NoReturn:
    width, found = line_width(), why.repaired.repairs
    if number is None:
        answer.give(lambda: explained_text(jam, why, source, width), lambda: explained_data(jam, why, source))
        leave(Exit.FAILED)
    if number > len(found):
        raise click.UsageError(f"--repair takes a number from 1 to {len(found)}: so many ways out were found.")
    repair = found[number - 1]
    answer.give(lambda: plan_text(repair.jam, repair.planned, width), repair.planned.best.to_json)
    leave(Exit.WELL)


def _give_fewer(answer: Answer, jam: Jam, source: Source, time_limit: float) -> NoReturn:
    with telling() as tell:
        asked = fewer(jam, time_limit, tell)
    found = _of_a_plan(answer, jam, asked, source)
    answer.give(lambda: fewer_text(jam, found, source, line_width()), lambda: fewer_data(jam, found))
    leave(Exit.WELL)


def _give_instead(answer: Answer, jam: Jam, text: str, source: Source, time_limit: float) -> NoReturn:
    wish = read_wish(text, jam, "--why-not")
    with telling() as tell:
        asked = instead(jam, wish, time_limit, tell)
    found = _of_a_plan(answer, jam, asked, source)
    answer.give(lambda: instead_text(jam, text, found, source, line_width()), lambda: instead_data(jam, found))
    leave(Exit.WELL if found.clash is None else Exit.FAILED)


def _of_a_plan(answer: Answer, jam: Jam, found: T | Impossible | Undecided, source: Source) -> T:
    """What was found of a plan; where there is none, the command ends here."""
    if isinstance(found, Undecided):
        give_undecided(answer, jam, found)
        leave(Exit.UNDECIDED)
    if isinstance(found, Impossible):
        give_impossible(answer, jam, source.file)
        leave(Exit.FAILED)
    return found
