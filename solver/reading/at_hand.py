"""The box files at hand: beside the jam, in the user's own folder, and those that come with hardpan."""

from __future__ import annotations

import os
from functools import cached_property
from pathlib import Path
from typing import NamedTuple

from solver.boxes import Where, files_at_hand
from solver.codes import Code
from solver.gear.box import Box
from solver.gear.nearest import nearest
from solver.gear.words import quoted
from solver.reading.jams import box_at
from solver.reading.places import keys_of
from solver.reading.problems import BadInput, Problem
from solver.reading.source import toml_source

NAMED_OR_AT_HAND = "a box file, or the name of one at hand (hardpan box list shows them)"
"""What belongs where a box file is named."""

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


class Shelf:
    """Every box file at hand for a jam in some folder, or for one in the folder where one stands.

    They stand beside the jam (in its folder, or in a folder ``boxes`` there), in the user's own folder, or come with
    hardpan. Files of another kind, such as jams, are left out; a box file that cannot be read is listed with what is
    wrong.
    """

    def __init__(self, *folders: Path) -> None:
        self._folders = folders or (Path(),)

    @cached_property
    def all(self) -> tuple[AtHand, ...]:
        """All of them, the nearest first."""
        return tuple(found for where, file in files_at_hand(*self._folders) if (found := _at_hand(where, file)))

    @cached_property
    def named(self) -> dict[str, AtHand]:
        """Each by its name without ending, or by its path where a nearer one has the name."""
        named: dict[str, AtHand] = {}
        for found in self.all:
            named[str(found.file) if found.file.stem in named else found.file.stem] = found
        return named

    def find(self, word: str) -> Path | None:
        """The box file that a word means, the nearest first: a path, with or without its ending, or a name.

        A path is one from where one stands, or from the folder of the jam. A name is that of a file at hand without
        its ending, or that of the box in it, in capitals or not.
        """
        path = Path(word).expanduser() if word.startswith("~") else Path(word)
        plain = is_name(word)
        for place in dict.fromkeys((path, *(folder / path for folder in self._folders))):
            for file in (place,) if plain else (place, Path(f"{place}.toml")):
                if os.path.isfile(file):  # noqa: PTH113  of what is no path, it just says no
                    return file
        return self._called(word) if plain else None

    def near(self, word: str) -> str | None:
        """The name at hand that a word is nearest to, if any is near."""
        return nearest(word, list(self.named))

    def _called(self, word: str) -> Path | None:
        if word in self.named:
            return self.named[word].file
        low = word.casefold()
        for name, found in self.named.items():
            if low == name.casefold() or (found.box is not None and low == found.box.name.casefold()):
                return found.file
        return None


def is_name(word: str) -> bool:
    """Whether a word is the name of a box file and no path."""
    return Path(word).name == word and not word.endswith(".toml")


def box_file(word: str) -> Path:
    """The box file that a word means from where one stands; a path that leads nowhere stays as it is.

    Raises:
        BadInput: no box file of that name is at hand.
    """
    shelf = Shelf()
    found = shelf.find(word)
    if found is None and not is_name(word):
        return Path(word)
    if found is None:
        shown = word if word.isprintable() and word else quoted(word)
        raise BadInput([Problem(Code.NO_FILE, shown, None, "", _NOT_AT_HAND, "", shelf.near(word))])
    return found


def _at_hand(where: Where, file: Path) -> AtHand | None:
    try:
        return AtHand(file, where, box_at(str(file)))
    except BadInput as error:
        return AtHand(file, where, None, error.problems) if _is_box_file(file) else None


def _is_box_file(file: Path) -> bool:
    """Whether a file is meant as a box file: it has a key that only they have, or cannot be read at all."""
    try:
        data = toml_source(str(file), "a box file")[0]
    except BadInput:
        return True
    return bool(data.keys() & keys_of(Box).keys() - {"name"}) or data.keys() == {"name"}
