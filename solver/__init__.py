"""hardpan plans the cables and settings of a hardware jam: fewest cables, proved, and followed before it is shown.

The public functions are ``plan``, ``explain``, ``what_if`` and ``check``; jams come from ``solver.reading.read_jam``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from solver.checking import Breach
    from solver.jam.jam import Jam
    from solver.outcome import Outcome, Report, Undecided
    from solver.plans import Plan
    from solver.reasons.explained import WhyImpossible
    from solver.reasons.whys import WhyPossible
    from solver.whatif.compared import WhatIf

__all__ = ["check", "explain", "plan", "what_if"]
__version__ = "0.1.0"


def plan(
    jam: Jam, *, alternatives: int = 0, time_limit: float | None = 60.0, progress: Report | None = None
) -> Outcome:
    """Find the plan of a jam with the fewest cables, then the fewest settings to move, then the tidiest.

    Every plan has been followed by ``check`` before it is returned.

    Args:
        jam: Boxes, parts and intents.
        alternatives: How many of the next best plans that really differ to find too, 0 or more.
        time_limit: Seconds for everything; None for as long as it takes.
        progress: Called about once a second with how far the search is.

    Returns:
        Planned with the best plan first; Impossible where it is proved that there is none; Undecided when the time is
        up, or the user stops the search, before either is known.

    Raises:
        InternalError: a plan that the search found breaks a rule. It is never returned.
    """
    from solver.asking import ask

    return ask(jam, alternatives, time_limit, progress)


def explain(
    jam: Jam, *, every: bool = False, time_limit: float | None = 60.0, progress: Report | None = None
) -> WhyImpossible | WhyPossible | Undecided:
    """Say why a jam is impossible and what the cheapest ways out are, or why its plan is as it is.

    Args:
        jam: Boxes, parts and intents.
        every: Whether to list every minimal conflict or reason, however long that takes; else seconds are spent.
        time_limit: Seconds for everything; None for as long as it takes.
        progress: Called often with how far the work is.

    Raises:
        InternalError: a second proof disagrees with the first, or a plan breaks a rule.
    """
    from solver.reasons.explained import explained

    return explained(jam, every, time_limit, progress)


def what_if(
    before: Jam,
    after: Jam,
    *,
    against: Plan | None = None,
    fresh: bool = False,
    time_limit: float | None = 60.0,
    progress: Report | None = None,
) -> WhatIf:
    """Say what a change of a jam does to its plan, as a difference from the plan in use.

    Among plans with the fewest cables, the one is taken that moves the fewest plugs of the plan in use, then the fewest
    settings.

    Args:
        before: The jam as it is.
        after: The jam as it would be; ``solver.jam.editing.changed`` makes one.
        against: The plan in use; else it is the best plan of the jam as it is.
        fresh: Whether the plan after the change need not be near the one in use.
        time_limit: Seconds for everything; None for as long as it takes.
        progress: Called often with how far the work is.

    Raises:
        InternalError: a plan that the search found breaks a rule.
    """
    from solver.whatif.compared import Use, compared

    return compared(before, after, Use(against, fresh), time_limit, progress)


def check(jam: Jam, plan: Plan) -> tuple[Breach, ...]:
    """Follow the signals through any plan of a jam and list each rule that it breaks, where, in the contract's order.

    No solver takes part: the plan may come from a file or a hand. An empty tuple means that all is well.
    """
    from solver.checking import breaches

    return breaches(jam, plan)
