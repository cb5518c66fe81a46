"""``hardpan plan``: the plan for a jam or a set."""

from pathlib import Path
from typing import Any

import click

import solver
from solver.cli.answering import (
    Answer,
    answering,
    complain,
    give_impossible,
    give_undecided,
    leave,
    line_width,
    status_of,
)
from solver.cli.options import example, seconds
from solver.cli.saving import save, target_of
from solver.cli.telling import telling
from solver.documents import json_text, plan_document, set_document
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.outcome import Impossible, Outcome, Planned, PlannedSet, SetOutcome, Undecided
from solver.reading import read_jam_or_set
from solver.sheet.answers import STOPPED
from solver.sheet.set_text import set_text
from solver.sheet.text import plan_text

MOST_ALTERNATIVES = 99


def _counted(_: click.Context, __: click.Parameter, number: int) -> int:
    if not 0 <= number <= MOST_ALTERNATIVES:
        raise click.BadParameter(f"takes a whole number from 0 to {MOST_ALTERNATIVES}.")
    return number


@click.command(name="plan", epilog=example("hardpan plan scenarios/low-tide.toml --alternatives 2"))
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Answer with one JSON document.")
@click.option("--alternatives", metavar="N", type=int, default=0, callback=_counted, help="Show the next best N, too.")
@click.option(
    "--time-limit", metavar="SECONDS", type=float, default=60.0, callback=seconds, help="Stop then (60 by default)."
)
@click.option("--out", metavar="PLAN", type=click.Path(path_type=Path), help="Save the plan in this file, as JSON.")
def command(file: Path, as_json: bool, alternatives: int, time_limit: float, out: Path | None) -> None:
    """Plan cables and settings for the jam or set in FILE, with the fewest cables."""
    with answering(as_json) as answer:
        target = target_of(out, file) if out is not None else None
        asked = read_jam_or_set(file)
        with telling() as tell:
            outcome = solver.plan(asked, alternatives=alternatives, time_limit=time_limit, progress=tell)
        _give(answer, asked, outcome, file, alternatives)
        if target is not None and isinstance(outcome, Planned | PlannedSet):
            save(target, json_text(_document(asked, outcome)))
        leave(status_of(outcome))


def _give(answer: Answer, asked: Jam | JamSet, outcome: Outcome | SetOutcome, file: Path, alternatives: int) -> None:
    width = line_width()
    if isinstance(outcome, Impossible):
        give_impossible(answer, asked, str(file))
    elif isinstance(outcome, Undecided):
        give_undecided(answer, asked, outcome)
    else:
        if outcome.stopped:
            complain([STOPPED])
        others = bool(alternatives)
        answer.give(lambda: _as_text(asked, outcome, width), lambda: _document(asked, outcome, others))


def _as_text(asked: Jam | JamSet, planned: Planned | PlannedSet, width: int) -> str:
    if isinstance(asked, JamSet):
        assert isinstance(planned, PlannedSet)
        return set_text(asked, planned, width)
    assert isinstance(planned, Planned)
    return plan_text(asked, planned, width)


def _document(asked: Jam | JamSet, planned: Planned | PlannedSet, others: bool = False) -> dict[str, Any]:
    """The best plan as it is saved, with the next ones where they were asked for."""
    if isinstance(asked, JamSet):
        assert isinstance(planned, PlannedSet)
        return set_document(asked, planned.best, planned.plans[1:] if others else None)
    assert isinstance(planned, Planned)
    return plan_document(asked, planned.best, planned.plans[1:] if others else None)
