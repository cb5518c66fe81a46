"""``hardpan whatif``: what a change of a jam does to its plan."""

from __future__ import annotations

from collections.abc import Callable
from difflib import unified_diff
from pathlib import Path
from typing import Any, TypeVar

import click

import solver
from solver.cli.answering import answering, complain, json_text, leave, line_width
from solver.cli.exits import Exit
from solver.cli.options import seconds
from solver.cli.saving import save, target_of
from solver.cli.telling import telling
from solver.outcome import Impossible, Outcome, Planned
from solver.reading import read_changed, read_plan
from solver.reading.asked import Request
from solver.sheet.changes import changes_said
from solver.sheet.edits import Source
from solver.sheet.whatif import whatif_text
from solver.sheet.whatif_data import whatif_data

F = TypeVar("F", bound=Callable[..., Any])

ASKED = "hardpan.asked"
"""Where the changes are kept that were asked for, in the order of the command line."""


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
    write: bool,
    out: Path | None,
    as_json: bool,
    time_limit: float,
) -> None:
    """Say what a change does to the plan of the jam in FILE: what to move, what it gains and what it costs.

    Any number of changes are made together. FILE stays as it is, unless --write is given.
    """
    with answering(as_json) as answer:
        target = target_of(out, file) if out is not None else None
        changed = read_changed(file, ctx.meta.get(ASKED, ()))
        text = changed.rewritten() if write else ""
        used = read_plan(against, changed.before) if against is not None else None
        with telling() as tell:
            found = solver.what_if(
                changed.before, changed.after, against=used, fresh=fresh, time_limit=time_limit, progress=tell
            )
        said = changes_said(changed.before, changed.after, changed.changes)
        source = Source(str(file), changed.line, "what if")
        answer.give(lambda: whatif_text(found, said, source, line_width()), lambda: whatif_data(found, said, source))
        if target is not None and isinstance(found.has, Planned):
            save(target, json_text(found.has.best.to_json()))
        if write:
            _write(file, changed.text, text)
        leave(_status(found.has))


def _write(file: Path, old: str, new: str) -> None:
    """Put the changes into the file, and show which lines they are."""
    save(file.resolve(), new)
    lines = unified_diff(old.splitlines(), new.splitlines(), str(file), str(file), n=0, lineterm="")
    complain([f"{file} is changed:", *list(lines)[2:]] if new != old else [f"{file} stays as it is."])


def _status(outcome: Outcome) -> Exit:
    if isinstance(outcome, Planned):
        return Exit.WELL
    return Exit.FAILED if isinstance(outcome, Impossible) else Exit.UNDECIDED
