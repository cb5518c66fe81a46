"""Changes as edits of the jam file: where, the old text and the new one."""

from __future__ import annotations

import shlex
from collections.abc import Callable, Sequence
from difflib import SequenceMatcher
from pathlib import PurePath
from typing import NamedTuple

from solver.reading.writing import exact
from solver.reasons.edits import Edit
from solver.sheet.cells import clean
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


def rewritten_lines(file: str, old: str, new: str) -> list[str]:
    """Each line of a file that is not what it was, with its number: what goes, then what comes."""
    before, after = old.splitlines(), new.splitlines()
    if before == after:
        return [f"{file} stays as it is."]
    text = [f"{file} is changed:"]
    wide = len(str(max(len(before), len(after))))
    for tag, a, b, c, d in SequenceMatcher(None, before, after, autojunk=False).get_opcodes():
        if tag != "equal":
            text += [f"  {clean(f'{n:{wide}} - {line}').rstrip()}" for n, line in enumerate(before[a:b], start=a + 1)]
            text += [f"  {clean(f'{n:{wide}} + {line}').rstrip()}" for n, line in enumerate(after[c:d], start=c + 1)]
    return text


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
