"""Set files, with the jams that they name: what jams of one set must agree on."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path as FilePath
from typing import Any

from solver.codes import Code
from solver.gear.box import Box
from solver.gear.nearest import nearest
from solver.gear.words import quoted
from solver.jam.jam import Jam
from solver.jam.sets import JamSet, SetFile, slot_key
from solver.reading.checking import Checked
from solver.reading.jams import jam_from, jam_source
from solver.reading.problems import BadInput, Problem, Unopened, in_order
from solver.reading.source import Option, Source, toml_source

A_SET_FILE = "a set file"


def is_set(data: dict[str, Any]) -> bool:
    """Whether the data of a file is meant as a set's."""
    return "jams" in data and not data.keys() & {"leader", "listen", "boxes", "part", "intent"}


def set_at(file: str) -> JamSet:
    """The set in a file, with its jams and their boxes.

    Raises:
        BadInput: a file cannot be read or says what cannot be, or jams disagree about a box or a slot.
    """
    return set_from(*set_source(file))


def set_source(file: str) -> tuple[dict[str, Any], Source]:
    """The data of a set file, of which it is only known that it is no other kind of file.

    Raises:
        BadInput: the file cannot be read, is no TOML, or is no set.
    """
    data, source = toml_source(file, A_SET_FILE)
    if not is_set(data):
        said = "this is no set; a set file has a title and jams, and nothing else"
        raise BadInput([source.problem(Code.OTHER_KIND, ("jams",), said)])
    return data, source


def set_from(data: dict[str, Any], source: Source) -> JamSet:
    """The set in the data of a file; see ``set_at``."""
    checked = Checked(SetFile, data, source)
    if checked.value is None or checked.problems:
        raise BadInput(in_order(checked.problems))
    jams = _Jams(checked.value, source)
    if not jams.problems:
        jams.problems += [*jams.boxes_apart(), *jams.slots_twice()]
    if jams.problems:
        raise BadInput(jams.problems)
    return JamSet(checked.value.title, jams.found)


def jam_of_set(of: JamSet, option: str, name: str) -> str:
    """The file of the jam of a set that an option names.

    Raises:
        BadInput: no jam of the set is called so, or several are.
    """
    file = of.found(name)
    if file is None:
        names = [name for file, jam in of.files.items() for name in (jam.title, FilePath(file).stem, file)]
        allowed = f"a jam of this set: {', '.join(of.names.values())}"
        code = Code.UNKNOWN_NAME if name else Code.NOT_FOR_FILE
        found = quoted(name) if name else "nothing"
        raise BadInput([Option(option, name).problem(code, (), found, allowed, nearest(name, names))])
    return file


class _Jams:
    """The jams that a set names, with what is wrong in any of them."""

    def __init__(self, stated: SetFile, source: Source) -> None:
        self.found: dict[str, Jam] = {}
        self.problems: list[Problem] = []
        self._set = source
        self._sources: dict[str, Source] = {}
        known: dict[FilePath, Box | None] = {}
        files = [FilePath(source.file).parent / name for name in stated.jams]
        for place, (name, file) in enumerate(zip(stated.jams, files, strict=True)):
            if file in files[:place]:
                first = source.line(("jams", files.index(file)))
                found, once = f"{quoted(name)} again", f"each jam once, see line {first}"
                self.problems.append(source.problem(Code.NAMED_TWICE, ("jams", place), found, once))
                continue
            try:
                data, self._sources[name] = jam_source(str(file))
                self.found[name] = jam_from(data, self._sources[name], known)
            except Unopened as error:
                problem = error.problems[0]
                found = f"{quoted(name)} ({problem.found})"
                near = problem.suggestion and str(FilePath(name).with_name(FilePath(problem.suggestion).name))
                allowed = "a jam file, relative to this file"
                self.problems.append(source.problem(problem.code, ("jams", place), found, allowed, near))
            except BadInput as error:
                self.problems = list(dict.fromkeys((*self.problems, *error.problems)))

    def boxes_apart(self) -> Iterator[Problem]:
        """Yield each name that stands for a box in one jam and for another box in a later one."""
        first: dict[str, str] = {}
        for name, jam in self.found.items():
            for box, thing in jam.boxes.items():
                other = first.setdefault(box, name)
                if self.found[other].boxes[box] != thing:
                    path = ("boxes", box)
                    where = f"{self._sources[other].file}:{self._sources[other].line(path)}"
                    allowed = f"in a set, a name stands for one box; see {where}"
                    yield self._sources[name].problem(Code.TWO_BOXES, path, "another box of that name", allowed)

    def slots_twice(self) -> Iterator[Problem]:
        """Yield each slot of a box where a jam is saved and another one too."""
        taken: dict[tuple[str, str], str] = {}
        for name, jam in self.found.items():
            for box, slot in jam.recall.items():
                other = taken.setdefault((box, slot_key(slot)), name)
                if other != name:
                    path = ("recall", box)
                    where = f"{self._sources[other].file}:{self._sources[other].line(path)}"
                    allowed = f"a slot of its own; {where} has it already"
                    yield self._sources[name].problem(Code.SLOT_TAKEN, path, quoted(slot), allowed)
