"""The book itself: an entry for each jam and set, and slots of a box that two jams claim."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from solver.book.saved import Saved, saved_plans
from solver.book.shelf import JamFile, PlanFile, SetOnFile, Shelf, Unread
from solver.flow.project_names import project_names
from solver.jam.jam import Jam
from solver.jam.sets import slot_key


@dataclass(frozen=True)
class JamEntry:
    """One jam.

    ``sets`` are those that name it, ``names`` its project names by box, saved ones where there are any, ``plans`` its
    own and ``set_plans`` those of its sets.
    """

    file: Path
    jam: Jam
    sets: tuple[SetOnFile, ...]
    names: Mapping[str, str]
    plans: tuple[Saved, ...]
    set_plans: tuple[Saved, ...]

    @property
    def cables(self) -> int | None:
        """The cables of its plan, else of a set's; of one that holds, if any does."""
        first = sorted(self.plans or self.set_plans, key=lambda plan: plan.state == "stale")[:1]
        return first[0].cables if first else None


@dataclass(frozen=True)
class SetEntry:
    """One set."""

    on_file: SetOnFile
    plans: tuple[Saved, ...]


class Claim(NamedTuple):
    """One jam that claims a slot: its title, file and line, and the slot as it is written there."""

    title: str
    file: Path
    line: int
    slot: str


class Clash(NamedTuple):
    """A slot of a box that several jams claim: what is saved there last is all that is left."""

    box: str
    claims: tuple[Claim, ...]


@dataclass(frozen=True)
class Book:
    """What a folder holds. ``strays`` are saved plans that belong to no jam or set that can be read there."""

    folder: Path
    jams: tuple[JamEntry, ...]
    sets: tuple[SetEntry, ...]
    clashes: tuple[Clash, ...]
    strays: tuple[PlanFile, ...]
    unread: tuple[Unread, ...]

    @property
    def stale(self) -> tuple[Saved, ...]:
        """The listed plans that do not hold any more."""
        every = [*(entry.plans for entry in self.jams), *(entry.plans for entry in self.sets)]
        return tuple(plan for plans in every for plan in plans if plan.state == "stale")


def book_of(folder: Path) -> Book:
    """Read and check all that stands in a folder and the folders below it. Nothing is planned."""
    shelf = Shelf.of(folder)
    plans, strays = saved_plans(shelf)
    names = project_names({str(one.file): one.jam for one in shelf.jams}, _names_in_use(shelf, plans))
    jams = [_jam_entry(one, shelf, names[str(one.file)], plans) for one in shelf.jams]
    sets = (SetEntry(one, tuple(plans.get(one.file, ()))) for one in shelf.sets)
    return Book(folder, tuple(jams), tuple(sets), tuple(_clashes(shelf.jams)), tuple(strays), tuple(shelf.unread))


def _jam_entry(of: JamFile, shelf: Shelf, names: Mapping[str, str], plans: Mapping[Path, list[Saved]]) -> JamEntry:
    whole = of.file.resolve()
    sets = tuple(one for one in shelf.sets if whole in one.jams)
    set_plans = tuple(plan for one in sets for plan in plans.get(one.file, ()))
    return JamEntry(of.file, of.jam, sets, names, tuple(plans.get(of.file, ())), set_plans)


def _names_in_use(shelf: Shelf, plans: Mapping[Path, list[Saved]]) -> dict[str, Mapping[str, str]]:
    """Project names in saved plans that hold, by the jams' files; those of a jam's own plan before those of a set's."""
    files = {one.file.resolve(): one.file for one in shelf.jams}
    own: dict[str, Mapping[str, str]] = {}
    of_sets: dict[str, Mapping[str, str]] = {}
    for owner, saved in plans.items():
        for plan in saved if owner in files.values() else ():
            if plan.state == "well":
                own.setdefault(str(owner), plan.names[""])
        for plan in saved if owner not in files.values() else ():
            for name, named in plan.names.items():
                jam = files.get((owner.parent / name).resolve())
                if jam is not None and plan.state == "well":
                    of_sets.setdefault(str(jam), named)
    return of_sets | own


def _clashes(jams: Iterable[JamFile]) -> list[Clash]:
    claims: dict[tuple[str, str], list[Claim]] = {}
    for file, jam, source in jams:
        for box, slot in jam.recall.items():
            if slot_key(slot):
                claim = Claim(jam.title, file, source.line(("recall", box)), slot)
                claims.setdefault((box, slot_key(slot)), []).append(claim)
    return [Clash(box, tuple(found)) for (box, _), found in claims.items() if len(found) > 1]
