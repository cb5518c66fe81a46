"""hardpan plans the cables and settings of a hardware jam: fewest cables, proved, and followed before it is shown.

The public functions are ``plan``, ``explain``, ``what_if`` and ``check``; jams and sets come
from ``solver.reading.read_jam_or_set``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, overload

if TYPE_CHECKING:
    from solver.checking import Breach
    from solver.jam.jam import Jam
    from solver.jam.sets import JamSet
    from solver.outcome import Outcome, Report, SetOutcome, Undecided
    from solver.plans import Plan
    from solver.reasons.explained import WhyImpossible
    from solver.reasons.set_reasons import WhySetImpossible, WhySetPossible
    from solver.reasons.whys import WhyPossible
    from solver.set_plans import SetPlan
    from solver.whatif.compared import WhatIf
    from solver.whatif.compared_sets import WhatIfSet

__all__ = ["check", "explain", "plan", "what_if"]
__version__ = "0.1.0"


@overload
def plan(
    jam: Jam, *, alternatives: int = 0, time_limit: float | None = 60.0, progress: Report | None = None
) -> Outcome: ...


@overload
def plan(
    jam: JamSet, *, alternatives: int = 0, time_limit: float | None = 60.0, progress: Report | None = None
) -> SetOutcome: ...


def plan(
    jam: Jam | JamSet, *, alternatives: int = 0, time_limit: float | None = 60.0, progress: Report | None = None
) -> Outcome | SetOutcome:
    """Find the plan of a jam with the fewest cables, then the fewest settings to move, then the tidiest.

    Every plan has been followed by ``check`` before it is returned.

    Args:
        jam: Boxes, parts and intents; or a set of jams, which share the cables and what boxes store for themselves.
        alternatives: How many of the next best plans that really differ to find too, 0 or more.
        time_limit: Seconds for everything; None for as long as it takes.
        progress: Called about once a second with how far the search is.

    Returns:
        Planned (of a set, PlannedSet) with the best plan first; Impossible where it is proved that there is none;
        Undecided when the time is up, or the user stops the search, before either is known.

    Raises:
        InternalError: a plan that the search found breaks a rule. It is never returned.
    """
    from solver.asking import ask, ask_set
    from solver.jam.sets import JamSet

    if isinstance(jam, JamSet):
        return ask_set(jam, alternatives, time_limit, progress)
    return ask(jam, alternatives, time_limit, progress)


@overload
def explain(
    jam: Jam, *, every: bool = False, time_limit: float | None = 60.0, progress: Report | None = None
) -> WhyImpossible | WhyPossible | Undecided: ...


@overload
def explain(
    jam: JamSet, *, every: bool = False, time_limit: float | None = 60.0, progress: Report | None = None
) -> WhySetImpossible | WhySetPossible | Undecided: ...


def explain(
    jam: Jam | JamSet, *, every: bool = False, time_limit: float | None = 60.0, progress: Report | None = None
) -> WhyImpossible | WhyPossible | WhySetImpossible | WhySetPossible | Undecided:
    """Say why a jam is impossible and what the cheapest ways out are, or why its plan is as it is.

    Of a set, say which of its jams cannot share a wiring, or which of them need which cable.

    Args:
        jam: Boxes, parts and intents, or a set of jams.
        every: Whether to list every minimal conflict or reason, however long that takes; else seconds are spent.
        time_limit: Seconds for everything; None for as long as it takes.
        progress: Called often with how far the work is.

    Raises:
        InternalError: a second proof disagrees with the first, or a plan breaks a rule.
    """
    from solver.jam.sets import JamSet

    if isinstance(jam, JamSet):
        from solver.reasons.set_reasons import explained_set

        return explained_set(jam, every, time_limit, progress)
    from solver.reasons.explained import explained

    return explained(jam, every, time_limit, progress)


@overload
def what_if(
    before: Jam,
    after: Jam,
    *,
    against: Plan | None = None,
    fresh: bool = False,
    time_limit: float | None = 60.0,
    progress: Report | None = None,
) -> WhatIf: ...


@overload
def what_if(
    before: JamSet,
    after: JamSet,
    *,
    against: SetPlan | None = None,
    fresh: bool = False,
    time_limit: float | None = 60.0,
    progress: Report | None = None,
) -> WhatIfSet: ...


def what_if(
    before: Jam | JamSet,
    after: Jam | JamSet,
    *,
    against: Plan | SetPlan | None = None,
    fresh: bool = False,
    time_limit: float | None = 60.0,
    progress: Report | None = None,
) -> WhatIf | WhatIfSet:
    """Say what a change of a jam or set does to its plan, as a difference from the plan in use.

    Among plans with the fewest cables, the one is taken that moves the fewest plugs of the plan in use, then the fewest
    settings.

    Args:
        before: The jam or set as it is.
        after: The jam or set as it would be; ``solver.jam.editing.changed`` makes a jam.
        against: The plan in use; else it is the best plan of the jam or set as it is.
        fresh: Whether the plan after the change need not be near the one in use.
        time_limit: Seconds for everything; None for as long as it takes.
        progress: Called often with how far the work is.

    Raises:
        InternalError: a plan that the search found breaks a rule.
        TypeError: a jam is compared with a set.
    """
    from solver.jam.sets import JamSet

    if isinstance(before, JamSet) and isinstance(after, JamSet):
        from solver.set_plans import SetPlan
        from solver.whatif.compared_sets import SetInUse, compared_sets

        in_use = SetInUse(against if isinstance(against, SetPlan) else None, fresh)
        return compared_sets(before, after, in_use, time_limit, progress)
    from solver.plans import Plan
    from solver.whatif.compared import Use, compared

    if isinstance(before, JamSet) or isinstance(after, JamSet):
        raise TypeError("a set is compared with a set, a jam with a jam")
    return compared(before, after, Use(against if isinstance(against, Plan) else None, fresh), time_limit, progress)


@overload
def check(jam: Jam, plan: Plan) -> tuple[Breach, ...]: ...


@overload
def check(jam: JamSet, plan: SetPlan) -> tuple[Breach, ...]: ...


def check(jam: Jam | JamSet, plan: Plan | SetPlan) -> tuple[Breach, ...]:
    """Follow the signals through any plan of a jam and list each rule that it breaks, where, in the contract's order.

    No solver takes part: the plan may come from a file or a hand. An empty tuple means that all is well. Of a set each
    jam is followed on its own, and then against those before it.

    Raises:
        TypeError: the plan of a set is given for a jam, or the other way round.
    """
    from solver.checking import breaches, set_breaches
    from solver.jam.sets import JamSet
    from solver.set_plans import SetPlan

    if isinstance(jam, JamSet) and isinstance(plan, SetPlan):
        return set_breaches(jam, plan)
    if isinstance(jam, JamSet) or isinstance(plan, SetPlan):
        raise TypeError("a set goes with the plan of a set, a jam with the plan of a jam")
    return breaches(jam, plan)
