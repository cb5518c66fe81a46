"""From files to boxes, jams and plans; whatever is wrong is said with file, line, key, what was found and allowed."""

import os
from collections.abc import Callable, Iterable
from functools import cache
from typing import TYPE_CHECKING

from solver.gear.box import Box
from solver.jam.intents import Avoid, Keep
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.plans import Plan
from solver.reading.files import text_of
from solver.reading.jams import box_at, jam_at
from solver.reading.lines import line_of, lines
from solver.reading.plans import plan_at, set_plan_at
from solver.reading.problems import BadInput, Path, Problem, key_text
from solver.reading.saved import Saved, SavedSet, saved_at, saved_set_at
from solver.reading.sets import is_set, set_at, set_from
from solver.reading.source import json_source, toml_source
from solver.reading.wishes import wish_in
from solver.set_plans import SetPlan

if TYPE_CHECKING:
    from solver.reading.asked import Request
    from solver.reading.changed import Changed

__all__ = [
    "BadInput",
    "Problem",
    "Saved",
    "SavedSet",
    "is_set_file",
    "is_set_plan_file",
    "key_text",
    "line_finder",
    "line_of",
    "lines",
    "read_box",
    "read_changed",
    "read_jam",
    "read_jam_or_set",
    "read_plan",
    "read_saved",
    "read_saved_set",
    "read_set",
    "read_set_plan",
    "read_wish",
]


def read_jam(path: str | os.PathLike[str]) -> Jam:
    """Read a jam file and the box files that it names, relative to it.

    Raises:
        BadInput: anything in any of these files is wrong; it lists everything that is.
    """
    return jam_at(os.fspath(path))


def read_set(path: str | os.PathLike[str]) -> JamSet:
    """Read a set file, the jam files that it names, and their box files.

    Raises:
        BadInput: anything in any of these files is wrong, or jams disagree about a box or a slot.
    """
    return set_at(os.fspath(path))


def read_jam_or_set(path: str | os.PathLike[str]) -> Jam | JamSet:
    """Read a file that may be a jam's or a set's.

    Raises:
        BadInput: anything in it, or in a file that it names, is wrong.
    """
    data, source = toml_source(os.fspath(path), "a jam or set file")
    return set_from(data, source) if is_set(data) else jam_at(os.fspath(path))


def is_set_file(path: str | os.PathLike[str]) -> bool:
    """Whether a file is meant as a set's.

    Raises:
        BadInput: it cannot be read, or is no TOML.
    """
    return is_set(toml_source(os.fspath(path), "a jam or set file")[0])


def read_box(path: str | os.PathLike[str]) -> Box:
    """Read a box file.

    Raises:
        BadInput: anything in it is wrong; it lists everything that is.
    """
    return box_at(os.fspath(path))


def read_plan(path: str | os.PathLike[str], jam: Jam) -> Plan:
    """Read a plan file, made by hardpan or by hand, for a jam.

    A part of the jam that the plan leaves out is no fault of the file.

    Raises:
        BadInput: the file is no plan, or names what is not on the jam's table.
    """
    return plan_at(os.fspath(path), jam)


def read_set_plan(path: str | os.PathLike[str], of: JamSet) -> SetPlan:
    """Read a plan file for a set.

    Raises:
        BadInput: the file is no plan of a set, or names what is not on its table.
    """
    return set_plan_at(os.fspath(path), of)


def read_saved(path: str | os.PathLike[str]) -> Saved:
    """Read a plan file that carries its jam, as hardpan saves it.

    Raises:
        BadInput: the file is no plan, or carries no jam or one that cannot be.
    """
    return saved_at(os.fspath(path))


def read_saved_set(path: str | os.PathLike[str]) -> SavedSet:
    """Read a plan file that carries its set, as hardpan saves it.

    Raises:
        BadInput: the file is no plan of a set, or carries no set or one that cannot be.
    """
    return saved_set_at(os.fspath(path))


def is_set_plan_file(path: str | os.PathLike[str]) -> bool:
    """Whether a plan file is meant as a set's.

    Raises:
        BadInput: it cannot be read, or is no JSON.
    """
    data, _ = json_source(os.fspath(path), "a plan file")
    return isinstance(data, dict) and "jams" in data


def read_changed(path: str | os.PathLike[str], requests: "Iterable[Request]") -> "Changed":
    """Read a jam file and changes of it, as options ask for them.

    Raises:
        BadInput: the file, what is asked, or the jam after it says what cannot be.
    """
    from solver.reading.changed import Changed  # noqa: PLC0415  only what-ifs change a file

    return Changed(os.fspath(path), requests)


def read_wish(text: str, jam: Jam, option: str) -> Keep | Avoid:
    """Read one ``keep`` or ``avoid`` that was given as the value of an option.

    Raises:
        BadInput: the text is no TOML, is another kind of wish, or names what is not on the jam's table.
    """
    return wish_in(text, jam, option)


def line_finder(path: str | os.PathLike[str]) -> Callable[[Path], int | None]:
    """A function from a path, such as ``("intent", 2, "with")`` (counted from 0), to its line in a jam file.

    Where the file does not say it, the line is that of the nearest thing above it that the file says, or None.

    The file is read when the first line is asked for, which raises BadInput where it cannot be read any more.
    """

    @cache
    def known() -> dict[Path, int]:
        return lines(text_of(os.fspath(path), "a jam file"))

    return lambda path: line_of(known(), path) if path[:1] in known() else None
