"""The box files at hand: beside the jam, in the user's own folder, and those that come with hardpan."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Literal, NamedTuple

from solver.codes import Code
from solver.gear.box import Box
from solver.gear.words import quoted
from solver.reading.jams import box_at
from solver.reading.places import keys_of
from solver.reading.problems import BadInput, Problem, nearest
from solver.reading.source import toml_source

Where = Literal["beside", "yours", "shipped"]

SHIPPED = Path(__file__).parent.parent / "boxes"
"""Where the box files are that come with hardpan."""

YOURS = "HARDPAN_BOXES"
"""The environment variable that names the user's own folder of box files."""


_NOT_AT_HAND = (
    "no box file of that name is here, in your own folder, or among those that come with hardpan; hardpan box list "
    "shows those that are"
)


class AtHand(NamedTuple):
    """A box file at hand, the box in it, or what is wrong with it."""

    file: Path
    where: Where
    box: Box | None
    problems: tuple[Problem, ...] = ()


def your_folder() -> Path:
    """The user's own folder of box files, whether or not it is there yet."""
    named = os.environ.get(YOURS)
    if named:
        return Path(named).expanduser()
    home = os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share"
    return Path(home) / "hardpan" / "boxes"


def boxes_at_hand(folder: Path) -> tuple[AtHand, ...]:
    """Every box file beside a jam (in its folder, or in a folder ``boxes`` there), of the user, and shipped.

    Files of another kind, such as jams, are left out; a box file that cannot be read is listed with what is wrong.
    """
    return tuple(_listed(folder))


def box_file(word: str, folder: Path) -> Path:
    """The box file that a word means: a path as it stands, or the name of a file at hand without its ending.

    The nearest file wins: beside the jam, then the user's own, then what comes with hardpan.

    Raises:
        BadInput: no box file of that name is at hand.
    """
    path = Path(word)
    ended = path.with_name(f"{path.name}.toml") if path.name else path
    if path.suffix == ".toml" or path.is_file() or (path.name != word and not ended.is_file()):
        return path
    if path.name != word:
        return ended
    known: dict[str, Path] = {}
    for _, file in _files(folder):
        if file.stem not in known and _is_box_file(file):
            known[file.stem] = file
    if word in known:
        return known[word]
    shown = word if word.isprintable() and word else quoted(word)
    raise BadInput([Problem(Code.NO_FILE, shown, None, "", _NOT_AT_HAND, "", nearest(word, list(known)))])


def _listed(folder: Path) -> Iterator[AtHand]:
    for where, file in _files(folder):
        try:
            yield AtHand(file, where, box_at(str(file)))
        except BadInput as error:
            if _is_box_file(file):
                yield AtHand(file, where, None, error.problems)


def _is_box_file(file: Path) -> bool:
    """Whether a file is meant as a box file: it has a key that only they have, or cannot be read at all."""
    try:
        data = toml_source(str(file), "a box file")[0]
    except BadInput:
        return True
    return bool(data.keys() & keys_of(Box).keys() - {"name"}) or data.keys() == {"name"}


def _files(folder: Path) -> Iterator[tuple[Where, Path]]:
    """Every file that may be a box file at hand, the nearest first."""
    places: tuple[tuple[Where, Path], ...] = (
        ("beside", folder),
        ("beside", folder / "boxes"),
        ("yours", your_folder()),
        ("shipped", SHIPPED),
    )
    seen: set[Path] = set()
    for where, place in places:
        if place.is_dir() and place.resolve() not in seen:
            seen.add(place.resolve())
            for file in sorted(place.glob("*.toml")):
                yield where, file
