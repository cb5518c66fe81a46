"""A file that has been read as data, and still knows its lines."""

import json
import re
import tomllib
from functools import cached_property
from itertools import islice
from typing import Any

from solver.codes import Code
from solver.gear.words import MOST_FAULTS, quoted
from solver.reading.broken import JSON_VALUE, json_problem, toml_problem
from solver.reading.files import LARGEST_JSON, text_of
from solver.reading.json_lines import json_doubles, json_lines
from solver.reading.lines import line_of, lines
from solver.reading.problems import BadInput, Path, Problem, key_text
from solver.reading.writing import written

_LONGEST_KEY = 64
_LONGEST_HEADER = 8
_PART = r"(?:[\w-]++|\"[^\"\n]*+\"|'[^'\n]*+')"
_MORE = rf"(?:[ \t]*+\.[ \t]*+{_PART})"
_ENDLESS = (
    ("key", _LONGEST_KEY, re.compile(rf"(?<![\w-]){_PART}{_MORE}{{{_LONGEST_KEY}}}")),
    (
        "header",
        _LONGEST_HEADER,
        re.compile(rf"^[ \t]*+\[{{1,2}}[ \t]*+{_PART}{_MORE}{{{_LONGEST_HEADER}}}", re.MULTILINE),
    ),
)
# The reader of TOML takes time with the square of the number of a key's parts, and memory for each part of a header.

MOST_TOGETHER = 10_000
"""How many keys or items one table or list may have."""
MOST_IN_ALL = 200_000
"""How many keys and items a file may have, those of plans that stand beside its plan left aside."""


class Source:
    """The name and text of one file; lines are counted only when they are asked for."""

    def __init__(self, file: str, text: str, is_json: bool = False) -> None:
        self.file = file
        self.text = text
        self.is_json = is_json

    @cached_property
    def _lines(self) -> dict[Path, int]:
        return json_lines(self.text) if self.is_json else lines(self.text)

    def line(self, path: Path) -> int:
        """The line of a key, or of the nearest thing above it; the first line for the whole file."""
        return line_of(self._lines, path) if path else 1

    def problem(
        self,
        code: Code,
        path: Path,
        found: str,
        allowed: str = "",
        suggestion: str | None = None,
        *,
        key: str | None = None,
    ) -> Problem:
        """A problem of this file at a key path."""
        where = key_text(path) if key is None else key
        return Problem(code, self.file, self.line(path), where, found, allowed, suggestion)

    def written(self, value: Any) -> str:
        """A value as this file would write it, shortened."""
        return written(value, self.is_json)


class Inside(Source):
    """What stands under one key of a file; it is told of by its whole path."""

    def __init__(self, outer: Source, *keys: str) -> None:
        super().__init__(outer.file, outer.text, outer.is_json)
        self._outer = outer
        self._keys = keys

    def line(self, path: Path) -> int:
        """The line of a key, in the whole file."""
        return self._outer.line((*self._keys, *path))

    def problem(
        self,
        code: Code,
        path: Path,
        found: str,
        allowed: str = "",
        suggestion: str | None = None,
        *,
        key: str | None = None,
    ) -> Problem:
        """A problem at a key path under the key."""
        return self._outer.problem(code, (*self._keys, *path), found, allowed, suggestion, key=key)


class Option(Source):
    """The value of an option of a command, which has no lines."""

    def problem(
        self,
        code: Code,
        path: Path,
        found: str,
        allowed: str = "",
        suggestion: str | None = None,
        *,
        key: str | None = None,
    ) -> Problem:
        """A problem of the option; without a path, of its value as a whole."""
        return super().problem(code, path, found, allowed, suggestion, key=key)._replace(line=None)


def toml_source(file: str, what: str) -> tuple[dict[str, Any], Source]:
    """Read a TOML file.

    Args:
        file: its path, as it is to stand in messages.
        what: the kind of file that belongs there.

    Raises:
        BadInput: it cannot be read, or is no TOML.
    """
    text = text_of(file, what)
    for kind, most, pattern in _ENDLESS:
        endless = pattern.search(text)
        if endless is not None:
            line = text.count("\n", 0, endless.start()) + 1
            found = f"a {kind} of more than {most} parts"
            raise BadInput([Problem(Code.TOO_LARGE, file, line, "", found, f"at most {most} parts")])
    try:
        data, source = tomllib.loads(text), Source(file, text)
    except (ValueError, RecursionError) as error:
        raise BadInput([toml_problem(file, text, error)]) from None
    _refuse_crowds(data, source)
    return data, source


def _refuse_crowds(data: Any, source: Source) -> None:
    """Refuse tables and lists that are larger than any file needs, before each thing in them is looked at."""
    left: list[tuple[Path, Any]] = [((), data)]
    every = 0
    while left:
        path, within = left.pop()
        count = len(within)
        every += count
        if count > MOST_TOGETHER:
            kind = "list" if isinstance(within, list) else "table"
            raise _crowd(source, path, f"a {kind} of {count}", MOST_TOGETHER)
        if every > MOST_IN_ALL:
            raise _crowd(source, (), f"more than {MOST_IN_ALL} keys and items", MOST_IN_ALL)
        named = within.items() if isinstance(within, dict) else enumerate(within)
        left += (
            ((*path, step), inner)
            for step, inner in named
            if isinstance(inner, dict | list) and (path or step != "alternatives")
        )


def _crowd(source: Source, path: Path, found: str, most: int) -> BadInput:
    return BadInput([source.problem(Code.TOO_LARGE, path, found, f"at most {most}")])


_TWICE = "a key twice"
_HALF = "half of a character in a key"


class _UnfitError(ValueError):
    """JSON data that JSON itself would let pass."""


def json_source(file: str, what: str) -> tuple[Any, Source]:
    """Read a JSON file; a key that stands twice, NaN and Infinity are refused.

    Args:
        file: its path, as it is to stand in messages.
        what: the kind of file that belongs there.

    Raises:
        BadInput: it cannot be read, or is no JSON.
    """
    text = text_of(file, what, LARGEST_JSON)
    source = Source(file, text, is_json=True)
    try:
        data = json.loads(text, object_pairs_hook=_once, parse_constant=_refused)
    except _UnfitError as error:
        raise BadInput(_unfit(source, str(error))) from None
    except (ValueError, RecursionError) as error:
        raise BadInput([json_problem(file, error)]) from None
    if isinstance(data, dict | list):
        _refuse_crowds(data, source)
    return data, source


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    whole = dict(pairs)
    if len(whole) < len(pairs):
        raise _UnfitError(_TWICE)
    try:
        "".join(whole).encode()
    except UnicodeEncodeError:
        raise _UnfitError(_HALF) from None
    return whole


def _refused(constant: str) -> Any:
    raise _UnfitError(constant)


def _unfit(source: Source, what: str) -> list[Problem]:
    if what == _TWICE:
        return [
            Problem(Code.WRITTEN_TWICE, source.file, line, key_text(path), f"{quoted(key)} again", "each key once")
            for key, path, line in islice(json_doubles(source.text), MOST_FAULTS)
        ]
    half = what == _HALF
    pattern = r"\\u[dD][89a-fA-F]" if half else rf'(?<![\w"])-?{what.lstrip("-")}(?![\w"])'
    where = re.search(pattern, source.text)
    line = source.text.count("\n", 0, where.start()) + 1 if where is not None else None
    code, allowed = (Code.NOT_UTF8, "whole characters") if half else (Code.BROKEN, JSON_VALUE)
    return [Problem(code, source.file, line, "", what, allowed)]
