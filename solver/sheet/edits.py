"""Changes as edits of the jam file: where, the old text and the new one."""

from __future__ import annotations

import shlex
from collections.abc import Callable, Sequence
from pathlib import PurePath
from typing import NamedTuple

from solver.reading.writing import exact
from solver.reasons.edits import Edit
from solver.sheet.claims import Path


class Source(NamedTuple):
    """The jam file: its path, and the line on which a path of keys stands, or None where it does not say it.

    ``elsewhere`` names where that is said, if not in the file.
    """

    file: str
    line: Callable[[Path], int | None]
    elsewhere: str = ""

    @property
    def shell(self) -> str:
        """The path as a command line takes it."""
        return shlex.quote(self.file)


def place(source: Source, found: Sequence[int | None]) -> str:
    """The file and the lines in it, from the first to the last."""
    file = PurePath(source.file).name
    known = sorted({line for line in found if line is not None})
    if not known:
        return source.elsewhere or file
    return f"{file}:{known[0]}" + (f"-{known[-1]}" if len(known) > 1 else "")


def edit_text(edit: Edit, source: Source) -> str:
    """The change as an edit of the jam file: where, the old text and the new one."""
    key = str(edit.path[-1])
    where = place(source, [source.line(edit.path)])
    if edit.path[0] == "boxes":
        return "On the table, not in the file."
    if len(edit.path) == 2 and edit.path[0] == "part":
        return f"{where}: leave out [part.{edit.path[1]}], also where intents name it"
    if len(edit.path) == 2 and edit.path[0] == "intent":
        added = ", ".join(f"{key} = {exact(value)}" for key, value in (edit.new or {}).items())
        return (
            f"{place(source, [])}: add an [[intent]] with {added}" if added else f"{where}: leave out this [[intent]]"
        )
    key = key if key.replace("-", "").replace("_", "").isalnum() else exact(key)
    if edit.old is None:
        return f"{where}: add {key} = {exact(edit.new)}"
    if edit.new is None:
        return f"{where}: leave out {key} = {exact(edit.old)}"
    return f"{where}: {key} = {exact(edit.old)} -> {key} = {exact(edit.new)}"
