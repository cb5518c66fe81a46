"""Explains a jam: why it is impossible and what the cheapest way out is."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass

from solver.asking import ask
from solver.jam.intents import Avoid, Keep
from solver.jam.jam import Jam
from solver.outcome import Impossible, Planned, Progress, Report, Undecided
from solver.reasons.conflicts import Conflict, conflict_in, conflicts, unrelated
from solver.reasons.easing import Fact
from solver.reasons.facts import known_facts
from solver.reasons.repairs import Repaired, repairs
from solver.reasons.trial import NotDecidedError, Tell, Trial
from solver.reasons.whys import WhyPossible, whys
from solver.search.clock import Clock

CONFLICT_SECONDS, FACT_SECONDS, REPAIR_SECONDS, WHY_SECONDS = 4.0, 2.0, 4.0, 6.0
"""What conflicts, the facts behind them, repairs, and reasons may take, unless all of them are asked for."""
MOST_CONFLICTS = 24
"""How many conflicts are looked for, unless all of them are asked for."""


@dataclass(frozen=True)
class Clash:
    """A conflict and the facts of the gear without which there would be none."""

    conflict: Conflict
    facts: tuple[Fact, ...]


@dataclass(frozen=True)
class WhyImpossible:
    """Conflicts in groups that have nothing to do with each other, shortest first; and ways out, cheapest first.

    ``all`` where it is shown that there are no other conflicts.
    """

    groups: tuple[tuple[Clash, ...], ...]
    all: bool
    repaired: Repaired
    seconds: float

    @property
    def clashes(self) -> tuple[Clash, ...]:
        """Every conflict, group by group."""
        return tuple(clash for group in self.groups for clash in group)


@dataclass(frozen=True)
class Fewer:
    """The plan of a jam, and what cannot be had with one cable less; None where the plan has no cable."""

    planned: Planned
    conflict: Conflict | None


@dataclass(frozen=True)
class Instead:
    """The jam with one more thing asked: the plan before and after, or the clash with what is asked."""

    jam: Jam
    before: Planned
    after: Planned | None
    clash: Clash | None


def explained(
    jam: Jam, every: bool, time_limit: float | None, report: Report | None
) -> WhyImpossible | WhyPossible | Undecided:
    """Explain a jam; see ``solver.explain``."""
    clock = Clock(time_limit)
    with clock.heeding_the_user():
        try:
            trial = Trial(jam, clock, tell=_telling(report, "conflicts", clock))
            if trial.fails(trial.claims):
                return _why_impossible(jam, trial, every, report)
        except NotDecidedError:
            return Undecided(clock.spent, clock.stopped)
        outcome = ask(jam, 0, clock.left, report)
        if not isinstance(outcome, Planned):
            return Undecided(clock.spent, clock.stopped)
        share = Clock(None if every else WHY_SECONDS, clock)
        told = tuple(whys(jam, outcome.best, share, _telling(report, "reasons", clock)))
        return WhyPossible(outcome, told, clock.spent)


def fewer(jam: Jam, time_limit: float | None, report: Report | None = None) -> Fewer | Impossible | Undecided:
    """Say why one cable less would not do; see ``solver.explain``."""
    clock = Clock(time_limit)
    with clock.heeding_the_user():
        outcome = ask(jam, 0, clock.left, report)
        if not isinstance(outcome, Planned):
            return outcome
        tell = _telling(report, "reasons", clock)
        trial = Trial(jam, Clock(WHY_SECONDS, clock), most_cables=len(outcome.best.cables) - 1, tell=tell)
        try:
            if outcome.best.cables and trial.fails(trial.claims):
                conflict = conflict_in(trial, frozenset(trial.claims))
                trial.timed(clock, tell).confirm(conflict.claims)
                return Fewer(outcome, conflict)
        except NotDecidedError:
            return Undecided(clock.spent, clock.stopped)
        return Fewer(outcome, None)


def instead(
    jam: Jam, wish: Keep | Avoid, time_limit: float | None, report: Report | None = None
) -> Instead | Impossible | Undecided:
    """Say what becomes of the plan when one more thing is asked; see ``solver.explain``."""
    clock = Clock(time_limit)
    with clock.heeding_the_user():
        before = ask(jam, 0, clock.left, report)
        if not isinstance(before, Planned):
            return before
        wished = jam.changed(intents=(*jam.intents, wish))
        after = ask(wished, 0, clock.left, report)
        if isinstance(after, Planned):
            return Instead(wished, before, after, None)
        if isinstance(after, Undecided):
            return after
        tell = _telling(report, "conflicts", clock)
        trial = Trial(jam, Clock(CONFLICT_SECONDS, clock), asked=(wish,), tell=tell)
        conflict = conflict_in(trial, frozenset(trial.claims))
        try:
            trial.timed(clock, tell).confirm(conflict.claims)
        except NotDecidedError:
            return Undecided(clock.spent, clock.stopped)
        return Instead(wished, before, None, Clash(conflict, known_facts(trial, conflict.claims)))


def _why_impossible(jam: Jam, trial: Trial, every: bool, report: Report | None) -> WhyImpossible:
    """Explain a jam of which it is known that all its claims together fail."""
    clock = trial.clock

    def share(seconds: float) -> Clock:
        left = None if clock.left is None else clock.left / 2
        return Clock(left if every else seconds if left is None else min(seconds, left), clock)

    found = conflicts(trial.timed(share(CONFLICT_SECONDS), trial.tell), None if every else MOST_CONFLICTS)
    confirmed = []
    with suppress(NotDecidedError):
        for conflict in found.conflicts:
            trial.confirm(conflict.claims)
            confirmed.append(conflict)
    looking = trial.timed(share(FACT_SECONDS), _telling(report, "gear", clock))
    groups = tuple(
        tuple(Clash(conflict, known_facts(looking, conflict.claims)) for conflict in group)
        for group in unrelated(confirmed)
    )
    repaired = repairs(jam, confirmed, share(REPAIR_SECONDS), _telling(report, "repairs", clock))
    return WhyImpossible(groups, found.all and len(confirmed) == len(found.conflicts), repaired, clock.spent)


def shortly(jam: Jam, clock: Clock, report: Report | None) -> WhyImpossible:
    """The shortest conflict of an impossible jam and its cheapest way out, as far as a few seconds allow."""
    trial = Trial(jam, Clock(CONFLICT_SECONDS, clock), tell=_telling(report, "conflicts", clock))
    found = conflicts(trial, MOST_CONFLICTS)
    groups: tuple[tuple[Clash, ...], ...] = ()
    with suppress(NotDecidedError):
        for conflict in found.conflicts[:1]:
            trial.timed(clock, trial.tell).confirm(conflict.claims)
            looking = trial.timed(Clock(FACT_SECONDS, clock), _telling(report, "gear", clock))
            groups = ((Clash(conflict, known_facts(looking, conflict.claims)),),)
    tell = _telling(report, "repairs", clock)
    repaired = repairs(jam, found.conflicts, Clock(REPAIR_SECONDS, clock), tell, most=1)
    return WhyImpossible(groups, found.all and len(found.conflicts) == 1, repaired, clock.spent)


def _telling(report: Report | None, stage: str, clock: Clock) -> Tell:
    def tell() -> None:
        if report is not None:
            report(Progress(stage, None, None, clock.spent))

    return tell
