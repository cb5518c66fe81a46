"""Broken TOML and JSON, in plain words."""

import json
import re

from solver.codes import Code
from solver.reading.problems import Problem

_Words = tuple[tuple[str, str, str], ...]

_TEXT_END = ("a text that does not end", "a text that ends with the quotes that it began with")
_TWICE = ("a table or key that stands in this file already", "each table and each key once")
_VALUE = "a number, true, false, a text in quotes, a [list] or a { table }"
_TOML: _Words = (
    (r"Invalid statement", "a line that says nothing", "key = value, [table] or [[list of tables]]"),
    (r"Expected newline", "more text after a statement", "one statement on a line"),
    (r"Cannot (?:declare|overwrite|mutate|redefine)|Duplicate inline", *_TWICE),
    (r"Expected '\]", "a [ without its ]", "[table] or [[list of tables]]"),
    (r"Expected '='", "a key without =", "key = value"),
    (r"Invalid initial character", "something that is no key", "a key of letters, digits, - and _, or in quotes"),
    (r"Unclosed array", "a list that does not end", "commas between the items and a ] at the end"),
    (r"Unclosed inline table", "a table that does not end", "commas between the keys and a } at the end"),
    (r"Unescaped", "a backslash that stands for nothing", r"\\ for a backslash, or the text in single quotes"),
    (r"Invalid hex value|Escaped character", r"a \u that names no character", r"\u and the four digits of a character"),
    (r"Illegal character '\\n'|Unterminated|Expected ['\"]", *_TEXT_END),
    (r"(?:Illegal|invalid) character", "a control character", "text"),
    (r"Invalid date", "a date that does not exist", _VALUE),
    (r"Invalid value", "something that is no value", _VALUE),
)
JSON_VALUE = "a number, a text in quotes, true, false, null, a list or an object"
"""What JSON has for values."""

_JSON: _Words = (
    (
        r"Expecting value",
        "something that is no value",
        JSON_VALUE,
    ),
    (r"Expecting ','", "no comma", "commas between items, and ] or } at the end"),
    (r"Expecting ':'", "a key without a colon", '"key": value'),
    (r"Expecting property name", "something that is no key", "a key in double quotes, or } at the end"),
    (r"Extra data", "more after the end", "one value in the file"),
    (r"Invalid control", "a control character or the end of a line inside a text", r"\n and the like"),
    (r"Invalid \\", "a backslash that stands for nothing", r"\\ for a backslash"),
    (r"Unterminated", *_TEXT_END),
    (r"Illegal trailing comma", "a comma after the last item", "commas between items only"),
)
_UNKNOWN = ("something that cannot be read", "what the rest of the file is written in")
_TOO_DEEP = ("lists or tables inside each other without end", "what a plain file needs")
_TOO_LONG = ("a number of thousands of digits", "numbers that fit their keys")


def toml_problem(file: str, text: str, error: ValueError | RecursionError) -> Problem:
    """The problem behind an exception of the TOML reader."""
    message = str(error)
    place = re.search(r"\(at line (\d+), column (\d+)\)$", message)
    if isinstance(error, RecursionError):
        return Problem(Code.TOO_LARGE, file, None, "", *_TOO_DEEP)
    if place is not None:
        return _said(file, (int(place[1]), int(place[2])), message, _TOML)
    if message.endswith("(at end of document)"):
        return _said(file, (text.rstrip("\n").count("\n") + 1, None), message, _TOML)
    return _endless_number(file, text)


def json_problem(file: str, error: ValueError | RecursionError) -> Problem:
    """The problem behind an exception of the JSON reader."""
    if isinstance(error, RecursionError):
        return Problem(Code.TOO_LARGE, file, None, "", *_TOO_DEEP)
    if isinstance(error, json.JSONDecodeError):
        return _said(file, (error.lineno, error.colno), error.msg, _JSON)
    return Problem(Code.TOO_LARGE, file, None, "", *_TOO_LONG)


def _endless_number(file: str, text: str) -> Problem:
    number = re.search(r"[0-9][0-9_]{4000,}", text)
    line = text.count("\n", 0, number.start()) + 1 if number is not None else None
    return Problem(Code.TOO_LARGE, file, line, "", *_TOO_LONG)


def _said(file: str, place: tuple[int, int | None], message: str, words: _Words) -> Problem:
    found, allowed = next((said for pattern, *said in words if re.search(pattern, message)), _UNKNOWN)
    line, column = place
    where = f"at column {column}" if column is not None else "at the end"
    code = Code.WRITTEN_TWICE if (found, allowed) == _TWICE else Code.BROKEN
    return Problem(code, file, line, "", f"{found} ({where})", allowed)
