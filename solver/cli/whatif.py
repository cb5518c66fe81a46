"""``hardpan whatif``: what a change of a jam does to its plan."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple, NoReturn, TypeVar

import click

import solver
from solver.cli.answering import Answer, answering, complain, json_text, leave, line_width, status_of
from solver.cli.exits import Exit
from solver.cli.options import seconds
from solver.cli.saving import page_target_of, rewritable, rewrite, save, target_of
from solver.cli.telling import telling
from solver.outcome import Planned, Progress
from solver.reading import line_finder, read_changed, read_jam, read_plan
from solver.reading.asked import Request
from solver.search.clock import Clock
from solver.sheet.changes import changes_said
from solver.sheet.edits import Source, rewritten_lines
from solver.sheet.frontier import frontier_data, frontier_text
from solver.sheet.page import frontier_page
from solver.sheet.sweep import sweep_data, sweep_text
from solver.sheet.whatif import whatif_text
from solver.sheet.whatif_data import whatif_data
from solver.whatif.compared import Use
from solver.whatif.frontier import frontier
from solver.whatif.sweep import sweep

if TYPE_CHECKING:
    from solver.reading.changed import Changed

F = TypeVar("F", bound=Callable[..., Any])

ASKED = "hardpan.asked"
"""Where the changes are kept that were asked for: option by option, as each first stands on the command line."""


def _change(option: str, metavar: str, text: str) -> Callable[[F], F]:
    """An option that asks for a change; it may be given several times."""

    def keep(ctx: click.Context, _: click.Parameter, values: tuple[str, ...]) -> None:
        ctx.meta.setdefault(ASKED, []).extend(Request(option, value) for value in values)

    return click.option(option, metavar=metavar, multiple=True, expose_value=False, callback=keep, help=text)


@click.command(name="whatif")
@click.argument("file", type=click.Path(path_type=Path))
@_change("--add-box", "NAME=FILE", "Put a box on the table.")
@_change("--remove-box", "NAME", "Take a box off the table.")
@_change("--add-part", "TOML", "One more part, such as 'hats = { on = \"reef\" }'.")
@_change("--drop-part", "NAME", "Leave out a part.")
@_change("--add-intent", "TOML", 'One more wish, such as \'separate = ["hats", "arp"]\'.')
@_change("--drop", "ID", "Leave out a statement, such as intent.3.")
@_change("--drawer", "KIND=N", "So many cables of a kind, such as din=3.")
@_change("--set", "ID=VALUE", "Another value, such as part.bass.on=reef.")
@_change("--from", "CHANGES", "Make the changes that stand in this file.")
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
    """Say what a change does to the plan of the jam in FILE: what to move, what it gains and what it costs.

    Any number of changes are made together. FILE stays as it is, unless --write is given.
    """
    asked: tuple[Request, ...] = tuple(ctx.meta.get(ASKED, ()))
    if (sweeping or trading) and (asked or against or fresh or write or out or (sweeping and trading)):
        raise click.UsageError("--sweep and --frontier are asked alone.")
    if page is not None and not trading:
        raise click.UsageError("--page goes with --frontier.")
    with answering(as_json) as answer:
        if sweeping:
            _sweep(answer, file, time_limit)
        elif trading:
            _trade(answer, file, page, time_limit)
        else:
            target = target_of(out, file) if out is not None else None
            changed = read_changed(file, asked)
            if write:
                rewritable(file)
            used = read_plan(against, changed.before) if against is not None else None
            if used is not None and solver.check(changed.before, used):
                complain([f"Note: {against} breaks rules; hardpan check {file} {against} lists them."])
            _compare(answer, changed, Use(used, fresh), Saving(write, target), time_limit)


class Saving(NamedTuple):
    """Whether the jam file is changed, and where the plan is saved."""

    write: bool
    target: Path | None


def _compare(answer: Answer, changed: Changed, use: Use, saving: Saving, time_limit: float) -> NoReturn:
    """Answer what a change does."""
    file, text = changed.file, changed.rewritten() if saving.write else changed.text
    with telling() as tell:
        found = solver.what_if(
            changed.before, changed.after, against=use.plan, fresh=use.fresh, time_limit=time_limit, progress=tell
        )
    possible = isinstance(found.has, Planned)
    said = changes_said(changed.before, changed.after, changed.changes)
    source = Source(file, changed.line, "what if")
    lines = rewritten_lines(file, changed.text, text) if saving.write and possible else []
    if lines:
        rewrite(Path(file), changed.text, text)
    answer.give(
        lambda: whatif_text(found, said, source, line_width()) + "".join(f"{line}\n" for line in ["", *lines] if lines),
        lambda: whatif_data(found, said, source) | ({"written": lines} if saving.write else {}),
    )
    if saving.write and not possible:
        complain([f"{file} stays as it is, for there is no plan after the change."])
    if saving.target is not None and isinstance(found.has, Planned):
        save(saving.target, json_text(found.has.best.to_json()))
    leave(status_of(found.has))


def _sweep(answer: Answer, file: Path, time_limit: float) -> NoReturn:
    """Answer what single changes do."""
    jam, clock = read_jam(file), Clock(time_limit)
    with telling() as tell, clock.heeding_the_user():
        found = sweep(jam, clock, lambda tried, of: tell(Progress("changes", tried, of, clock.spent)))
    source = Source(str(file), line_finder(file))
    answer.give(lambda: sweep_text(jam, found, source, line_width()), lambda: sweep_data(jam, found))
    leave(Exit.WELL if found.done else Exit.UNDECIDED)


def _trade(answer: Answer, file: Path, page: Path | None, time_limit: float) -> NoReturn:
    """Answer how many wishes can be met with how many cables."""
    target = page_target_of(page, file) if page is not None else None
    jam, clock = read_jam(file), Clock(time_limit)
    with telling() as tell, clock.heeding_the_user():
        found = frontier(jam, clock, lambda: tell(Progress("wishes", None, None, clock.spent)))
    source = Source(str(file), line_finder(file))
    answer.give(lambda: frontier_text(jam, found, source, line_width()), lambda: frontier_data(jam, found))
    if target is not None:
        save(target, frontier_page(jam, found, source))
    leave(Exit.WELL if found.done else Exit.UNDECIDED)
