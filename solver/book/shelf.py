"""All jams, sets and saved plans that a folder holds, as they are read; what cannot be read stops nothing else."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, NamedTuple

from solver.book.folder import files_in
from solver.codes import Code
from solver.gear.box import Box
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.reading.jams import jam_from
from solver.reading.problems import BadInput, Problem
from solver.reading.sets import is_set, set_from
from solver.reading.source import Source, json_source, toml_source

_OF_JAMS = {"leader", "listen"}
_OF_TITLED_JAMS = {"boxes", "part", "intent"}


class JamFile(NamedTuple):
    """A jam and its file, which knows its lines."""

    file: Path
    jam: Jam
    source: Source


class SetOnFile(NamedTuple):
    """A set, if it can be read, and the jam files that it names, also by their whole paths."""

    file: Path
    title: str
    names: tuple[str, ...]
    jams: tuple[Path, ...]
    of: JamSet | None


class PlanFile(NamedTuple):
    """What looks like a saved plan."""

    file: Path
    data: dict[str, Any]


class Unread(NamedTuple):
    """A file that cannot be read, and what is wrong."""

    file: Path
    problems: tuple[Problem, ...]


@dataclass
class Shelf:
    """What stands in one folder and the folders below it."""

    folder: Path
    jams: list[JamFile] = field(default_factory=list)
    sets: list[SetOnFile] = field(default_factory=list)
    plans: list[PlanFile] = field(default_factory=list)
    unread: list[Unread] = field(default_factory=list)
    _boxes: dict[Path, Box | None] = field(default_factory=dict)

    @classmethod
    def of(cls, folder: Path) -> Shelf:
        """Read the jams, sets and saved plans in a folder; box files and files of other kinds are no part of it."""
        shelf = cls(folder)
        for file in files_in(folder, ".toml", shelf._unentered):
            shelf._take(file)
        for file in files_in(folder, ".json"):
            shelf._take_plan(file)
        return shelf

    def _take(self, file: Path) -> None:
        try:
            data, source = toml_source(str(file), "a jam or set file")
            if is_set(data):
                self._take_set(file, data, source)
            elif data.keys() & _OF_JAMS or ("title" in data and data.keys() & _OF_TITLED_JAMS):
                self.jams.append(JamFile(file, jam_from(data, source, self._boxes), source))
        except BadInput as error:
            self._miss(file, error.problems)
        # A box file that is wrong is told of again for the next jam that names it.
        self._boxes = {path: box for path, box in self._boxes.items() if box is not None}

    def _take_set(self, file: Path, data: dict[str, Any], source: Source) -> None:
        of = None
        try:
            of = set_from(data, source)
        except BadInput as error:
            self._miss(file, error.problems)
        named = data["jams"] if isinstance(data["jams"], list) else []
        names = tuple(name for name in named if isinstance(name, str) and "\0" not in name)
        jams = tuple((file.parent / name).resolve() for name in names)
        self.sets.append(SetOnFile(file, str(data.get("title", "")) or file.stem, names, jams, of))

    def _take_plan(self, file: Path) -> None:
        try:
            data, _ = json_source(str(file), "a saved plan")
        except BadInput as error:
            self._miss(file, error.problems)
            return
        if isinstance(data, dict) and isinstance(data.get("cables"), list):
            inner = data.get("jams", data.get("parts"))
            if isinstance(inner, dict):
                self.plans.append(PlanFile(file, data))

    def _unentered(self, folder: Path) -> None:
        self._miss(folder, [Problem(Code.UNOPENED, str(folder), None, "", "a folder that may not be read")])

    def _miss(self, file: Path, problems: Iterable[Problem]) -> None:
        self.unread.append(Unread(file, tuple(problems)))
