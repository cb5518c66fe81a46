"""A set: several jams that must work on one wiring, in the order in which they are played."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import PurePosixPath
from typing import Annotated

from pydantic import Field

from solver.gear.box import Box, Remembers
from solver.gear.words import Allowed, Name, Spot, Strict
from solver.jam.jam import Jam

MOST_JAMS = 100
"""How many jams a set has at most."""

FileName = Annotated[
    str, Field(strict=True, min_length=1, max_length=1000), Allowed("a file in quotes, relative to this file")
]


class SetFile(Strict):
    """Several jams for one evening, in their order."""

    title: Name
    jams: Annotated[
        tuple[FileName, ...],
        Field(min_length=1, max_length=MOST_JAMS),
        Allowed(f"a list of 1 to {MOST_JAMS} jam files"),
    ]


class TableJam(Jam):
    """A jam of a set, with all boxes of the set on its table.

    ``guests`` are the boxes that only other jams use: they stay plugged in, but no part of this jam lives there.
    """

    guests: frozenset[str] = frozenset()

    def may_hold(self, engine: Spot) -> bool:
        """Whether a part may live on the engine."""
        return engine.box not in self.guests


@dataclass(frozen=True)
class JamSet:
    """Jams by the names of their files, in playing order; boxes of one name are one box.

    ``others`` are boxes that stand on the table, though no jam here uses them. ``first`` is the first jam's number.
    """

    title: str
    files: dict[str, Jam]
    others: dict[str, Box] = field(default_factory=dict)
    first: int = 1

    @cached_property
    def names(self) -> dict[str, str]:
        """The number and title of each jam."""
        return {file: f"{number} {jam.title}" for number, (file, jam) in enumerate(self.files.items(), self.first)}

    def found(self, name: str) -> str | None:
        """The jam that is meant: by its file, with or without folder and ending, by its title, or by its number."""
        known = {
            file: (file, *_short(file), jam.title, self.names[file].split()[0]) for file, jam in self.files.items()
        }
        alike = [file for file, names in known.items() if name in names]
        return name if name in self.files else alike[0] if len(alike) == 1 else None

    @cached_property
    def boxes(self) -> dict[str, Box]:
        """Every box of any jam, in the order in which they turn up, then the others."""
        used = {name: box for jam in self.files.values() for name, box in jam.boxes.items()}
        return used | {name: box for name, box in self.others.items() if name not in used}

    @cached_property
    def jams(self) -> dict[str, Jam]:
        """Each jam with all boxes of the set on its table, in one order."""
        names = list(self.boxes)
        return {file: jam if list(jam.boxes) == names else self._on_table(jam) for file, jam in self.files.items()}

    def alone(self, file: str) -> Jam:
        """One jam with all boxes of the set on its table, as if they were its own."""
        jam = self.jams[file]
        return Jam.model_construct(**{name: getattr(jam, name) for name in Jam.model_fields})

    def changed(self, files: dict[str, Jam]) -> JamSet:
        """The set with other jams."""
        return JamSet(self.title, files, self.others)

    def some(self, files: Collection[str]) -> JamSet:
        """These jams alone, on the boxes that they use."""
        return JamSet(self.title, {file: jam for file, jam in self.files.items() if file in files})

    def only(self, files: Collection[str]) -> JamSet:
        """These jams alone, on the whole table."""
        kept = {file: jam for file, jam in self.files.items() if file in files}
        return JamSet(self.title, kept, self.boxes, self.first + list(self.files).index(next(iter(kept))))

    def _on_table(self, jam: Jam) -> TableJam:
        own = {name: getattr(jam, name) for name in Jam.model_fields}
        guests = frozenset(self.boxes.keys() - jam.boxes.keys())
        return TableJam.model_construct(**own | {"boxes": self.boxes, "guests": guests})


def slot_key(slot: str) -> str:
    """What two ways of writing one slot have in common: capitals and spaces do not count."""
    return " ".join(slot.casefold().split())


def _short(file: str) -> tuple[str, str]:
    path = PurePosixPath(file)
    return path.name, path.stem


def by_hand(jams: Sequence[Jam], box: str) -> tuple[int, ...]:
    """The jams, counted from 0, before which hands have to set what is to be other on a box: nothing is recalled there.

    Where no jam names a slot of the box, the project of each is recalled all the same. The first jam is set up before
    all are played.
    """
    told = any(box in jam.recall for jam in jams)
    return tuple(turn for turn, jam in enumerate(jams) if turn and told and box not in jam.recall)


def is_tied(jams: Sequence[Jam], box: str, gear: Remembers, hands: bool = True) -> bool:
    """Whether something about an engine, strip or track does not simply come with each jam's project.

    Args:
        jams: The jams of a set, in playing order.
        box: Where it is.
        gear: What it is.
        hands: Whether it counts that hands have to move it.
    """
    return len(jams) > 1 and (gear.keeps or (hands and bool(by_hand(jams, box))))
