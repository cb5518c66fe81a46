"""Changes of a jam, collected as they are asked for."""

from __future__ import annotations

import os
import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path as FilePath
from typing import Any, NamedTuple

from solver.gear.box_faults import one_of
from solver.gear.cables import KINDS
from solver.gear.words import dotted, quoted
from solver.jam.editing import Changes, Path, Put
from solver.jam.jam import MOST_CABLES, Jam
from solver.reading.places import keys_of
from solver.reading.problems import BadInput, Problem, nearest
from solver.reading.source import Source

NEW = 10**6
"""A place behind the end of every list."""


class Asked(NamedTuple):
    """Changes that were asked for, and where: what each path is called there, and in which text."""

    changes: Changes
    origins: tuple[tuple[Path, Source, Path], ...]


class Asking:
    """Collects changes of one jam file, whose data is as it was read."""

    def __init__(self, file: str, data: Mapping[str, Any]) -> None:
        self._folder = FilePath(file).parent
        self._data = data
        self._known = {dotted(*path): path for path in _paths(data, ())}
        self._sets: list[tuple[Put, Source, Path]] = []
        self._drops: list[Path] = []
        self._adds: list[tuple[Put, Source, Path]] = []
        self._problems: list[Problem] = []

    def done(self) -> Asked:
        """All that was asked for.

        Raises:
            BadInput: some of it could not be understood.
        """
        if self._problems:
            raise BadInput(self._problems)
        told = (*self._sets, *self._adds)
        sets, adds = (tuple(put for put, *_ in some) for some in (self._sets, self._adds))
        changes = Changes(sets, tuple(dict.fromkeys(self._drops)), adds)
        return Asked(changes, tuple((put.path, source, path) for put, source, path in told))

    def add_box(self, name: str, file: str, source: Source, path: Path, folder: FilePath | None = None) -> None:
        """A box on the table, by its file, relative to a folder or to where the command is run."""
        here = os.path.relpath((folder or FilePath()) / file, self._folder) if file else file
        put = Put(("boxes", name), FilePath(here).as_posix() if here else here)
        (self._sets if name in self._data["boxes"] else self._adds).append((put, source, path))

    def add_part(self, name: str, part: Any, source: Source, path: Path) -> None:
        """A part that is not there yet."""
        if name in self._data.get("part", {}):
            self._wrong(source, path, quoted(name), f"a new part; {name} is there already, --set changes it")
        self._adds.append((Put(("part", name), part), source, path))

    def add_intent(self, intent: Any, source: Source, path: Path) -> None:
        """One more wish."""
        self._adds.append((Put(("intent", NEW), intent), source, path))

    def remove_box(self, name: str, source: Source, path: Path) -> None:
        """A box off the table."""
        if name not in self._data["boxes"]:
            self._unknown(source, path, name, self._data["boxes"], "a box of this jam")
        elif name in (self._frame("leader"), str(self._frame("listen")).partition("/")[0]):
            does = "leads" if name == self._frame("leader") else "has the outlet that you listen to"
            self._wrong(source, path, f"{quoted(name)}, which {does}", "a box that the jam can do without")
        else:
            self._drops.append(("boxes", name))

    def drop_part(self, name: str, source: Source, path: Path) -> None:
        """A part less."""
        if name not in self._data.get("part", {}):
            self._unknown(source, path, name, self._data.get("part", {}), "a part of this jam")
        self._drops.append(("part", name))

    def drop(self, statement: str, source: Source, path: Path) -> None:
        """A statement less, by its id."""
        found = self._known.get(_normal(statement))
        if found is None:
            self._unknown(source, path, statement, list(self._known), "a statement of this jam")
        elif found[0] == "boxes" and len(found) == 2:
            self.remove_box(str(found[1]), source, path)
        elif found == ("mains",):
            self._sets.append((Put(found, "mono"), source, path))
        elif found[0] == "cables" and len(found) == 2:
            self._sets.append((Put(found, MOST_CABLES), source, path))
        elif found[0] in _FRAME or found in (("part",), ("intent",), ("boxes",)):
            self._wrong(source, path, dotted(*found), "a statement; the frame of a jam stays")
        else:
            self._drops.append(found)

    def set(self, statement: str, value: Any, source: Source, path: Path) -> None:
        """Another value, by the id of its statement; a table sets each of its keys."""
        at = self._settable(_normal(statement))
        if at is None:
            known = [*(key for key in keys_of(Jam) if key not in _TABLES), *self._known]
            self._unknown(source, path, statement, known, "a statement of this jam, or one of its keys")
            return
        leaves = list(_leaves(value, ()))
        if at[0] == "boxes":
            self._wrong(source, path, dotted(*at), "any other statement; --add-box takes another file for a box")
        for inner, leaf in leaves:
            self._sets.append((Put((*at, *inner), leaf), source, (*path, *inner)))

    def _frame(self, key: str) -> Any:
        """What the frame of the jam says, after all that has been set by now."""
        return next((put.value for put, *_ in reversed(self._sets) if put.path == (key,)), self._data[key])

    def _settable(self, statement: str) -> Path | None:
        """The path of a statement that is there, or of a key that may be new in a table that is there."""
        if statement in self._known:
            return self._known[statement]
        parts = key_parts(statement) or (statement,)
        if len(parts) == 1:
            return (parts[0],) if parts[0] in keys_of(Jam) and parts[0] not in _TABLES else None
        above = dotted(*parts[:-1])
        if above in self._known:
            return (*self._known[above], parts[-1]) if self._known[above] not in (("part",), ("intent",)) else None
        if above in ("cables", "recall"):
            return (above, parts[-1])
        inner = self._known.get(dotted(*parts[:-2])) if parts[-2] in ("shift", "with") else None
        return None if inner is None else (*inner, *parts[-2:])

    def _wrong(self, source: Source, path: Path, found: str, allowed: str) -> None:
        self._problems.append(source.problem(path, found, allowed))

    def _unknown(self, source: Source, path: Path, name: str, known: Mapping[str, Any] | list[str], what: str) -> None:
        names = list(known)
        near = nearest(name, names)
        said = one_of([one for one in names if isinstance(known, Mapping) or one.count(".") == 1], what)
        self._problems.append(source.problem(path, quoted(name), said, near))


_FRAME = ("title", "tempo", "leader", "listen")
_TABLES = ("boxes", "cables", "part", "intent", "recall")


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


def _leaves(value: Any, path: Path) -> Iterator[tuple[Path, Any]]:
    if isinstance(value, Mapping) and value:
        for key, item in value.items():
            yield from _leaves(item, (*path, key))
    else:
        yield path, value


def _normal(statement: str) -> str:
    """An id as TOML would write it; a kind of cable need not be in quotes."""
    kind = statement.removeprefix("cables.").strip()
    if statement.startswith("cables.") and kind in KINDS:
        return dotted("cables", kind)
    parts = key_parts(statement)
    return statement if parts is None else dotted(*parts)


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
