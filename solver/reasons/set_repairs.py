"""Finds ways out for a set whose jams cannot share a wiring, and plans each of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import chain, combinations
from typing import NamedTuple

from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.outcome import PlannedSet
from solver.reasons.changes import edits
from solver.reasons.easing import stored_by_nobody
from solver.reasons.edits import Edit, edited
from solver.reasons.explained import Clash
from solver.reasons.replugs import Replug, planned_set, replugs
from solver.reasons.trial import NotDecidedError, Tell
from solver.search.clock import Clock

HAND, PLUG, JAM = 1, 2, 12
"""What it costs a musician to move a setting or a plug between two songs, and to leave a jam out."""
MOST_WAYS = 5
MOST_OF_A_KIND = 2
"""How many ways out are told, and of those that change the same kind of thing."""


class SetRepair(NamedTuple):
    """One way out: jams left out, a change of one jam or of the gear, a re-plug, or settings of a box moved by hand.

    ``planned`` is the plan after it, or None for a re-plug, which has two.
    """

    cost: int
    left_out: tuple[str, ...] = ()
    by_hand: str = ""
    file: str = ""
    edit: Edit | None = None
    replug: Replug | None = None
    planned: PlannedSet | None = None


class SetRepaired(NamedTuple):
    """Ways out, cheapest first; ``done`` where there was time for all that are tried."""

    repairs: tuple[SetRepair, ...]
    done: bool


def set_repairs(
    asked: JamSet, groups: Sequence[frozenset[str]], clashes: Sequence[Clash | None], clock: Clock, tell: Tell
) -> SetRepaired:
    """The cheapest single ways out.

    Args:
        asked: An impossible set.
        groups: Jams that cannot share a wiring, as far as they are known.
        clashes: What clashes in each group.
        clock: How long it may take.
        tell: Called before each trial, to say how far the work is.
    """
    found: list[SetRepair] = []
    try:
        larger = chain(
            _by_hand(asked, clock, tell), _replugs(asked, groups, clock, tell), _without(asked, groups, clock, tell)
        )
        for repair in chain(larger, _changes(asked, clashes, clock, tell)):
            found.append(repair)  # noqa: PERF402  what is found stays when the time is up
    except NotDecidedError:
        return SetRepaired(_cheapest(found), done=False)
    return SetRepaired(_cheapest(found), done=True)


def _cheapest(found: list[SetRepair]) -> tuple[SetRepair, ...]:
    """The cheapest, few of a kind."""
    kinds: Counter[object] = Counter()
    told: list[SetRepair] = []
    for repair in sorted(found, key=lambda repair: repair.cost):
        kind = (len(repair.left_out), repair.by_hand, repair.edit and (repair.edit.kind, repair.edit.path[0]))
        kinds[kind] += 1
        if kinds[kind] <= MOST_OF_A_KIND:
            told.append(repair)
    return tuple(told[:MOST_WAYS])


def repaired_set(asked: JamSet, repair: SetRepair) -> JamSet:
    """The set after a way out that is no re-plug; what hands move leaves it as it is."""
    if repair.edit is not None:
        after = _after(asked, repair.file, repair.edit)
        assert after is not None
        return after
    return asked if repair.by_hand else asked.some([f for f in asked.files if f not in repair.left_out])


def _without(asked: JamSet, groups: Sequence[frozenset[str]], clock: Clock, tell: Tell) -> Iterator[SetRepair]:
    """The fewest jams left out: one of each group at least."""
    for count in range(1, len(asked.files)):
        found = False
        for some in combinations(asked.files, count):
            if not all(group.intersection(some) for group in groups):
                continue
            rest = asked.some([file for file in asked.files if file not in some])
            planned = planned_set(rest, clock, tell)
            if planned is not None:
                found = True
                yield SetRepair(JAM * count, left_out=some, planned=planned)
        if found:
            return


def _changes(asked: JamSet, clashes: Sequence[Clash | None], clock: Clock, tell: Tell) -> Iterator[SetRepair]:
    """Single changes of one jam, or of the gear, that touch every known clash."""
    known = sorted(_edits(asked), key=lambda pair: pair[1].cost)
    kinds: dict[object, int] = {}
    cheapest: int | None = None
    for file, edit in known:
        kind = (edit.kind, edit.path[0])
        if kinds.get(kind, 0) == MOST_OF_A_KIND or (cheapest is not None and edit.cost > cheapest + PLUG):
            continue
        if not all(clash is None or _touches(file, edit, clash) for clash in clashes):
            continue
        after = _after(asked, file, edit)
        planned = planned_set(after, clock, tell) if after is not None else None
        if planned is not None:
            kinds[kind] = kinds.get(kind, 0) + 1
            cheapest = edit.cost if cheapest is None else cheapest
            yield SetRepair(edit.cost, file=file, edit=edit, planned=planned)


def _edits(asked: JamSet) -> Iterator[tuple[str, Edit]]:
    """Every change of every jam, with its file; those of boxes once."""
    told: set[object] = set()
    for file, jam in asked.jams.items():
        for edit in edits(jam):
            if edit.path[0] == "boxes":
                if edit.says in told:
                    continue
                told.add(edit.says)
            yield file, edit


def _touches(file: str, edit: Edit, clash: Clash) -> bool:
    return not edit.statement or any(
        claim.jam == file and f"{claim.statement}.".startswith(f"{edit.statement}.") for claim in clash.conflict.claims
    )


def _after(asked: JamSet, file: str, edit: Edit) -> JamSet | None:
    """The set after a change; of a box, in every jam."""

    def changed(jam: Jam) -> Jam | None:
        return edited(jam, [edit])

    if edit.path[0] != "boxes":
        other = changed(asked.files[file])
        return None if other is None else asked.changed(asked.files | {file: other})
    name = str(edit.path[1])
    return asked.changed(
        {
            file: jam.changed(boxes={**jam.boxes, name: edit.new}) if edit.old is None or name in jam.boxes else jam
            for file, jam in asked.files.items()
        }
    )


def _replugs(asked: JamSet, groups: Sequence[frozenset[str]], clock: Clock, tell: Tell) -> Iterator[SetRepair]:
    """One re-plug between two songs, the cheapest that is found."""
    found = [(_cost(one), one) for one in replugs(asked, groups, clock, tell)]
    if found:
        cost, replug = min(found, key=lambda pair: pair[0])
        yield SetRepair(cost, replug=replug)


def _cost(replug: Replug) -> int:
    """What its plugs and settings cost a musician."""
    plugs = replug.difference.plugs + len(replug.difference.plugged)
    return PLUG * plugs + HAND * len(replug.difference.settings)


def _by_hand(asked: JamSet, clock: Clock, tell: Tell) -> Iterator[SetRepair]:
    """What a box stores for itself moved by hand between the jams, as seldom as can be."""
    for name, box in asked.boxes.items():
        loose = stored_by_nobody(box)
        if loose == box:
            continue
        tables = {
            file: jam.changed(
                boxes={**jam.boxes, name: loose} if name in jam.boxes else jam.boxes,
                recall={**jam.recall, name: "-"} if place == 0 else {b: s for b, s in jam.recall.items() if b != name},
            )
            for place, (file, jam) in enumerate(asked.files.items())
        }
        planned = planned_set(asked.changed(tables), clock, tell)
        if planned is not None and planned.best.goals is not None:
            yield SetRepair(HAND * planned.best.goals.by_hand, by_hand=name, planned=planned)
