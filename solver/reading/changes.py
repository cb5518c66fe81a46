"""Changes of a jam, collected as they are asked for."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path as FilePath
from typing import Any, NamedTuple

from solver.codes import Code
from solver.gear.box_faults import one_of
from solver.gear.nearest import nearest
from solver.gear.words import dotted, quoted
from solver.jam.editing import Changes, Path, Put
from solver.jam.jam import MOST_CABLES, Jam
from solver.reading.at_hand import NAMED_OR_AT_HAND, Shelf, is_name
from solver.reading.files import text_of
from solver.reading.places import keys_of
from solver.reading.problems import BadInput, Problem, Unopened
from solver.reading.source import Option, Source
from solver.reading.statements import FRAME, LISTS, TABLES, Statements, is_intent
from solver.reading.writing import exact

NEW = 10**6
"""A place behind the end of every list."""

Origin = tuple[Path, Source, Path]
"""The path of what is changed, and where that is asked for: in which text, and what it is called there."""


class Asked(NamedTuple):
    """Changes that were asked for, and where: what is set or added, and what is left out."""

    changes: Changes
    origins: tuple[Origin, ...]
    left_out: tuple[Origin, ...]


class _Wanted(NamedTuple):
    """One value that is asked for; ``loosens`` if it stands for a statement that is left out."""

    put: Put
    source: Source
    at: Path
    loosens: bool = False

    def clash(self, found: str, allowed: str) -> Problem:
        """A problem with what else is asked for."""
        return self.source.problem(Code.CLASH, self.at, found, allowed)


class Asking:
    """Collects changes of one jam file, whose data is as it was read."""

    def __init__(self, file: str, data: Mapping[str, Any]) -> None:
        self._folder = FilePath(file).parent
        self._shelf = Shelf(FilePath(), self._folder)
        self._data = data
        self._ids = Statements(data)
        self._sets: list[_Wanted] = []
        self._drops: list[Origin] = []
        self._adds: list[_Wanted] = []
        self._problems: list[Problem] = []

    def done(self) -> Asked:
        """All that was asked for.

        Raises:
            BadInput: some of it could not be understood, or does not go with the rest of it.
        """
        drops = {origin[0]: origin for origin in self._drops}
        gone = [path for path in drops if not any(path[:end] in drops for end in range(1, len(path)))]
        sets = [told for told in _once(self._sets) if not (told.loosens and _over(gone, told.put.path))]
        adds = list(_once(self._adds))
        problems = [*self._problems, *self._needed(gone, drops), *_clashes(sets, gone), *_twice(adds)]
        if problems:
            raise BadInput(problems)
        changes = Changes(tuple(told.put for told in sets), tuple(gone), tuple(told.put for told in adds))
        origins = tuple((told.put.path, told.source, told.at) for told in (*sets, *adds))
        return Asked(changes, origins, tuple(drops[path] for path in gone))

    def note(self, problems: Iterable[Problem]) -> None:
        """What is wrong with something that cannot even be asked for."""
        self._problems += problems

    def add_box(self, name: str, file: str, source: Source, path: Path, folder: FilePath | None = None) -> None:
        """A box on the table, by its file, relative to a folder.

        Without a folder it may be the name of a box file at hand, too, or a path from where the command is run.
        """
        where = (self._shelf.find(file) or FilePath(file)) if folder is None else folder / file
        try:
            text_of(str(where), "a box file")
        except Unopened as error:
            self._problems.append(self._unopened(file, error.problems[0], source, path, folder is None))
            return
        except BadInput:
            pass  # the box file is read once more with the jam, which tells what is wrong inside it
        told = _Wanted(Put(("boxes", name), _from_folder(where, self._folder)), source, path)
        (self._sets if name in self._data["boxes"] else self._adds).append(told)

    def add_part(self, name: str, part: Any, source: Source, path: Path) -> None:
        """A part that is not there yet."""
        if name in self._data.get("part", {}):
            allowed = f"a new part; {name} is there already, --set changes it"
            self._wrong(Code.THERE_ALREADY, source, path, quoted(name), allowed)
        elif not isinstance(part, Mapping):
            allowed = f'a table, such as {dotted(name)} = {{ on = "reef" }}'
            self._wrong(Code.WRONG_TYPE, source, path, source.written(part), allowed)
        else:
            self._adds.append(_Wanted(Put(("part", name), part), source, path))

    def add_intent(self, intent: Any, source: Source, path: Path) -> None:
        """One more wish."""
        self._adds.append(_Wanted(Put(("intent", NEW), intent), source, path))

    def remove_box(self, name: str, source: Source, path: Path) -> None:
        """A box off the table."""
        if name not in self._data["boxes"]:
            self._unknown(source, path, name, self._data["boxes"], "a box of this jam")
        else:
            self._drops.append((("boxes", name), source, path))

    def drop_part(self, name: str, source: Source, path: Path) -> None:
        """A part less."""
        if name not in self._data.get("part", {}):
            self._unknown(source, path, name, self._data.get("part", {}), "a part of this jam")
        else:
            self._drops.append((("part", name), source, path))

    def drop(self, statement: str, source: Source, path: Path) -> None:
        """A statement less, by its id."""
        found = self._ids.find(statement)
        if found is None:
            self._unknown(source, path, statement, self._ids.all(), "a statement of this jam")
        elif found[0] == "boxes" and len(found) == 2:
            self.remove_box(str(found[1]), source, path)
        elif found == ("mains",):
            self._sets.append(_Wanted(Put(found, "mono"), source, path, loosens=True))
        elif found[0] == "cables" and len(found) == 2:
            self._sets.append(_Wanted(Put(found, MOST_CABLES), source, path, loosens=True))
        elif found[0] in FRAME or found in LISTS:
            self._wrong(Code.STAYS, source, path, dotted(*found), "a statement; the frame of a jam stays")
        else:
            self._drops.append((found, source, path))

    def set(self, statement: str, value: Any, source: Source, path: Path) -> None:
        """Another value, by the id of its statement; a table sets each of its keys."""
        at = self._ids.settable(statement)
        if at is None:
            known = [*(key for key in keys_of(Jam) if key not in TABLES), *self._ids.all("boxes")]
            self._unknown(source, path, statement, known, "a statement of this jam, or one of its keys")
            return
        told = at if isinstance(source, Option) else path
        if isinstance(value, Mapping) and value and self._ids.is_table(at):
            for key, item in value.items():
                self.set(f"{dotted(*at)}.{dotted(key)}", item, source, (*path, key))
        elif at[0] == "boxes":
            allowed = "any other statement; --add-box takes another file for a box"
            self._wrong(Code.STAYS, source, path, dotted(*at), allowed)
        elif at in LISTS or (value == {} and at[0] in ("part", "intent") and len(at) == 2):
            allowed = "a table of keys and their new values"
            self._wrong(Code.WRONG_TYPE, source, told, source.written(value), allowed)
        else:
            self._sets.append(_Wanted(Put(at, value), source, told))

    def _needed(self, gone: Iterable[Path], drops: Mapping[Path, Origin]) -> Iterator[Problem]:
        """Boxes that are to go, though the jam cannot do without them after all that is set."""
        leader, listen = (
            next((put.value for put, *_ in reversed(self._sets) if put.path == (key,)), self._data[key])
            for key in ("leader", "listen")
        )
        for path in gone:
            name = path[-1]
            if path[0] == "boxes" and name in (leader, str(listen).partition("/")[0]):
                does = "leads" if name == leader else "has the outlet that you listen to"
                _, source, at = drops[path]
                found = f"{quoted(str(name))}, which {does}"
                yield source.problem(Code.STAYS, at, found, "a box that the jam can do without")

    def _unopened(self, file: str, problem: Problem, source: Source, path: Path, may_be_named: bool) -> Problem:
        """What is said of a box file that cannot be opened."""
        near = problem.suggestion and str(FilePath(file).with_name(FilePath(problem.suggestion).name))
        allowed = problem.allowed
        if may_be_named and is_name(file) and problem.code == Code.NO_FILE:
            near, allowed = self._shelf.near(file), NAMED_OR_AT_HAND
        return source.problem(problem.code, path, f"{quoted(file)} ({problem.found})", allowed, near)

    def _wrong(self, code: Code, source: Source, path: Path, found: str, allowed: str) -> None:
        self._problems.append(source.problem(code, path, found, allowed))

    def _unknown(self, source: Source, path: Path, name: str, known: Mapping[str, Any] | list[str], what: str) -> None:
        names, shown = list(dict.fromkeys(known)), self._ids.shown()
        said = one_of([one for one in names if isinstance(known, Mapping) or one in shown], what)
        found, near = source.written(name), nearest(name, names)
        self._problems.append(source.problem(Code.UNKNOWN_NAME, path, found, said, near))


def _once(told: Iterable[_Wanted]) -> Iterator[_Wanted]:
    """What is asked for, but nothing twice in the same words; wishes may be alike."""
    seen: set[tuple[Path, str]] = set()
    for one in told:
        same = (one.put.path, exact(one.put.value))
        if same not in seen or is_intent(one.put.path):
            yield one
        seen.add(same)


def _clashes(sets: list[_Wanted], gone: list[Path]) -> Iterator[Problem]:
    """Values for what is left out, and two values for one thing."""
    for told in sets:
        over = _over(gone, told.put.path)
        if over is not None:
            yield told.clash(f"{dotted(*told.put.path)}, and {dotted(*over)} left out", "one or the other")
    yield from _twice(sets)


def _twice(some: list[_Wanted]) -> Iterator[Problem]:
    told = [one for one in some if not is_intent(one.put.path)]
    for place, one in enumerate(told):
        path = one.put.path
        before = [two.put.path for two in told[:place]]
        other = next((two for two in before if path[: len(two)] == two or two[: len(path)] == path), None)
        if other == path:
            yield one.clash(f"{dotted(*path)} again", "each of them once")
        elif other is not None:
            yield one.clash(f"{dotted(*path)}, and {dotted(*other)}", "one or the other")


def _over(gone: Iterable[Path], path: Path) -> Path | None:
    """What of all that is left out takes a path along."""
    return next((over for over in gone if path[: len(over)] == over), None)


def _from_folder(file: FilePath, folder: FilePath) -> str:
    """A file's path as seen from a folder; links to folders are followed, for ".." goes up from where they lead."""
    whole = file.parent.resolve() / file.name
    try:
        return FilePath(os.path.relpath(whole, folder.resolve())).as_posix()
    except ValueError:  # on another drive
        return whole.as_posix()
