"""A box file looked over: what is wrong in it, and what looks doubtful, each with its line."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from solver.codes import Code
from solver.gear.box import Box
from solver.gear.box_doubts import box_doubts
from solver.reading.files import text_of
from solver.reading.jams import box_at
from solver.reading.lines import line_of, lines
from solver.reading.problems import BadInput, Problem, key_text


class Doubted(NamedTuple):
    """One thing in a file to look at again; ``key`` is where, as TOML would write it."""

    code: Code
    file: str
    line: int
    key: str
    sentence: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: doubt: {self.sentence} [{self.code}]"


class Looked(NamedTuple):
    """One box file, the box in it unless something is wrong, and what is wrong or doubtful, as its lines go."""

    file: str
    box: Box | None
    problems: tuple[Problem, ...] = ()
    doubts: tuple[Doubted, ...] = ()


def look_over(file: Path) -> Looked:
    """Read a box file and doubt it; a file in which something is wrong is not doubted as well."""
    name = str(file)
    try:
        box = box_at(name)
        doubts = tuple(box_doubts(box))
        known = lines(text_of(name, "a box file")) if doubts else {}
    except BadInput as error:
        return Looked(name, None, error.problems)
    doubted = [Doubted(code, name, line_of(known, path), key_text(path), said) for code, path, said in doubts]
    return Looked(name, box, (), tuple(sorted(doubted, key=lambda doubt: doubt.line)))
