"""Another wiring from some jam of a set on: where one re-plug between two songs is enough, and what hands do there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from solver.asking import ask_set
from solver.flow.followed import Followed
from solver.gear.words import Spot
from solver.jam.sets import JamSet
from solver.outcome import PlannedSet
from solver.plans import Plan
from solver.reasons.trial import NotDecidedError, Tell
from solver.search.clock import Clock
from solver.search.planner import is_possible
from solver.whatif.difference import Difference, Side, Turn, difference


class Replug(NamedTuple):
    """Another wiring from some jam on: the jam, counted from 0, the plans on either side, and what hands do."""

    turn: int
    before: PlannedSet
    after: PlannedSet
    difference: Difference


def replugs(asked: JamSet, groups: Sequence[frozenset[str]], clock: Clock, tell: Tell) -> Iterator[Replug]:
    """For each place between two songs, the best wiring of either side with the other side planned near it.

    Args:
        asked: An impossible set.
        groups: Jams that cannot share a wiring, as far as they are known.
        clock: How long it may take.
        tell: Called before each trial, to say how far the work is.

    Raises:
        NotDecidedError: the time is up before all are found.
    """
    files = list(asked.files)
    for turn in range(1, len(files)):
        halves = [asked.only(files[:turn]), asked.only(files[turn:])]
        if any(group.issubset(half.files) for group in groups for half in halves):
            continue
        planned = [planned_set(half, clock, tell) for half in halves]
        if planned[0] is None or planned[1] is None:
            continue
        after = _near(halves[1], planned[0].best.jams[files[turn - 1]], clock, tell)
        before = _near(halves[0], planned[1].best.jams[files[turn]], clock, tell)
        both = _replug(asked, turn, planned[0], after), _replug(asked, turn, before, planned[1])
        yield from (one for one in both if one.difference.moves_plugs)


def _near(half: JamSet, like: Plan, clock: Clock, tell: Tell) -> PlannedSet:
    """The plan of some jams that moves the fewest plugs of a plan."""
    tell()
    near = ask_set(half, 0, clock.left, None, near=dict.fromkeys(half.files, like), plugs_first=True)
    if not isinstance(near, PlannedSet):
        raise NotDecidedError
    return near


def _replug(asked: JamSet, turn: int, before: PlannedSet, after: PlannedSet) -> Replug:
    """Two wirings, and what hands do in between."""
    files = list(asked.files)
    old = Side(asked.jams[files[turn - 1]], before.best.jams[files[turn - 1]])
    new = Side(asked.jams[files[turn]], after.best.jams[files[turn]])
    change = difference(old, new)
    followed = Followed(*new)
    settings = tuple(one for one in change.settings if one.stored == "box" and not _may_stay(followed, one))
    return Replug(turn, before, after, change._replace(settings=settings))


def _may_stay(followed: Followed, turn: Turn) -> bool:
    """Whether an engine without a part stays silent on the channel where it is, too."""
    engine = Spot(turn.place.box, turn.place.where)
    idle = turn.place.of == "engine" and turn.place.what == "channel" and engine not in followed.tenants
    return idle and turn.old not in followed.notes.arriving[engine.box].values()


def planned_set(asked: JamSet, clock: Clock, tell: Tell) -> PlannedSet | None:
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
