"""The ids by which changes name what a jam file states."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from typing import Any

from solver.gear.words import dotted
from solver.jam.editing import Path
from solver.jam.jam import Jam
from solver.reading.places import keys_of

FRAME = ("title", "tempo", "leader", "listen")
"""What every jam says."""

TABLES = ("boxes", "cables", "part", "intent", "recall")
LISTS: tuple[Path, ...] = (("boxes",), ("part",), ("intent",))
"""Tables that only hold statements and are none themselves."""

_INNER = ("shift", "with")
"""Tables in an intent that may be new."""


class Statements:
    """All that one jam file states, by id."""

    def __init__(self, data: Mapping[str, Any]) -> None:
        self._data = data
        self._paths = list(_paths(data, ()))
        self._known = {".".join(_steps(path)): path for path in self._paths}
        self._known |= {dotted(*path): path for path in self._paths}

    def find(self, statement: str) -> Path | None:
        """The path of what is there; names in an id need no quotes where it is clear without."""
        return self._known.get(_normal(statement), self._known.get(statement.strip()))

    def settable(self, statement: str) -> Path | None:
        """The path of a statement that is there, or of a key that may be new in a table that is there."""
        found = self.find(statement)
        if found is not None:
            return found
        *above, key = key_parts(_normal(statement)) or (statement,)
        if not above:
            return (key,) if key in keys_of(Jam) else None
        if len(above) == 1 and above[0] in ("cables", "recall", "boxes"):
            return (above[0], key)
        return self._inside(self._known.get(dotted(*above)), above, key)

    def _inside(self, holder: Path | None, above: list[str], key: str) -> Path | None:
        held = at(self._data, holder) if holder is not None and holder not in LISTS else None
        if holder is None and above[-1] in _INNER:
            outer = self._known.get(dotted(*above[:-1]))
            return (*outer, above[-1], key) if outer is not None and is_intent(outer) else None
        if holder is not None and isinstance(held, list) and key == str(len(held) + 1):
            return (*holder, len(held))
        return (*holder, key) if holder is not None and isinstance(held, Mapping) else None

    def is_table(self, path: Path) -> bool:
        """Whether a path is that of a table, or of one that may be new."""
        may_be_new = (len(path) == 1 and path[0] in TABLES) or (is_intent(path[:-1]) and path[-1] in _INNER)
        return may_be_new or isinstance(at(self._data, path), Mapping)

    def all(self, *but: str) -> list[str]:
        """The ids of all that is there, except in some tables."""
        return [dotted(*path) for path in self._paths if path not in LISTS and path[0] not in but]

    def shown(self) -> set[str]:
        """The ids that are listed where one is not known; the finer ones would be too many."""
        return {dotted(*path) for path in self._paths if len(path) == 2 or path[0] in ("cables", "mains")}


def is_intent(path: Path) -> bool:
    """Whether a path is that of a whole intent."""
    return len(path) == 2 and path[0] == "intent"


def at(data: Any, path: Path) -> Any:
    """What stands at a path, or None."""
    for step in path:
        try:
            data = data[step]
        except (LookupError, TypeError):
            return None
    return data


def key_parts(statement: str) -> tuple[str, ...] | None:
    """The parts of a dotted key; None where it is none."""
    try:
        data: Any = tomllib.loads(f"{statement} = 0")
    except (ValueError, RecursionError):
        return None
    parts: list[str] = []
    while isinstance(data, dict) and len(data) == 1:
        ((part, data),) = data.items()
        parts.append(part)
    return tuple(parts) if data == 0 else None


def _normal(statement: str) -> str:
    """An id as TOML would write it; a kind of cable need not be in quotes."""
    parts, (of, _, kind) = key_parts(statement), statement.strip().partition(".")
    if of == "cables" and kind and (parts is None or len(parts) != 2):
        return dotted("cables", kind)
    return statement.strip() if parts is None else dotted(*parts)


def _steps(path: Path) -> Iterator[str]:
    """The steps of a path as they stand in an id, without quotes."""
    return (str(step + 1) if isinstance(step, int) else step for step in path)


def _paths(value: Any, path: Path) -> Iterator[Path]:
    """Every path of a file's data but the top."""
    if path:
        yield path
    if isinstance(value, Mapping):
        for key, item in value.items():
            yield from _paths(item, (*path, key))
    elif isinstance(value, list):
        for place, item in enumerate(value):
            yield from _paths(item, (*path, place))
