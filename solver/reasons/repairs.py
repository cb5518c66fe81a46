"""Finds the cheapest changes that make an impossible jam possible, and plans each of them."""

from __future__ import annotations

import heapq
from collections import Counter
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from solver.asking import ask
from solver.jam.jam import Jam
from solver.outcome import Planned
from solver.reasons.conflicts import Conflict
from solver.reasons.edits import Edit, Path, edited, edits
from solver.reasons.trial import Tell
from solver.search.planner import is_possible
from solver.search.solve import Clock

MOST_REPAIRS = 5
MOST_ALIKE = 2
"""How many repairs of one kind are told: the same thing of several parts."""
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


def repairs(jam: Jam, conflicts: Sequence[Conflict], clock: Clock, tell: Tell = lambda: None) -> Repaired:
    """The cheapest repairs of a jam, in the order of their cost, one for each place that is changed.

    Args:
        jam: An impossible jam.
        conflicts: Its conflicts, as far as they are known: what touches not all of them is no repair.
        clock: How long it may take.
        tell: Called before each trial, to say how far the work is.
    """
    known = edits(jam)
    found: list[Repair] = []
    enough: list[frozenset[Path]] = []
    useless: list[frozenset[int]] = []
    kinds: Counter[object] = Counter()
    complete, tried = True, 0
    for places in _by_cost(known, conflicts):
        chosen = tuple(known[place] for place in places)
        cost = sum(edit.cost for edit in chosen)
        if clock.over:
            return Repaired(tuple(found), done=False)
        if len(found) == MOST_REPAIRS or (found and (cost > found[0].cost + MARGIN or tried == MOST_TRIED)):
            break
        changed = frozenset(edit.path for edit in chosen)
        kind = tuple((edit.cost, edit.path[0], edit.path[2:]) for edit in chosen)
        if any(some <= changed for some in enough) or any(some.issuperset(places) for some in useless):
            continue
        if kinds[kind] == MOST_ALIKE:
            enough.append(changed)
            continue
        tell()
        tried += bool(found)
        after = edited(jam, chosen)
        possible = False if after is None else is_possible(after, clock)
        complete = complete and possible is not None
        if possible is False:
            useless.append(_hopeless(jam, known, frozenset(places), clock))
        if after is not None and possible:
            outcome = ask(after, 0, clock.left, None)
            if isinstance(outcome, Planned):
                cheapest = complete and all(cost == other.cost for other in found)
                enough.append(changed)
                kinds[kind] += 1
                found.append(Repair(chosen, cost, after, outcome, cheapest))
            else:
                complete = False
    return Repaired(tuple(found), done=True)


def _hopeless(jam: Jam, known: Sequence[Edit], places: frozenset[int], clock: Clock) -> frozenset[int]:
    """Edits that are not enough: these and as many others as can be added, where each can only help."""
    if not all(known[place].only_helps for place in places):
        return places
    for cost in dict.fromkeys(edit.cost for edit in known):
        taken = {known[place].path for place in places}
        widest = {edit.path: place for place, edit in enumerate(known) if edit.only_helps and edit.cost == cost}
        more = places | {place for path, place in widest.items() if path not in taken}
        after = edited(jam, [known[place] for place in sorted(more)])
        if after is None or is_possible(after, clock) is not False:
            break
        places = more
    opened = {known[place].path for place in places if known[place].new is None}
    return places | {place for place, edit in enumerate(known) if edit.only_helps and edit.path in opened}


def _by_cost(known: Sequence[Edit], conflicts: Sequence[Conflict]) -> Iterator[tuple[int, ...]]:
    """Places of edits: every set that touches all conflicts, cheapest first, then with fewer edits, then in order."""
    touched = [frozenset(n for n, conflict in enumerate(conflicts) if _touches(edit, conflict)) for edit in known]
    useful = [place for place, some in enumerate(touched) if some]
    waiting: list[tuple[int, int, tuple[int, ...]]] = [(0, 0, ())]
    while waiting:
        cost, _, places = heapq.heappop(waiting)
        if places and len(frozenset().union(*(touched[place] for place in places))) == len(conflicts):
            yield places
        for place in useful:
            if not places or place > places[-1]:
                more = (*places, place)
                heapq.heappush(waiting, (cost + known[place].cost, len(more), more))


def _touches(edit: Edit, conflict: Conflict) -> bool:
    """Whether an edit changes the gear, or a statement of the conflict or one below or above it."""
    if not edit.statement:
        return True
    return any(
        own == edit.statement or own.startswith(f"{edit.statement}.") or edit.statement.startswith(f"{own}.")
        for own in conflict.statements
    )
