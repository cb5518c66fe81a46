"""From files to boxes, jams and plans; whatever is wrong is said with file, line, key, what was found and allowed."""

import os

from solver.gear.box import Box
from solver.gear.words import dotted
from solver.jam.jam import Jam
from solver.plans import Plan
from solver.reading.files import text_of
from solver.reading.jams import box_at, jam_at
from solver.reading.lines import line_of, lines
from solver.reading.plans import plan_at
from solver.reading.problems import BadInput, Problem, key_text

__all__ = [
    "BadInput",
    "Problem",
    "key_text",
    "line_of",
    "lines",
    "read_box",
    "read_jam",
    "read_plan",
    "statement_lines",
]


def read_jam(path: str | os.PathLike[str]) -> Jam:
    """Read a jam file and the box files that it names, relative to it.

    Raises:
        BadInput: anything in any of these files is wrong; it lists everything that is.
    """
    return jam_at(os.fspath(path))


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


def statement_lines(path: str | os.PathLike[str]) -> dict[str, int]:
    """The line of every statement of a jam file by its id, such as ``intent.3`` or ``cables."6.35 mono"``.

    Raises:
        BadInput: the file cannot be read.
    """
    return {dotted(*key): line for key, line in lines(text_of(os.fspath(path), "a jam file")).items() if key}
