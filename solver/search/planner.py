"""Finds the plan of a jam, or of several on one wiring: posts every rule, meets the goals, lists what comes next."""

from collections.abc import Sequence
from dataclasses import dataclass

from solver.jam.jam import Jam
from solver.outcome import Impossible, Outcome, Planned, Report, Undecided
from solver.plans import Plan
from solver.rules import RULES
from solver.search import goals
from solver.search.answer import plan_from
from solver.search.best import best
from solver.search.choices import Choices
from solver.search.clock import Clock
from solver.search.cuts import cut
from solver.search.ground import Ground
from solver.search.pieces import ContradictionError, settle, split
from solver.search.solve import Runs
from solver.search.wishes import Near, Wishes


def search(
    jam: Jam,
    alternatives: int = 0,
    time_limit: float | None = None,
    report: Report | None = None,
    near: Plan | None = None,
) -> Outcome:
    """Find the best plan and the next best that really differ.

    Args:
        jam: What is wanted.
        alternatives: How many further plans to look for.
        time_limit: Seconds for everything; None for as long as it takes.
        report: Called about once a second with how far the search is.
        near: A plan in use, for this jam or one like it. Among plans with the fewest cables, the best moves the fewest
            of its plugs, then changes the least else.
    """
    found = search_together([jam], alternatives, time_limit, report, [near] if near is not None else None)
    if isinstance(found, Together):
        return Planned(tuple(plan for (plan,) in found.plans), found.seconds, found.stopped)
    return found


@dataclass(frozen=True)
class Together:
    """Plans of several jams on one wiring, the best first; each has one plan for every jam."""

    plans: tuple[tuple[Plan, ...], ...]
    seconds: float
    stopped: bool


def search_together(
    jams: Sequence[Jam],
    alternatives: int = 0,
    time_limit: float | None = None,
    report: Report | None = None,
    near: Sequence[Plan | None] | None = None,
    *,
    plugs_first: bool = False,
) -> Together | Impossible | Undecided:
    """The same for several jams in playing order, which have the same boxes and share cables and what boxes store.

    Args:
        jams: What is wanted.
        alternatives: How many further plans to look for.
        time_limit: Seconds for everything; None for as long as it takes.
        report: Called about once a second with how far the search is.
        near: The plans in use, one for each jam that has one.
        plugs_first: Whether to move few plugs of the plans in use counts before how many cables there are.
    """
    clock = Clock(time_limit)
    with clock.heeding_the_user():
        plans = _plans(jams, alternatives, clock, report, Near(near, plugs_first))
    if plans is None:
        return Impossible(clock.spent)
    return Together(plans, clock.spent, clock.over) if plans else Undecided(clock.spent, clock.stopped)


def is_possible(
    jams: Jam | Sequence[Jam],
    clock: Clock,
    *,
    most_cables: int | None = None,
    presolve: bool = True,
    of_sound: bool = False,
) -> bool | None:
    """Whether a jam has any plan, or several have one on one wiring; None where that is not decided in time.

    Args:
        jams: What is wanted.
        clock: How long it may take.
        most_cables: How many cables the plan may use.
        of_sound: Whether only the rules of sound count, whatever notes and clock do.
        presolve: Whether the solver may rewrite the model first; without, it is a second opinion.
    """
    first, *_ = _posted([jams] if isinstance(jams, Jam) else jams, of_sound, hands=False)
    if most_cables is not None:
        first.model.at_most(most_cables, goals.cables(first))
    try:
        settle(first.model)
        pieces = split(first.model, ())
    except ContradictionError:
        return False
    decided = True
    for piece in sorted(pieces, key=lambda piece: len(piece.choices)):
        runs = Runs(piece, clock)
        runs.decide(presolve)
        if runs.impossible:
            return False
        decided = decided and runs.met
    return True if decided else None


def _posted(jams: Sequence[Jam], of_sound: bool = False, hands: bool = True) -> list[Choices]:
    """The open choices of each jam, with every rule posted."""
    ground = Ground(jams, hands)
    every = [Choices(ground, turn) for turn in range(len(jams))]
    for choices in every:
        for rule in RULES:
            if rule.of_sound or not of_sound:
                rule.constrain(choices)
        if not of_sound:
            cut(choices)
    return every


def _plans(
    jams: Sequence[Jam],
    alternatives: int,
    clock: Clock,
    report: Report | None,
    near: Near,
) -> tuple[tuple[Plan, ...], ...] | None:
    """The best plans and the next ones as far as they are found; None where it is proved that there is none."""
    every = _posted(jams)
    for choices in every:
        goals.leave_alone(choices)
    wishes = Wishes.of(every, near)
    differences = [lit for choices in every for lit in goals.differences(choices)] if alternatives else []
    model, plans = every[0].model, list[tuple[Plan, ...]]()
    for _ in range(alternatives + 1):
        found = best(model, wishes, clock, report)
        if found.impossible and not plans:
            return None
        if not found.values:
            break
        old = near.plans or [None] * len(every)
        plans.append(
            tuple(plan_from(choices, found.holds, found.proof, was) for choices, was in zip(every, old, strict=True))
        )
        model.clause(*(-lit if found.holds(lit) else lit for lit in differences))
    return tuple(plans)
