"""``hardpan check``: whether a plan keeps every rule."""

from pathlib import Path

import click

import solver
from solver.checking import Breach
from solver.cli.answering import answering, complain, give_breaches, leave
from solver.cli.exits import Exit
from solver.cli.options import example
from solver.flow.own_words import misstated, set_misstated
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.reading import read_jam_or_set, read_plan, read_set_plan

WELL = "All is well: the plan keeps every rule.\n"


@click.command(name="check", epilog=example("hardpan check scenarios/low-tide.toml docs/by-hand.json", 1))
@click.argument("file", type=click.Path(path_type=Path))
@click.argument("plan", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Answer with one JSON document.")
def command(file: Path, plan: Path, as_json: bool) -> None:
    """Follow the signals through the plan in PLAN for FILE, a jam or set, and list each rule it breaks.

    The plan may have been written or edited by hand.
    """
    with answering(as_json) as answer:
        jam = read_jam_or_set(file)
        breaches, notes = _judged(jam, plan)
        complain(f"Note: {note}" for note in notes)
        give_breaches(answer, jam, breaches, notes, WELL)
        leave(Exit.FAILED if breaches else Exit.WELL)


def _judged(jam: Jam | JamSet, plan: Path) -> tuple[tuple[Breach, ...], list[str]]:
    """What is broken, and what the plan says of itself that is not so."""
    if isinstance(jam, Jam):
        read = read_plan(plan, jam)
        return solver.check(jam, read), list(misstated(jam, read))
    of_set = read_set_plan(plan, jam)
    return solver.check(jam, of_set), list(set_misstated(jam, of_set))
