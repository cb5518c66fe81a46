"""Compares the plan of a changed jam with the plan in use: what to move, what it gains, and what staying near costs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from solver.asking import ask
from solver.flow.settings import goals_of
from solver.jam.jam import Jam
from solver.outcome import Impossible, Outcome, Planned, Report, Undecided
from solver.plans import Plan
from solver.reasons.explained import WhyImpossible, shortly
from solver.search.clock import Clock
from solver.whatif.difference import Difference, Side, difference


@dataclass(frozen=True)
class Fresh:
    """A plan with as few cables and fewer settings moved, and its larger difference from the plan in use."""

    plan: Plan
    difference: Difference


@dataclass(frozen=True)
class WhatIf:
    """A jam before and after a change.

    Attributes:
        before: The jam as it was.
        after: The jam as it would be.
        had: What asking for a plan of the jam before ended in; the plan in use, where one was given.
        has: What it ends in after the change.
        difference: What to do to get from the plan in use to the plan after; None where there is no plan after.
        fresh: What would leave more settings where the box files have them, at the cost of more to do now; or None.
        why: Why there is no plan after the change; None where there is one, or nothing is decided.
    """

    before: Jam
    after: Jam
    had: Outcome
    has: Outcome
    difference: Difference | None = None
    fresh: Fresh | None = None
    why: WhyImpossible | None = None


class Use(NamedTuple):
    """The plan in use, where one is given, and whether the new plan need not be near it."""

    plan: Plan | None = None
    fresh: bool = False


def compared(before: Jam, after: Jam, use: Use, time_limit: float | None, report: Report | None) -> WhatIf:
    """Compare two jams; see ``solver.what_if``."""
    clock = Clock(time_limit)
    with clock.heeding_the_user():
        had = ask(before, 0, clock.left, report) if use.plan is None else Planned((use.plan,), 0.0)
        used = had.best if isinstance(had, Planned) else None
        has = ask(after, 0, clock.left, report, None if use.fresh else used)
        if isinstance(has, Impossible):
            return WhatIf(before, after, had, has, why=shortly(after, clock, report))
        if isinstance(has, Undecided):
            return WhatIf(before, after, had, has)
        old = Side(before, used) if used is not None else None
        told = difference(old, Side(after, has.best))
        if use.fresh or used is None or _rest(has.best) == (0, 0):
            return WhatIf(before, after, had, has, told)
        free = ask(after, 0, clock.left, report)
        if not isinstance(free, Planned):
            return WhatIf(before, after, had, _unproved(has), told)
        if _cost(free.best) < _cost(has.best):
            better = Fresh(free.best, difference(old, Side(after, free.best)))
            return WhatIf(before, after, had, _unproved(has), told, better)
        proved = free.best.proof.get("settings_moved", False)
        return WhatIf(before, after, had, has if proved else _unproved(has), told)


def _cost(plan: Plan) -> tuple[int, int, int]:
    return len(plan.cables), *_rest(plan)


def _rest(plan: Plan) -> tuple[int, int]:
    """What counts after the cables."""
    cost = goals_of(plan)
    return cost.silenced, cost.settings_moved


def _unproved(planned: Planned) -> Planned:
    """The same plan, of which it is not claimed that no other moves fewer settings."""
    proof = {**planned.best.proof, "settings_moved": False}
    plan = planned.best.model_copy(update={"proof": proof, "status": "found"})
    return Planned((plan,), planned.seconds, planned.stopped)
