"""``hardpan whatif``: what a change of a jam does to its plan."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple, TypeVar

import click

from solver.cli import completing
from solver.cli.options import example, seconds

F = TypeVar("F", bound=Callable[..., Any])

ASKED = "hardpan.asked"
"""Where the changes are kept that were asked for: option by option, as each first stands on the command line."""


class Asked(NamedTuple):
    """What the options of ``hardpan whatif`` ask; ``changes`` are options with their values, as the line goes."""

    changes: tuple[tuple[str, str], ...]
    inside: str | None
    against: Path | None
    fresh: bool
    sweeping: bool
    trading: bool
    page: Path | None
    write: bool
    out: Path | None
    as_json: bool
    time_limit: float


def _change(
    option: str, metavar: str, text: str, complete: completing.Complete = completing.nothing
) -> Callable[[F], F]:
    """An option that asks for a change; it may be given several times."""

    def keep(ctx: click.Context, _: click.Parameter, values: tuple[str, ...]) -> None:
        ctx.meta.setdefault(ASKED, []).extend((option, value) for value in values)

    return click.option(
        option, metavar=metavar, multiple=True, expose_value=False, callback=keep, help=text, shell_complete=complete
    )


@click.command(name="whatif", epilog=example("hardpan whatif scenarios/low-tide.toml --set intent.3.with.ducking=60"))
@click.argument("file", type=click.Path(path_type=Path))
@_change(
    "--add-box", "NAME=FILE", "Put a box on the table, by its file or the name of one at hand.", completing.named_boxes
)
@_change("--remove-box", "NAME", "Take a box off the table.", completing.boxes)
@_change("--add-part", "TOML", "One more part, such as 'hats = { on = \"reef\" }'.")
@_change("--drop-part", "NAME", "Leave out a part.", completing.parts)
@_change("--add-intent", "TOML", 'One more wish, such as \'separate = ["hats", "arp"]\'.')
@_change("--drop", "ID", "Leave out a statement, such as intent.3.", completing.statements)
@_change("--drawer", "KIND=N", "So many cables of a kind, such as din=3.", completing.cables)
@_change("--set", "ID=VALUE", "Another value, such as part.bass.on=reef.", completing.values)
@_change("--from", "CHANGES", "Make the changes that stand in this file.", completing.files)
@_change("--add-jam", "FILE", "Of a set: let this jam join, as the last.", completing.files)
@_change("--drop-jam", "JAM", "Of a set: leave this jam out.", completing.jams)
@click.option(
    "--in", "inside", metavar="JAM", help="Of a set: the other changes are this jam's.", shell_complete=completing.jams
)
@click.option("--against", metavar="PLAN", type=click.Path(path_type=Path), help="The plan in use; else the jam's own.")
@click.option("--fresh", is_flag=True, help="Let plugs move wherever that saves settings.")
@click.option("--sweep", "sweeping", is_flag=True, help="Try single changes: what may break, one more, one wish less.")
@click.option("--frontier", "trading", is_flag=True, help="Show how many wishes can be met with how many cables.")
@click.option("--page", metavar="FILE", type=click.Path(path_type=Path), help="With --frontier: save it as a web page.")
@click.option("--write", is_flag=True, help="Make the changes in FILE, too; nothing else in it changes.")
@click.option("--out", metavar="PLAN", type=click.Path(path_type=Path), help="Save the plan after the change.")
@click.option("--json", "as_json", is_flag=True, help="Answer with one JSON document.")
@click.option(
    "--time-limit", metavar="SECONDS", type=float, default=60.0, callback=seconds, help="Stop then (60 by default)."
)
@click.pass_context
def command(  # noqa: PLR0917  one argument an option
    ctx: click.Context,
    file: Path,
    inside: str | None,
    against: Path | None,
    fresh: bool,
    sweeping: bool,
    trading: bool,
    page: Path | None,
    write: bool,
    out: Path | None,
    as_json: bool,
    time_limit: float,
) -> None:
    """Say what a change does to the plan of the jam or set in FILE: what to move, what it gains and what it costs.

    Any number of changes are made together. FILE stays as it is, unless --write is given.
    """
    changes: tuple[tuple[str, str], ...] = tuple(ctx.meta.get(ASKED, ()))
    if (sweeping or trading) and (changes or against or fresh or write or out or (sweeping and trading)):
        raise click.UsageError("--sweep and --frontier are asked alone.")
    if page is not None and not trading:
        raise click.UsageError("--page goes with --frontier.")
    from solver.cli.whatif_answer import answer  # noqa: PLC0415  help and completion need no solver

    answer(file, Asked(changes, inside, against, fresh, sweeping, trading, page, write, out, as_json, time_limit))
