"""What is wrong in a file, said as file, line, key, what was found and what is allowed."""

import re
from collections.abc import Iterable
from typing import NamedTuple

from solver.codes import Code
from solver.gear.words import MOST_FAULTS, quoted
from solver.reading.writing import shortened

Path = tuple[str | int, ...]
"""Keys from the top of a file down; a number counts list items from 0."""

_BARE = re.compile(r"[A-Za-z0-9_-]+")


class Problem(NamedTuple):
    """One thing wrong in one file, of one kind.

    ``line`` counts from 1 and is None where nothing tells it. ``key`` is empty where the file as a whole is meant. An
    empty ``allowed`` makes ``found`` a sentence of its own.
    """

    code: Code
    file: str
    line: int | None
    key: str
    found: str
    allowed: str = ""
    suggestion: str | None = None

    def __str__(self) -> str:
        place = self.file if self.line is None else f"{self.file}:{self.line}"
        said = f"found {self.found}; allowed: {self.allowed}" if self.allowed else self.found
        hint = f"; did you mean {quoted(self.suggestion)}?" if self.suggestion is not None else ""
        return f"{': '.join(filter(None, (place, self.key, said)))}{hint} [{self.code}]"


class BadInput(Exception):  # noqa: N818
    """One or more files say what they cannot say; ``problems`` has everything that was found."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(problems)
        super().__init__(self.problems)

    def __str__(self) -> str:
        return "\n".join(map(str, self.problems))


class Unopened(BadInput):
    """A file could not be opened at all, so whoever names it is to blame."""


def too_many(file: str, wrong: str = "more") -> Problem:
    """That a file has more wrong things than are listed."""
    return Problem(Code.TOO_MANY, file, None, "", f"{wrong} wrong things; the first {MOST_FAULTS} are listed")


def in_order(problems: Iterable[Problem]) -> list[Problem]:
    """Problems of one file as its lines go, those without a line first."""
    return sorted(problems, key=lambda problem: problem.line or 0)


def key_text(path: Path) -> str:
    """A key path as TOML would write it, list items counted from 1: ``cables."6.35 mono"``, ``intent.3.treat.1``."""
    return ".".join(str(step + 1) if isinstance(step, int) else key_name(step) for step in path)


def key_name(key: str) -> str:
    """One key, in quotes unless TOML takes it bare."""
    return shortened(key) if _BARE.fullmatch(key) else shortened(quoted(key))
