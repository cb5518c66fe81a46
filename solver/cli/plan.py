"""``hardpan plan``: the plan for a jam."""

from pathlib import Path

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
from solver.documents import json_text, plan_document
from solver.jam.jam import Jam
from solver.outcome import Impossible, Outcome, Planned
from solver.reading import read_jam
from solver.sheet.answers import STOPPED
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
    """Plan cables and settings for the jam in FILE, with the fewest cables."""
    with answering(as_json) as answer:
        target = target_of(out, file) if out is not None else None
        jam = read_jam(file)
        with telling() as tell:
            outcome = solver.plan(jam, alternatives=alternatives, time_limit=time_limit, progress=tell)
        _give(answer, jam, outcome, file, alternatives)
        if target is not None and isinstance(outcome, Planned):
            save(target, json_text(plan_document(jam, outcome.best)))
        leave(status_of(outcome))


def _give(answer: Answer, jam: Jam, outcome: Outcome, file: Path, alternatives: int) -> None:
    width = line_width()
    if isinstance(outcome, Planned):
        if outcome.stopped:
            complain([STOPPED])
        others = outcome.plans[1:] if alternatives else None
        answer.give(lambda: plan_text(jam, outcome, width), lambda: plan_document(jam, outcome.best, others))
    elif isinstance(outcome, Impossible):
        give_impossible(answer, jam, str(file))
    else:
        give_undecided(answer, jam, outcome)
