"""Box files at hand, in the words of commands."""

import shlex
from collections.abc import Iterator, Mapping
from pathlib import Path

from solver.boxes import SHIPPED
from solver.gear.words import quoted
from solver.making.jam_questions import OnTable
from solver.making.questions import NotSoError
from solver.reading import BadInput, read_box
from solver.reading.at_hand import Shelf


class FoundBoxes:
    """The box files at hand for a file in some folder, or in the folder where one stands."""

    def __init__(self, folder: Path) -> None:
        self._shelf = Shelf(folder, Path())

    def choices(self) -> Iterator[tuple[str, str]]:
        """Each that can be read, as it would be typed and with what it is."""
        for name, found in self._shelf.named.items():
            if found.box is not None:
                yield name, f"{found.box.name}: {found.box.about}" if found.box.about else found.box.name

    def read(self, text: str) -> OnTable:
        """The box file that is meant, and the box in it.

        Raises:
            NotSoError: there is none, or it cannot be read.
        """
        file = self._shelf.find(text)
        if file is None:
            near = self._shelf.near(text)
            other = "hardpan box list shows those at hand; hardpan box new makes one."
            hint = f"Did you mean {near}?" if near else other
            raise NotSoError(f"There is no box file {quoted(text)}. {hint}")
        try:
            return OnTable(file, read_box(file))
        except BadInput as error:
            raise NotSoError(str(error)) from None


def notes_of_shipped(files: Mapping[str, Path]) -> list[str]:
    """How to make an own box file of each that comes with hardpan; the files are told with their names on the table."""
    return [
        f"Note: {name} is a box file that comes with hardpan. Make one of your own of it: "
        f"hardpan box new --from {file.stem} --name {shlex.quote(name)}"
        for name, file in files.items()
        if file.resolve().is_relative_to(SHIPPED.resolve())
    ]
