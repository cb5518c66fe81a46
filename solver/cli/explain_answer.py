"""What ``hardpan explain`` answers: why a jam is impossible and what the ways out are, or why its plan is as it is."""

from functools import partial
from pathlib import Path
from typing import NoReturn

import click

import solver
from solver.cli.answering import Answer, answering, give_undecided, leave, line_width
from solver.cli.exits import Exit
from solver.cli.telling import telling
from solver.jam.jam import Jam
from solver.outcome import Impossible, Undecided
from solver.reading import line_finder, read_jam, read_wish
from solver.reasons.explained import Fewer, Instead, WhyImpossible, fewer, instead
from solver.reasons.whys import WhyPossible
from solver.sheet.edits import Source
from solver.sheet.explaining import explained_text
from solver.sheet.reasons_data import explained_data, fewer_data, instead_data, whys_data
from solver.sheet.text import plan_text
from solver.sheet.whys import fewer_text, instead_text, whys_text


def answer(
    file: Path, *, as_json: bool, every: bool, number: int | None, why_fewer: bool, wish: str | None, time_limit: float
) -> None:
    """Answer what the options of ``hardpan explain`` ask."""
    with answering(as_json) as given:
        if [number is not None, why_fewer, wish is not None].count(True) > 1:
            raise click.UsageError("--repair, --fewer and --why-not are asked one at a time.")
        jam = read_jam(file)
        source = Source(str(file), line_finder(file))
        with telling() as tell:
            found: Found | WhyImpossible = Impossible(0)
            if wish is not None:
                found = instead(jam, read_wish(wish, jam, "--why-not"), time_limit, tell)
            elif why_fewer:
                found = fewer(jam, time_limit, tell)
            if isinstance(found, Impossible):  # also where another question was asked: then this comes first
                found = solver.explain(jam, every=every, time_limit=time_limit, progress=tell)
        if isinstance(found, WhyPossible) and number is not None:
            raise click.UsageError("--repair is for a jam that is impossible; this one can be had.")
        if isinstance(found, WhyImpossible) and number is not None:
            _give_repaired(given, found, number)
        if isinstance(found, WhyImpossible):
            width = line_width()
            text = partial(explained_text, jam, found, source, width, every)
            given.give(text, lambda: explained_data(jam, found, source))
            leave(Exit.FAILED)
        _give(given, jam, found, source, wish or "")


Found = WhyPossible | Fewer | Instead | Impossible | Undecided


def _give(answer: Answer, jam: Jam, found: Found, source: Source, wish: str) -> NoReturn:
    width = line_width()
    match found:
        case WhyPossible():
            answer.give(lambda: whys_text(jam, found, source, width), lambda: whys_data(jam, found))
        case Fewer():
            answer.give(lambda: fewer_text(jam, found, source, width), lambda: fewer_data(jam, found))
        case Instead():
            answer.give(lambda: instead_text(jam, wish, found, source, width), lambda: instead_data(jam, found))
            leave(Exit.WELL if found.clash is None else Exit.FAILED)
        case Undecided():
            give_undecided(answer, jam, found)
            leave(Exit.UNDECIDED)
    leave(Exit.WELL)


def _give_repaired(answer: Answer, why: WhyImpossible, number: int) -> NoReturn:
    found = why.repaired.repairs
    if not found:
        raise click.UsageError("--repair: no way out was found in the time given.")
    if number > len(found):
        raise click.UsageError(f"--repair takes a number from 1 to {len(found)}: so many ways out were found.")
    repair = found[number - 1]
    answer.give(lambda: plan_text(repair.jam, repair.planned, line_width()), repair.planned.best.to_json)
    leave(Exit.WELL)
