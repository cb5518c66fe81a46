"""Compares the plan of a changed set with the plan in use: the wiring once, then what each jam does differently."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from solver.asking import ask_set
from solver.jam.sets import JamSet
from solver.outcome import Impossible, PlannedSet, Report, SetOutcome
from solver.plans import Plan
from solver.reasons.set_reasons import WhySetImpossible, explained_set
from solver.search.clock import Clock
from solver.set_plans import SetPlan
from solver.whatif.difference import Difference, Side, difference, stored_turns


@dataclass(frozen=True)
class WhatIfSet:
    """A set before and after a change.

    Attributes:
        before: The set as it was.
        after: The set as it would be.
        had: What asking for a plan of the set before ended in; the plan in use, where one was given.
        has: What it ends in after the change.
        wiring: What to do with cables and with what boxes store; None where there is no plan after.
        jams: What each jam that was there does differently, with what its project stores.
        why: Why there is no plan after the change; None where there is one, or nothing is decided.
    """

    before: JamSet
    after: JamSet
    had: SetOutcome
    has: SetOutcome
    wiring: Difference | None = None
    jams: dict[str, Difference] | None = None
    why: WhySetImpossible | None = None


class SetInUse(NamedTuple):
    """The plan in use, where one is given, and whether the new plan need not be near it."""

    plan: SetPlan | None = None
    fresh: bool = False


def compared_sets(
    before: JamSet, after: JamSet, use: SetInUse, time_limit: float | None, report: Report | None
) -> WhatIfSet:
    """Compare two sets; see ``solver.what_if``."""
    clock = Clock(time_limit)
    with clock.heeding_the_user():
        had: SetOutcome = PlannedSet((use.plan,), 0.0) if use.plan else ask_set(before, 0, clock.left, report)
        old = had.best if isinstance(had, PlannedSet) else None
        near = _near(after, old) if old is not None and not use.fresh else None
        has = ask_set(after, 0, clock.left, report, near)
        if isinstance(has, Impossible):
            why = explained_set(after, False, clock.left, report)
            return WhatIfSet(before, after, had, has, why=why if isinstance(why, WhySetImpossible) else None)
        if not isinstance(has, PlannedSet):
            return WhatIfSet(before, after, had, has)
        sides = {file: Side(jam, has.best.jams[file]) for file, jam in after.jams.items()}
        earlier = {file: Side(jam, old.jams[file]) for file, jam in before.jams.items()} if old is not None else {}
        wiring = difference(_whole(before, old), _whole(after, has.best))
        wiring = wiring._replace(settings=stored_turns(earlier.values(), sides.values()))
        jams = {file: _own(difference(earlier.get(file), side)) for file, side in sides.items()}
        return WhatIfSet(before, after, had, has, wiring, jams)


def _near(after: JamSet, old: SetPlan) -> dict[str, Plan]:
    """The plan in use of each jam that was there; where none was, of any: its cables are those of all."""
    same = {file: old.jams[file] for file in after.files if file in old.jams}
    return same or dict.fromkeys(list(after.files)[:1], next(iter(old.jams.values())))


def _whole(asked: JamSet, plan: SetPlan | None) -> Side:
    """A set's cables, as if they were one jam's."""
    jam = next(iter(asked.jams.values()))
    if plan is None:
        return Side(jam, Plan(title=asked.title, cables=(), parts={}))
    return Side(jam, Plan(title=plan.title, cables=plan.cables, parts={}))


def _own(differs: Difference) -> Difference:
    """What a jam does differently besides the wiring."""
    settings = tuple(turn for turn in differs.settings if turn.stored != "box")
    return differs._replace(pulled=(), plugged=(), moved=(), settings=settings)
