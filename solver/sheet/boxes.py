"""The box files at hand and what was found in some, as text and as data."""

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

from solver.boxes import YOURS, Where
from solver.flow.wording import counted
from solver.reading.at_hand import AtHand
from solver.reading.box_checks import Looked
from solver.sheet.cells import clean, wrap
from solver.sheet.tables import table

WHERE: dict[Where, str] = {"beside": "beside", "yours": "yours", "shipped": "hardpan's"}


def boxes_text(at_hand: Iterable[AtHand], yours: Path, width: int) -> str:
    """A table of the box files at hand, what is wrong in some, and which folder is the user's own.

    Args:
        at_hand: what was found, the nearest first.
        yours: the user's own folder.
        width: cells a line may take.
    """
    listed = list(at_hand)
    rows = [
        (one.box.name if one.box else "-", one.box.about if one.box else "cannot be read", shown(one), WHERE[one.where])
        for one in listed
    ]
    lines = table(("name", "what it is", "file", "where"), rows, width) or ["No box file is at hand."]
    bad = [one for one in listed if one.problems]
    if bad:
        lines += ["", "What is wrong, the first of each file:"]
        lines += [line for one in bad for line in wrap(str(one.problems[0]), width, "- ", "  ")]
    there = "" if yours.is_dir() else " (it is not there yet)"
    lines += ["", *wrap(f"Your own folder is {short(yours)}{there}; the variable {YOURS} names another.", width)]
    lines += wrap("What is hardpan's comes with it, to be copied and changed.", width)
    lines += wrap("hardpan box show NAME shows one, NAME being its file without .toml.", width)
    return "\n".join(lines) + "\n"


def boxes_data(at_hand: Iterable[AtHand], folder: Path, yours: Path) -> dict[str, Any]:
    """The same for programs."""
    return {
        "folder": str(folder),
        "yours": str(yours),
        "boxes": [
            {
                "name": one.box.name if one.box else None,
                "about": one.box.about if one.box else None,
                "file": str(one.file),
                "where": one.where,
                "problems": [str(problem) for problem in one.problems],
            }
            for one in at_hand
        ],
    }


def shown(one: AtHand) -> str:
    """A file beside the jam as it is reached from here; any other by its name in its folder."""
    return str(one.file) if one.where == "beside" else one.file.name


def short(path: Path) -> str:
    """A path with ``~`` for the user's home."""
    try:
        return str("~" / path.relative_to(Path.home()))
    except (ValueError, RuntimeError):
        return str(path)


def checks_text(checked: Sequence[Looked]) -> str:
    """One line for each thing that is wrong or doubtful, then how many there are.

    Args:
        checked: the files, in the order in which they are told of.
    """
    found = [*(line for one in checked for line in map(str, (*one.problems, *one.doubts)))]
    wrong, doubtful = _counts(checked)
    files = counted(len(checked), "box file")
    if not found:
        return f"All is well: {files}, nothing wrong and nothing doubtful.\n"
    lines = [*map(clean, found), f"{files}: {counted(wrong, 'error')}, {counted(doubtful, 'doubt')}."]
    return "\n".join(lines) + "\n"


def checks_data(checked: Sequence[Looked]) -> dict[str, Any]:
    """The same for programs."""
    wrong, doubtful = _counts(checked)
    return {
        "status": "bad input" if wrong else "doubtful" if doubtful else "well",
        "problems": [str(problem) for one in checked for problem in one.problems],
        "files": [
            {
                "file": one.file,
                "name": one.box.name if one.box else None,
                "problems": [problem._asdict() for problem in one.problems],
                "doubts": [
                    {"code": doubt.code, "line": doubt.line, "key": doubt.key, "sentence": doubt.sentence}
                    for doubt in one.doubts
                ],
            }
            for one in checked
        ],
    }


def _counts(checked: Iterable[Looked]) -> tuple[int, int]:
    every = list(checked)
    return sum(len(one.problems) for one in every), sum(len(one.doubts) for one in every)
