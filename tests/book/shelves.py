"""A folder with a set, its jams and a jam of its own, to be changed by a test."""

import json
import shutil
from pathlib import Path
from typing import Any

import solver
from solver.book.entries import Book, JamEntry, book_of
from solver.outcome import Planned, PlannedSet
from solver.reading import read_jam_or_set
from tests.showing import SCENARIOS

FILES = (
    "low-tide.toml",
    "sets/first-watch.toml",
    *(f"sets/bells/{name}.toml" for name in ("first", "second", "third")),
)


def shelf(folder: Path) -> Path:
    """Fill a folder: Low Tide, and the set First Watch of three bells."""
    shutil.copytree(SCENARIOS / "boxes", folder / "boxes")
    for name in FILES:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(SCENARIOS / name, folder / name)
    return folder


def save(file: Path, plan: Path) -> dict[str, Any]:
    """Plan the jam or set in a file and save the plan; its data."""
    asked = read_jam_or_set(file)
    outcome = solver.plan(asked)
    assert isinstance(outcome, Planned | PlannedSet)
    data = outcome.best.to_json()
    plan.write_text(json.dumps(data), "utf-8")
    return data


def edit(file: Path, old: str, new: str) -> None:
    """Put one text for another one that stands in a file once."""
    text = file.read_text("utf-8")
    assert text.count(old) == 1
    file.write_text(text.replace(old, new), "utf-8")


def entry(book: Book, title: str) -> JamEntry:
    """The one jam of a title."""
    (found,) = (entry for entry in book.jams if entry.jam.title == title)
    return found


def states(folder: Path) -> dict[str, list[tuple[str, str, tuple[str, ...]]]]:
    """Of every jam and set with saved plans: their names, states and reasons."""
    book = book_of(folder)
    plans = {entry.jam.title: entry.plans for entry in book.jams}
    plans |= {entry.on_file.title: entry.plans for entry in book.sets}
    return {
        title: [(plan.file.name, plan.state, plan.reasons) for plan in saved] for title, saved in plans.items() if saved
    }
