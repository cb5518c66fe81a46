"""What ``hardpan explain`` answers: why a jam is impossible and what the ways out are, or why its plan is as it is."""

from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import NoReturn, TypeVar

import click

import solver
from solver.cli.answering import Answer, answering, give_undecided, leave, line_width
from solver.cli.exits import Exit
from solver.cli.telling import telling
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.outcome import Impossible, Undecided
from solver.reading import line_finder, read_jam_or_set, read_wish
from solver.reasons.explained import Fewer, Instead, WhyImpossible, fewer, instead
from solver.reasons.set_reasons import WhySetImpossible, WhySetPossible
from solver.reasons.set_repairs import repaired_set
from solver.reasons.whys import WhyPossible
from solver.sheet.edits import Source
from solver.sheet.explaining import explained_text
from solver.sheet.reasons_data import explained_data, fewer_data, instead_data, whys_data
from solver.sheet.set_explaining import (
    SetSource,
    replug_text,
    set_explained_data,
    set_explained_text,
    set_whys_data,
    set_whys_text,
)
from solver.sheet.set_text import set_text
from solver.sheet.text import plan_text
from solver.sheet.whys import fewer_text, instead_text, whys_text

R = TypeVar("R")


def answer(
    file: Path, *, as_json: bool, every: bool, number: int | None, why_fewer: bool, wish: str | None, time_limit: float
) -> None:
    """Answer what the options of ``hardpan explain`` ask."""
    with answering(as_json) as given:
        if [number is not None, why_fewer, wish is not None].count(True) > 1:
            raise click.UsageError("--repair, --fewer and --why-not are asked one at a time.")
        jam = read_jam_or_set(file)
        if isinstance(jam, JamSet):
            if why_fewer or wish is not None:
                raise click.UsageError("--fewer and --why-not are asked of one jam; without them, FILE may be a set.")
            _answer_set(given, jam, file, every=every, number=number, time_limit=time_limit)
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
    repair = _numbered(why.repaired.repairs, number)
    answer.give(lambda: plan_text(repair.jam, repair.planned, line_width()), repair.planned.best.to_json)
    leave(Exit.WELL)


def _answer_set(
    answer: Answer, asked: JamSet, file: Path, *, every: bool, number: int | None, time_limit: float
) -> NoReturn:
    with telling() as tell:
        found = solver.explain(asked, every=every, time_limit=time_limit, progress=tell)
    width = line_width()
    jams = {name: Source(str(file.parent / name), line_finder(file.parent / name)) for name in asked.files}
    source = SetSource(str(file), jams)
    match found:
        case WhySetImpossible() if number is not None:
            _give_repaired_set(answer, asked, found, number)
        case WhySetImpossible():
            answer.give(
                lambda: set_explained_text(asked, found, source, width),
                lambda: set_explained_data(asked, found, source),
            )
            leave(Exit.FAILED)
        case WhySetPossible() if number is not None:
            raise click.UsageError("--repair is for a set that is impossible; this one can be had.")
        case WhySetPossible():
            answer.give(lambda: set_whys_text(asked, found, source, width), lambda: set_whys_data(asked, found))
            leave(Exit.WELL)
    give_undecided(answer, asked, found)
    leave(Exit.UNDECIDED)


def _give_repaired_set(answer: Answer, asked: JamSet, why: WhySetImpossible, number: int) -> NoReturn:
    repair = _numbered(why.repaired.repairs, number)
    width = line_width()
    if repair.replug is not None:
        replug, files = repair.replug, list(asked.files)
        halves = (asked.only(files[: replug.turn]), replug.before), (asked.only(files[replug.turn :]), replug.after)
        answer.give(
            lambda: replug_text(asked, replug, [set_text(half, planned, width) for half, planned in halves], width),
            lambda: [planned.best.to_json() for _, planned in halves],
        )
        leave(Exit.WELL)
    assert repair.planned is not None
    planned, after = repair.planned, repaired_set(asked, repair)
    answer.give(lambda: set_text(after, planned, width), planned.best.to_json)
    leave(Exit.WELL)


def _numbered(found: Sequence[R], number: int) -> R:
    """The way out with a number, counted from 1."""
    if not found:
        raise click.UsageError("--repair: no way out was found in the time given.")
    if number > len(found):
        raise click.UsageError(f"--repair takes a number from 1 to {len(found)}: so many ways out were found.")
    return found[number - 1]
