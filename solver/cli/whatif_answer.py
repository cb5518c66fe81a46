"""What ``hardpan whatif`` answers: what a change of a jam does to its plan, or what single changes do."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple, NoReturn

import click

import solver
from solver.cli.answering import Answer, answering, complain, leave, line_width, status_of
from solver.cli.exits import Exit
from solver.cli.found_boxes import notes_of_shipped
from solver.cli.saving import rewritable, rewrite, save, target_of
from solver.cli.telling import telling
from solver.cli.whatif_set_answer import answer_set
from solver.documents import json_text, plan_document
from solver.outcome import Planned, Progress
from solver.reading import is_set_file, line_finder, read_changed, read_jam, read_plan
from solver.reading.asked import Request
from solver.search.clock import Clock
from solver.sheet.changes import changes_said
from solver.sheet.edits import Source, rewritten_lines
from solver.sheet.frontier import frontier_data, frontier_text
from solver.sheet.sweep import sweep_data, sweep_text
from solver.sheet.whatif import whatif_text
from solver.sheet.whatif_data import whatif_data
from solver.whatif.compared import Use
from solver.whatif.frontier import frontier
from solver.whatif.sweep import sweep

if TYPE_CHECKING:
    from solver.cli.whatif import Asked
    from solver.reading.changed import Changed

SET_OPTIONS = ("--add-jam", "--drop-jam")


def answer(file: Path, asked: Asked) -> None:
    """Answer what a change of the jam in a file does, or what single changes do."""
    with answering(asked.as_json) as given:
        if is_set_file(file):
            answer_set(given, file, asked)
        if any(option in SET_OPTIONS for option, _ in asked.changes) or asked.inside is not None:
            raise click.UsageError("--add-jam, --drop-jam and --in are for a set; FILE is no set.")
        if asked.sweeping:
            _sweep(given, file, asked.time_limit)
        elif asked.trading:
            _trade(given, file, asked.page, asked.time_limit)
        else:
            target = target_of(asked.out, file) if asked.out is not None else None
            changed = read_changed(file, [Request(option, value) for option, value in asked.changes])
            if asked.write:
                rewritable(file)
            used = read_plan(asked.against, changed.before) if asked.against is not None else None
            if used is not None and solver.check(changed.before, used):
                complain([f"Note: {asked.against} breaks rules; hardpan check {file} {asked.against} lists them."])
            _compare(given, changed, Use(used, asked.fresh), Saving(asked.write, target), asked.time_limit)


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
    if lines:
        complain(notes_of_shipped(changed.box_files))
    if saving.write and not possible:
        complain([f"{file} stays as it is, for there is no plan after the change."])
    if saving.target is not None and isinstance(found.has, Planned):
        save(saving.target, json_text(plan_document(changed.after, found.has.best)))
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
    target = target_of(page, file, ".html") if page is not None else None
    jam, clock = read_jam(file), Clock(time_limit)
    with telling() as tell, clock.heeding_the_user():
        found = frontier(jam, clock, lambda: tell(Progress("wishes", None, None, clock.spent)))
    source = Source(str(file), line_finder(file))
    answer.give(lambda: frontier_text(jam, found, source, line_width()), lambda: frontier_data(jam, found))
    if target is not None:
        from solver.sheet.page import frontier_page  # noqa: PLC0415  only a page needs templates

        save(target, frontier_page(jam, found, source))
    leave(Exit.WELL if found.done else Exit.UNDECIDED)
