"""What ``hardpan whatif`` answers of a set."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

import solver
from solver.cli.answering import Answer, complain, leave, line_width, status_of
from solver.cli.found_boxes import notes_of_shipped
from solver.cli.saving import rewritable, rewrite, save, target_of
from solver.cli.telling import telling
from solver.documents import json_text, set_document
from solver.outcome import PlannedSet
from solver.reading import line_finder, read_set_plan
from solver.reading.asked import Request
from solver.reading.set_changes import ChangedSet
from solver.sheet.changes import changes_said
from solver.sheet.edits import Source, rewritten_lines
from solver.sheet.set_explaining import SetSource
from solver.sheet.set_whatif import set_whatif_data, set_whatif_text

if TYPE_CHECKING:
    from solver.cli.whatif import Asked


def answer_set(given: Answer, file: Path, asked: Asked) -> NoReturn:
    """Answer what a change of the set in a file does."""
    if asked.sweeping or asked.trading:
        raise click.UsageError("--sweep and --frontier are asked of one jam; FILE is a set.")
    target = target_of(asked.out, file) if asked.out is not None else None
    changed = ChangedSet(str(file), asked.inside, [Request(option, value) for option, value in asked.changes])
    files = changed.rewritten() if asked.write else []
    for one in files:
        rewritable(Path(one.file))
    used = read_set_plan(asked.against, changed.before) if asked.against is not None else None
    if used is not None and solver.check(changed.before, used):
        complain([f"Note: {asked.against} breaks rules; hardpan check {file} {asked.against} lists them."])
    with telling() as tell:
        found = solver.what_if(
            changed.before,
            changed.after,
            against=used,
            fresh=asked.fresh,
            time_limit=asked.time_limit,
            progress=tell,
        )
    said = [*changed.said, *_said_inside(changed)]
    source = _source(changed)
    possible = isinstance(found.has, PlannedSet)
    lines = [line for one in files if possible for line in rewritten_lines(*one)]
    for one in files if possible else ():
        rewrite(Path(one.file), one.old, one.new)
    written = "".join(f"{line}\n" for line in ["", *lines] if lines)
    given.give(
        lambda: set_whatif_text(found, said, source, line_width()) + written,
        lambda: set_whatif_data(found, said, source) | ({"written": lines} if asked.write else {}),
    )
    if lines and changed.inner is not None:
        complain(notes_of_shipped(changed.inner[1].box_files))
    if asked.write and not possible:
        complain([f"{file} stays as it is, for there is no plan after the change."])
    if target is not None and isinstance(found.has, PlannedSet):
        save(target, json_text(set_document(changed.after, found.has.best)))
    leave(status_of(found.has))


def _said_inside(changed: ChangedSet) -> list[str]:
    if changed.inner is None:
        return []
    name, inner = changed.inner
    title = changed.before.files[name].title
    return [f"in {title}, {said}" for said in changes_said(inner.before, inner.after, inner.changes)]


def _source(changed: ChangedSet) -> SetSource:
    """The files, with lines for the jam that changes after the changes."""
    folder = Path(changed.file).parent
    jams = {name: Source(str(folder / name), line_finder(folder / name)) for name in changed.after.files}
    if changed.inner is not None:
        name, inner = changed.inner
        jams[name] = Source(inner.file, inner.line, "what if")
    return SetSource(changed.file, jams)
