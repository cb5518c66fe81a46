"""What is looked for in a book."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from solver.book.entries import Book, JamEntry
from solver.jam.sets import slot_key


class Sought(NamedTuple):
    """Pieces of text that an entry must have, all that are given; capitals and spaces do not count.

    ``box`` is in the name of one of its boxes, ``slot`` in a slot of that box (of any, without ``box``), ``text`` in
    its title, file, boxes, parts, sounds, slots, project names or sets.
    """

    box: str | None = None
    slot: str | None = None
    text: str | None = None

    def found_in(self, book: Book) -> Book:
        """The book with the jams that fit, the sets that have any of them, and the clashes in which any of them is."""
        if self == Sought():
            return book
        jams = tuple(entry for entry in book.jams if self._fits(entry))
        files = {entry.file for entry in jams}
        whole = {file.resolve() for file in files}
        return replace(
            book,
            jams=jams,
            sets=tuple(entry for entry in book.sets if not whole.isdisjoint(entry.on_file.jams)),
            clashes=tuple(clash for clash in book.clashes if any(claim.file in files for claim in clash.claims)),
        )

    def _fits(self, entry: JamEntry) -> bool:
        boxes = [name for name, box in entry.jam.boxes.items() if _has(self.box, name) or _has(self.box, box.name)]
        slots = [entry.jam.recall[box] for box in boxes if box in entry.jam.recall]
        return (
            bool(boxes)
            and (self.slot is None or any(_has(self.slot, slot) for slot in slots))
            and any(_has(self.text, said) for said in _said(entry))
        )


def _has(sought: str | None, said: str) -> bool:
    return sought is None or slot_key(sought) in slot_key(said)


def _said(entry: JamEntry) -> Iterator[str]:
    """All that is told of a jam."""
    jam = entry.jam
    yield from (jam.title, str(entry.file), *jam.recall.values(), *entry.names.values())
    for name, box in jam.boxes.items():
        yield from (name, box.name)
    for name, part in jam.parts.items():
        yield from (name, part.sound or "", *part.sounds)
    yield from (one.title for one in entry.sets)
