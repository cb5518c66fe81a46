"""Values as TOML or JSON would write them, short enough for one line of a message."""

from datetime import date, datetime, time
from typing import Any

from solver.gear.words import dotted, quoted

LONGEST = 60
"""Characters of one value or name in a message."""

_DEEPEST = 4
_INT64 = 2**63


def shortened(text: str) -> str:
    """The text, cut to at most 60 characters with a mark where it was cut."""
    return text if len(text) <= LONGEST else text[: LONGEST - 3] + "..."


def written(value: Any, json: bool = False) -> str:
    """A value as the file would write it, shortened."""
    return shortened(_written(value, json, _DEEPEST))


def exact(value: Any) -> str:
    """A value as a TOML file would write it on one line, whole."""
    if isinstance(value, dict):
        pairs = ", ".join(f"{dotted(str(key))} = {exact(item)}" for key, item in value.items())
        return f"{{ {pairs} }}" if pairs else "{}"
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(exact, value))}]"
    return quoted(value) if isinstance(value, str) else _plain(value)


def _written(value: Any, json: bool, depth: int) -> str:
    if isinstance(value, dict):
        return _table(value, json, depth)
    if isinstance(value, list | tuple):
        inner = (_written(item, json, depth - 1) for item in value[:LONGEST])
        return f"[{', '.join(inner)}]" if depth else "[...]"
    return _plain(value)


def _table(value: dict[Any, Any], json: bool, depth: int) -> str:
    if not depth or not value:
        return "{ ... }" if value else "{}"
    joint = ": " if json else " = "
    pairs = [
        f"{quoted(str(key)) if json else dotted(str(key))}{joint}{_written(item, json, depth - 1)}"
        for key, item in list(value.items())[:LONGEST]
    ]
    return f"{{ {', '.join(pairs)} }}"


def _plain(value: Any) -> str:
    if value is None:
        return "null"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return quoted(value[:LONGEST]) if len(value) <= LONGEST else quoted(value[:LONGEST])[:-1] + "..."
    if isinstance(value, int):
        return str(value) if -_INT64 <= value < _INT64 else "a whole number of more than 64 bits"
    if isinstance(value, datetime | date | time):
        return value.isoformat()
    return str(value) if isinstance(value, float) else "something else"
