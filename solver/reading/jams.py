"""Box files and jam files, with every name in them checked."""

from pathlib import Path as FilePath
from typing import Any

from solver.codes import Code
from solver.gear.box import Box
from solver.gear.words import MOST_TABLES, Fault, Strict, quoted
from solver.jam.jam import Jam
from solver.reading.checking import Checked
from solver.reading.places import keys_of
from solver.reading.problems import BadInput, Problem, Unopened, in_order
from solver.reading.source import Source, toml_source

_BOX_FILE = "a box file"
_JAM_FILE = "a jam file"
_A_JAM = "this is a jam file; a box file has [[out]], [[engine]], [[track]] and the like"
_A_BOX = "this is a box file; a jam file has leader, listen, [boxes], [part.NAME] and the like"
_OF_THE_JAM = ("a part of this jam", "each name once")
"""How messages begin that do not speak of boxes."""


def box_at(file: str) -> Box:
    """The box in a file.

    Raises:
        BadInput: the file cannot be read or says what no box can be.
    """
    data, source = toml_source(file, _BOX_FILE)
    _refuse_other_kinds(data, source, Box)
    checked = Checked(Box, data, source)
    if checked.value is None or checked.problems:
        raise BadInput(in_order(checked.problems))
    return checked.value


def jam_at(file: str) -> Jam:
    """The jam in a file, with the boxes that it names.

    Raises:
        BadInput: the jam file or a box file cannot be read, or says what cannot be.
    """
    return jam_from(*jam_source(file), {})


def jam_source(file: str) -> tuple[dict[str, Any], Source]:
    """The data of a jam file, of which it is only known that it is no other kind of file.

    Raises:
        BadInput: the file cannot be read, is no TOML, or is a box file or a set.
    """
    data, source = toml_source(file, _JAM_FILE)
    _refuse_other_kinds(data, source, Jam)
    return data, source


def jam_from(data: dict[str, Any], source: Source, known: dict[FilePath, Box | None]) -> Jam:
    """The jam in the data of a file.

    Args:
        data: What the file says, or would say.
        source: The file, which knows where each key stands.
        known: Box files that have been read already; those that are read now are added.

    Raises:
        BadInput: the data or a box file says what cannot be.
    """
    table = _Table(data.get("boxes"), source, known)
    if table.readable:
        data = {**data, "boxes": table.boxes}
    checked = Checked(Jam, data, source, table.counts)
    problems = [*in_order(table.own_problems + checked.problems), *table.box_problems]
    if checked.value is None or problems:
        raise BadInput(problems)
    return checked.value


class _Table:
    """The boxes that a jam file names, those that are right and stand-ins for those that are not."""

    def __init__(self, named: Any, source: Source, known: dict[FilePath, Box | None]) -> None:
        self.readable = isinstance(named, dict)
        self.boxes: dict[str, Box] = {}
        self.own_problems: list[Problem] = []
        self.box_problems: list[Problem] = []
        self._bad: set[str] = set()
        self._source = source
        self._read = known
        listed = list(named.items()) if isinstance(named, dict) else []
        if len(listed) > MOST_TABLES:
            found, allowed = f"a table of {len(listed)} boxes", f"at most {MOST_TABLES}"
            self.own_problems.append(source.problem(Code.OUT_OF_RANGE, ("boxes",), found, allowed))
        for name, where in listed[:MOST_TABLES]:
            box = self._box(name, where)
            if box is None:
                self._bad.add(name)
            self.boxes[name] = Box.model_construct(name=name) if box is None else box

    def counts(self, fault: Fault) -> bool:
        """Whether a fault of the jam is more than a bad box's."""
        if not self.readable:
            return fault.allowed.startswith(_OF_THE_JAM)
        of_bad = any(fault.found.startswith(f"{quoted(name)[:-1]}/") for name in self._bad)
        return not of_bad or fault.allowed.startswith(_OF_THE_JAM)

    def _box(self, name: str, where: Any) -> Box | None:
        if not isinstance(where, str) or not where:
            allowed = "a box file in quotes, relative to this file"
            found = self._source.written(where)
            self.own_problems.append(self._source.problem(Code.WRONG_TYPE, ("boxes", name), found, allowed))
            return None
        file = FilePath(self._source.file).parent / where
        if file not in self._read:
            self._read[file] = self._fresh(name, where, str(file))
        return self._read[file]

    def _fresh(self, name: str, where: str, file: str) -> Box | None:
        try:
            return box_at(file)
        except Unopened as error:
            problem = error.problems[0]
            found = f"{self._source.written(where)} ({problem.found})"
            near = str(FilePath(where).with_name(FilePath(problem.suggestion).name)) if problem.suggestion else None
            told = self._source.problem(problem.code, ("boxes", name), found, problem.allowed, near)
            self.own_problems.append(told)
        except BadInput as error:
            self.box_problems.extend(error.problems)
        return None


def _refuse_other_kinds(data: dict[str, Any], source: Source, wanted: type[Box] | type[Jam]) -> None:
    """Refuse a file that is of another kind as a whole, in one line instead of one a key."""
    own: type[Strict] = wanted
    other: type[Strict] = Jam if wanted is Box else Box
    if "jams" in data and not (keys_of(Jam).keys() - {"title"}) & data.keys():
        raise BadInput([source.problem(Code.OTHER_KIND, ("jams",), "this is a set; here hardpan takes one jam")])
    strangers = [key for key in data if key in keys_of(other) and key not in keys_of(own)]
    telling = next((key for key in strangers if key != "title"), "title")
    if strangers and not any(key in keys_of(own) for key in data if key != "name"):
        raise BadInput([source.problem(Code.OTHER_KIND, (telling,), _A_JAM if wanted is Box else _A_BOX)])
