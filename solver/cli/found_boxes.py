"""Box files that were named in words: by a path, by a file at hand, or by the name of the box in it."""

from collections.abc import Iterator
from functools import cached_property
from pathlib import Path

from solver.gear.words import quoted
from solver.making.jam_questions import OnTable
from solver.making.questions import NotSoError
from solver.reading import BadInput, read_box
from solver.reading.at_hand import boxes_at_hand
from solver.reading.problems import nearest


class FoundBoxes:
    """The box files at hand for a file in some folder: beside it, in the folder one stands in, and elsewhere."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    @cached_property
    def listed(self) -> dict[str, OnTable]:
        """Each box file at hand that can be read, by its name without ending, or by its path where others have it."""
        named: dict[str, OnTable] = {}
        seen: set[Path] = set()
        for found in (*boxes_at_hand(self._folder), *boxes_at_hand(Path())):
            file = found.file.resolve()
            if found.box is not None and file not in seen:
                stem = found.file.stem
                named[str(found.file) if stem in named else stem] = OnTable(found.file, found.box)
                seen.add(file)
        return named

    def choices(self) -> Iterator[tuple[str, str]]:
        """Each with what it is."""
        for name, found in self.listed.items():
            yield name, f"{found.box.name}: {found.box.about}" if found.box.about else found.box.name

    def file(self, text: str) -> Path:
        """The file that is meant.

        Raises:
            NotSoError: there is none.
        """
        path = Path(text).expanduser()
        for place in (path, self._folder / path):
            if place.is_file():
                return place
        for name, found in self.listed.items():
            if text.casefold() in (name.casefold(), found.box.name.casefold()):
                return found.file
        for broken in (*boxes_at_hand(self._folder), *boxes_at_hand(Path())):
            if broken.box is None and broken.file.stem == text:
                return broken.file
        near = nearest(text, list(self.listed))
        hint = f" Did you mean {near}?" if near else " hardpan box list shows those at hand; hardpan box new makes one."
        raise NotSoError(f"There is no box file {quoted(text)}.{hint}")

    def read(self, text: str) -> OnTable:
        """The box file that is meant, and the box in it.

        Raises:
            NotSoError: there is none, or it cannot be read.
        """
        file = self.file(text)
        try:
            return OnTable(file, read_box(file))
        except BadInput as error:
            raise NotSoError(str(error)) from None
