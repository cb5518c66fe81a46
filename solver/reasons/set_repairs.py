"""Finds ways out for a set whose jams cannot share a wiring, and plans each of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import chain, combinations
from typing import NamedTuple

from solver.asking import ask_set
from solver.flow.followed import Followed
from solver.gear.words import Spot
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.outcome import PlannedSet
from solver.plans import Plan
from solver.reasons.changes import edits
from solver.reasons.easing import stored_by_nobody
from solver.reasons.edits import Edit, edited
from solver.reasons.explained import Clash
from solver.reasons.trial import NotDecidedError, Tell
from solver.search.clock import Clock
from solver.search.planner import is_possible
from solver.whatif.difference import Difference, Side, Turn, difference

HAND, PLUG, JAM = 1, 2, 12
"""What it costs a musician to move a setting or a plug between two songs, and to leave a jam out."""
MOST_WAYS = 5
MOST_OF_A_KIND = 2
"""How many ways out are told, and of those that change the same kind of thing."""


class Replug(NamedTuple):
    """Another wiring from some jam on: the jam, counted from 0, the plans on either side, and what hands do."""

    turn: int
    before: PlannedSet
    after: PlannedSet
    difference: Difference


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


def _planned(asked: JamSet, clock: Clock, tell: Tell) -> PlannedSet | None:
    """The plan of a set, if it has one.

    Raises:
        NotDecidedError: that is not known in time.
    """
    tell()
    if clock.over:
        raise NotDecidedError
    possible = is_possible(list(asked.jams.values()), clock)
    if possible is False:
        return None
    outcome = ask_set(asked, 0, clock.left, None)
    if possible is None or not isinstance(outcome, PlannedSet):
        raise NotDecidedError
    return outcome


def _without(asked: JamSet, groups: Sequence[frozenset[str]], clock: Clock, tell: Tell) -> Iterator[SetRepair]:
    """The fewest jams left out: one of each group at least."""
    for count in range(1, len(asked.files)):
        found = False
        for some in combinations(asked.files, count):
            if not all(group.intersection(some) for group in groups):
                continue
            rest = asked.some([file for file in asked.files if file not in some])
            planned = _planned(rest, clock, tell)
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
        planned = _planned(after, clock, tell) if after is not None else None
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
    """One re-plug between two songs, where it moves the fewest plugs; either wiring may be the one to stay near."""
    files = list(asked.files)
    found: list[SetRepair] = []
    for turn in range(1, len(files)):
        halves = [asked.only(files[:turn]), asked.only(files[turn:])]
        if any(group.issubset(half.files) for group in groups for half in halves):
            continue
        planned = [_planned(half, clock, tell) for half in halves]
        if planned[0] is None or planned[1] is None:
            continue
        after = _near(halves[1], planned[0].best.jams[files[turn - 1]], clock, tell)
        before = _near(halves[0], planned[1].best.jams[files[turn]], clock, tell)
        found += [_replug(asked, turn, planned[0], after), _replug(asked, turn, before, planned[1])]
    moving = [one for one in found if one.replug is not None and one.replug.difference.moves_plugs]
    if moving:
        yield min(moving, key=lambda repair: repair.cost)


def _near(half: JamSet, like: Plan, clock: Clock, tell: Tell) -> PlannedSet:
    """The plan of some jams that moves the fewest plugs of a plan."""
    tell()
    near = ask_set(half, 0, clock.left, None, near=dict.fromkeys(half.files, like), plugs_first=True)
    if not isinstance(near, PlannedSet):
        raise NotDecidedError
    return near


def _replug(asked: JamSet, turn: int, before: PlannedSet, after: PlannedSet) -> SetRepair:
    """Two wirings, and what hands do in between."""
    files = list(asked.files)
    old = Side(asked.jams[files[turn - 1]], before.best.jams[files[turn - 1]])
    new = Side(asked.jams[files[turn]], after.best.jams[files[turn]])
    change = difference(old, new)
    followed = Followed(*new)
    settings = tuple(one for one in change.settings if one.stored == "box" and not _may_stay(followed, one))
    change = change._replace(settings=settings)
    cost = PLUG * (change.plugs + len(change.plugged)) + HAND * len(settings)
    return SetRepair(cost, replug=Replug(turn, before, after, change))


def _may_stay(followed: Followed, turn: Turn) -> bool:
    """Whether an engine without a part stays silent on the channel where it is, too."""
    engine = Spot(turn.place.box, turn.place.where)
    idle = turn.place.of == "engine" and turn.place.what == "channel" and engine not in followed.tenants
    return idle and turn.old not in followed.notes.arriving[engine.box].values()


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
        planned = _planned(asked.changed(tables), clock, tell)
        if planned is not None and planned.best.goals is not None:
            yield SetRepair(HAND * planned.best.goals.by_hand, by_hand=name, planned=planned)
