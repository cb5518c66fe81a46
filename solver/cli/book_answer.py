"""What ``hardpan book`` answers."""

from __future__ import annotations

from pathlib import Path

from solver.book.entries import book_of
from solver.book.sought import Sought
from solver.cli.answering import answering, leave, line_width
from solver.cli.exits import Exit
from solver.codes import Code
from solver.reading.problems import BadInput, Problem
from solver.sheet.book import book_data, book_text


def answer(folder: Path, box: str | None, slot: str | None, text: str | None, as_json: bool) -> None:
    """Answer what a folder holds."""
    with answering(as_json) as given:
        if not folder.is_dir():
            raise BadInput([Problem(Code.NO_FILE, str(folder), None, "", "no such folder", "a folder with jams")])
        whole = book_of(folder)
        found = Sought(box, slot, text).found_in(whole)
        given.give(lambda: book_text(found, whole, line_width()), lambda: book_data(found))
        leave(Exit.FAILED if found.stale else Exit.WELL)
