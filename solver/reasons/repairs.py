"""Finds the cheapest changes that make an impossible jam possible, and plans each of them."""

from __future__ import annotations

import heapq
from collections import Counter
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from solver.asking import ask
from solver.jam.editing import Path
from solver.jam.jam import Jam
from solver.outcome import Planned
from solver.reasons.changes import edits
from solver.reasons.conflicts import Conflict
from solver.reasons.edits import PART, Edit, edited
from solver.reasons.trial import Tell
from solver.search.clock import Clock
from solver.search.planner import is_possible

MOST_REPAIRS = 5
MOST_ALIKE = 2
"""How many repairs of one kind are told: the same thing of several parts; one where it is to leave a part out."""
MOST_TRIED = 40
"""How many sets of changes are tried after the cheapest repair is found."""
MARGIN = 4
"""How much dearer than the cheapest a repair may be to be told."""


class Repair(NamedTuple):
    """Changes that make a jam possible, the jam after them, and its plan.

    ``cheapest`` where it is proved that no cheaper changes, of all that are known, are enough.
    """

    edits: tuple[Edit, ...]
    cost: int
    jam: Jam
    planned: Planned
    cheapest: bool


class Repaired(NamedTuple):
    """Repairs, cheapest first; ``done`` where there was time for all that are told."""

    repairs: tuple[Repair, ...]
    done: bool


def repairs(
    jam: Jam,
    conflicts: Sequence[Conflict],
    clock: Clock,
    tell: Tell = lambda: None,
    most: int = MOST_REPAIRS,
) -> Repaired:
    """The cheapest repairs of a jam, in the order of their cost, one for each place that is changed.

    Args:
        jam: An impossible jam.
        conflicts: Its conflicts, as far as they are known: what touches not all of them is no repair.
        clock: How long it may take.
        tell: Called before each trial, to say how far the work is.
        most: How many to find at most.
    """
    known = edits(jam)
    sets = _Sets(known, conflicts)
    found: list[Repair] = []
    enough: list[frozenset[Path]] = []
    kinds: Counter[object] = Counter()
    complete, tried = True, 0
    for places in sets:
        chosen = tuple(known[place] for place in sorted(places))
        cost = sum(edit.cost for edit in chosen)
        if clock.over:
            return Repaired(tuple(found), done=False)
        if len(found) == most or (found and (cost > found[0].cost + MARGIN or tried == MOST_TRIED)):
            break
        changed = frozenset(edit.path for edit in chosen)
        kind = tuple((edit.kind, edit.path[0], edit.path[2:]) for edit in chosen)
        if any(some <= changed for some in enough):
            continue
        if kinds[kind] and all(edit.kind == PART for edit in chosen):
            enough.append(changed)
            continue
        tell()
        tried += bool(found)
        after = edited(jam, chosen)
        possible = False if after is None else is_possible(after, clock)
        complete = complete and possible is not None
        if after is None or not possible:
            sets.go_beyond(places, _hopeless(jam, known, places, clock) if possible is False else places)
            continue
        if kinds[kind] == MOST_ALIKE:
            enough.append(changed)
            continue
        outcome = ask(after, 0, clock.left, None)
        if not isinstance(outcome, Planned):
            complete = False
            continue
        enough.append(changed)
        kinds[kind] += 1
        cheapest = complete and all(cost == other.cost for other in found)
        found.append(Repair(chosen, cost, after, outcome, cheapest))
    return Repaired(tuple(found), done=True)


class _Sets:
    """Sets of edits by their places, cheapest first, that touch every conflict and go beyond all that is no repair.

    What each set must have is a list of choices, one edit of each; a set that misses one grows by each edit of it. What
    it costs at least is known before: the cheapest edit of each choice that it misses, where these have none in common.
    """

    def __init__(self, known: Sequence[Edit], conflicts: Sequence[Conflict]) -> None:
        self._known = known
        self._needed = [
            frozenset(place for place, edit in enumerate(known) if _touches(edit, conflict)) for conflict in conflicts
        ]
        self._useful = frozenset().union(*self._needed) if conflicts else frozenset(range(len(known)))
        self._waiting: list[tuple[int, int, int, tuple[int, ...]]] = [(0, 0, 0, ())]
        self._seen: set[frozenset[int]] = set()

    def __iter__(self) -> Iterator[frozenset[int]]:
        while self._waiting:
            cost, _, _, listed = heapq.heappop(self._waiting)
            places = frozenset(listed)
            if cost < self._least(places)[0]:  # more has been learned since it was put there
                self._put(places)
                continue
            missed = next((needed for needed in self._needed if places.isdisjoint(needed)), None)
            if missed is None and places:
                yield places
            else:
                self._grow(places, self._useful if missed is None else missed)

    def go_beyond(self, places: frozenset[int], useless: frozenset[int]) -> None:
        """Take note that these places are no repair, nor any within ``useless``; what has more of others may be."""
        self._needed.append(self._useful - useless)
        self._grow(places, self._needed[-1])

    def _grow(self, places: frozenset[int], by: frozenset[int]) -> None:
        paths = {self._known[place].path for place in places}
        for place in sorted(by - places):
            more = places | {place}
            if more not in self._seen and self._known[place].path not in paths:
                self._seen.add(more)
                self._put(more)

    def _put(self, places: frozenset[int]) -> None:
        cost, missing = self._least(places)
        heapq.heappush(self._waiting, (cost, missing, len(places), tuple(sorted(places))))

    def _least(self, places: frozenset[int]) -> tuple[int, int]:
        """What a set with these places costs at least, and how many choices it misses."""
        cost, missing, counted = sum(self._known[place].cost for place in places), 0, set[int]()
        for needed in self._needed:
            if places.isdisjoint(needed):
                missing += 1
                if counted.isdisjoint(needed):
                    counted |= needed
                    cost += min((self._known[place].cost for place in needed), default=0)
        return cost, missing


def _hopeless(jam: Jam, known: Sequence[Edit], places: frozenset[int], clock: Clock) -> frozenset[int]:
    """Edits that are not enough: these and as many others as can be added, where each can only help."""
    if not all(known[place].only_helps for place in places):
        return places
    for kind in dict.fromkeys(edit.kind for edit in known):
        taken = {known[place].path for place in places}
        widest = {edit.path: place for place, edit in enumerate(known) if edit.only_helps and edit.kind == kind}
        more = places | {place for path, place in widest.items() if path not in taken}
        if more == places:
            continue
        after = edited(jam, [known[place] for place in sorted(more)])
        if after is None or is_possible(after, clock) is not False:
            break
        places = more
    made = {known[place].path: known[place] for place in places}
    return places | {
        place
        for place, edit in enumerate(known)
        if edit.only_helps and edit.path in made and _is_within(edit, made[edit.path])
    }


def _is_within(edit: Edit, wider: Edit) -> bool:
    """Whether a change in the same place helps at least as much: it leaves all open, or adds no fewer."""
    return wider.new is None or (edit.path[0] in ("cables", "boxes") and edit.times <= wider.times)


def _touches(edit: Edit, conflict: Conflict) -> bool:
    """Whether an edit changes the gear, or a statement of the conflict or one below or above it."""
    if not edit.statement:
        return True
    return any(
        own == edit.statement or own.startswith(f"{edit.statement}.") or edit.statement.startswith(f"{own}.")
        for own in conflict.statements
    )
