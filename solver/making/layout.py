"""How a file that is made is laid out: one key a line, signs and remarks below each other."""

from collections.abc import Iterable
from typing import Any, NamedTuple

from solver.gear.words import dotted, quoted
from solver.reading.writing import exact

REMARKS_AT = 31
"""The column where remarks start, where the line is not longer."""

WIDEST = 116
"""Characters of a comment on a line of its own."""


class Row(NamedTuple):
    """A key, its value, and a remark on it."""

    key: str
    value: Any
    remark: str = ""


def rows(listed: Iterable[Row]) -> list[str]:
    """Keys with their values, the signs between them below each other."""
    table = [(dotted(row.key), exact(row.value), row.remark) for row in listed]
    wide = max((len(key) for key, _, _ in table), default=0)
    return [remarked(f"{key.ljust(wide)} = {value}", remark) for key, value, remark in table]


def remarked(line: str, remark: str) -> str:
    """A line with a remark behind it."""
    return f"{line.ljust(REMARKS_AT)}# {remark}" if remark and len(line) < REMARKS_AT else _behind(line, remark)


def _behind(line: str, remark: str) -> str:
    return f"{line}   # {remark}" if remark else line


def comment(text: str) -> list[str]:
    """A text as comment lines."""
    lines, line = [], "#"
    for word in text.split(" "):
        if len(line) + 1 + len(word) > WIDEST and line != "#":
            lines.append(line)
            line = "#"
        line += f" {word}"
    return [*lines, line]


def said(name: str) -> str:
    """A name as it may stand in a comment."""
    return name if name.isprintable() else quoted(name)


def file_text(schema: str, blocks: Iterable[Iterable[str]]) -> str:
    """The text of a file: the schema for editors first, then the blocks with an empty line between them."""
    body = "\n\n".join("\n".join(block) for block in blocks)
    return f"#:schema {said(schema)}\n{body}\n"
