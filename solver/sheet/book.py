"""The book of a folder as text and as data: what is there, where it is saved, and what to look after."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from solver.book.entries import Book, JamEntry, SetEntry
from solver.book.saved import Saved, state_of
from solver.flow.wording import counted, listing
from solver.reading.problems import Problem
from solver.sheet.cells import wrap
from solver.sheet.sections import points
from solver.sheet.tables import table
from solver.sheet.text import headed
from solver.sheet.words import listed

SHARED = "What is saved there last is all that is left: save each on a slot of its own."


def book_text(found: Book, whole: Book, width: int) -> str:
    """Write the tables of jams, slots and sets, then plans that are stale, slots that clash, and files that are wrong.

    Args:
        found: The jams that are shown.
        whole: All that the folder holds.
        width: Cells a line may take, 80 to 100.
    """
    name = "this folder" if found.folder == Path() else found.folder
    lines = [*headed(f"Book of {name}", "=", width), _counts(found, whole)]
    for title, section in (
        ("Jams", _jams(found, width)),
        ("Where they are saved", _slots(found, width)),
        ("Sets", _sets(found, width)),
        ("Stale plans", points(_stale(found), width)),
        ("Slots claimed twice", _clashes(found, width)),
        ("Saved plans of no jam or set that can be read here", points(_strays(found), width)),
        ("Files that cannot be read", points(_unread(found), width)),
    ):
        if section:
            lines += ["", *headed(title, "-", width), *section]
    return "\n".join(lines) + "\n"


def _counts(found: Book, whole: Book) -> str:
    jams, sets = counted(len(whole.jams), "jam"), counted(len(whole.sets), "set")
    if found is not whole:
        return f"{len(found.jams) or 'None'} of {jams} here {'fits' if len(found.jams) < 2 else 'fit'}."
    said = f"{jams}, {sets}."
    return said[0].upper() + said[1:]


def _jams(book: Book, width: int) -> list[str]:
    """The jams, folder by folder; their sets where any of a folder is in one."""
    lines: list[str] = []
    for folder in dict.fromkeys(entry.file.parent for entry in book.jams):
        here = [entry for entry in book.jams if entry.file.parent == folder]
        within = any(entry.sets for entry in here)
        headers = ("jam", "file", "boxes", *(("sets",) if within else ()), "cables", "plan")
        if folder != book.folder:
            lines += [*([""] if lines else []), *wrap(f"In {folder}:", width)]
        lines += table(headers, [_row(entry, within) for entry in here], width)
    return lines


def _row(entry: JamEntry, within: bool) -> tuple[str, ...]:
    return (
        entry.jam.title,
        entry.file.name,
        listed(entry.jam.boxes),
        *((listed(one.title for one in entry.sets),) if within else ()),
        "-" if entry.cables is None else str(entry.cables),
        f"set: {state_of(entry.set_plans)}" if entry.set_plans and not entry.plans else state_of(entry.plans),
    )


def _slots(book: Book, width: int) -> list[str]:
    """The slots, box by box in the order of their numbers, then the jams that have none."""
    rows = [
        (box, slot, entry.names.get(box, "-"), entry.jam.title)
        for entry in book.jams
        for box, slot in entry.jam.recall.items()
    ]
    rows.sort(key=lambda row: [_natural(cell) for cell in row])
    lines = table(("box", "slot", "project name", "jam"), rows, width)
    bare = [entry.jam.title for entry in book.jams if not entry.jam.recall]
    if bare:
        lines += [*([""] if lines else []), *wrap(f"No slot under [recall]: {listing(bare)}.", width)]
    return lines


def _natural(text: str) -> list[tuple[int, str]]:
    """A key that puts slot 2 before slot 10."""
    return [(int(piece), "") if piece.isdecimal() else (-1, piece) for piece in re.split(r"(\d{1,9})", text.casefold())]


def _sets(book: Book, width: int) -> list[str]:
    rows = [
        (one.title, str(one.file.relative_to(book.folder)), str(len(one.names)), _set_state(entry))
        for entry in book.sets
        for one in [entry.on_file]
    ]
    return table(("set", "file", "jams", "plan"), rows, width)


def _set_state(entry: SetEntry) -> str:
    return state_of(entry.plans) if entry.on_file.of is not None else "cannot be read"


def _stale(book: Book) -> Iterator[str]:
    for plan in book.stale:
        more = f" And {counted(len(plan.reasons) - 1, 'more thing')}." if len(plan.reasons) > 1 else ""
        reason = plan.reasons[0].rstrip(".")
        yield f"{reason}.{more}" if reason.startswith(str(plan.file)) else f"{plan.file}: {reason}.{more}"


def _clashes(book: Book, width: int) -> list[str]:
    said = []
    for clash in book.clashes:
        claims = listing(f"{claim.title} ({claim.file}:{claim.line})" for claim in clash.claims)
        said.append(f"{clash.box}, {clash.claims[0].slot}: {claims}.")
    return [*points(said, width), *wrap(SHARED, width)] if said else []


def _strays(book: Book) -> Iterator[str]:
    for plan in book.strays:
        title = plan.data.get("title")
        yield f"{plan.file}{f' ({title})' if isinstance(title, str) else ''}"


def _unread(book: Book) -> Iterator[str]:
    """The first thing wrong in each file; what is wrong in a set because a jam of it is wrong is told once."""
    told: set[Problem] = set()
    for one in book.unread:
        places = [problem._replace(file=os.path.normpath(problem.file)) for problem in one.problems]
        fresh = [problem for problem in places if problem not in told]
        told.update(places)
        if fresh:
            more = len(fresh) - 1
            yield f"{fresh[0]}{f' (and {more} more)' if more else ''}"


def book_data(book: Book) -> dict[str, Any]:
    """The same for programs."""
    return {
        "folder": str(book.folder),
        "status": "stale" if book.stale else "well",
        "jams": [_jam_data(entry) for entry in book.jams],
        "sets": [
            {
                "title": entry.on_file.title,
                "file": str(entry.on_file.file),
                "jams": list(entry.on_file.names),
                **_plans_data(entry.plans),
            }
            for entry in book.sets
        ],
        "slots_claimed_twice": [
            {"box": clash.box, "jams": [claim._asdict() | {"file": str(claim.file)} for claim in clash.claims]}
            for clash in book.clashes
        ],
        "plans_without_jam": [str(plan.file) for plan in book.strays],
        "unread": [{"file": str(one.file), "problems": [str(p) for p in one.problems]} for one in book.unread],
    }


def _jam_data(entry: JamEntry) -> dict[str, Any]:
    slots = entry.jam.recall
    return {
        "title": entry.jam.title,
        "file": str(entry.file),
        "boxes": list(entry.jam.boxes),
        "recall": {box: {"slot": slots.get(box), "name": name} for box, name in entry.names.items()},
        "cables": entry.cables,
        "sets": [{"title": one.title, "file": str(one.file)} for one in entry.sets],
        **_plans_data(entry.plans),
    }


def _plans_data(plans: Iterable[Saved]) -> dict[str, Any]:
    every = list(plans)
    return {
        "plan": state_of(every),
        "plans": [
            {"file": str(plan.file), "status": plan.state, "reasons": list(plan.reasons), "cables": plan.cables}
            for plan in every
        ],
    }
