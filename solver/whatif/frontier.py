"""How much of what is wished can be had with how many cables: every trade of wishes for cables that is worth it.

Parts, mains and the drawer are given; each intent is met as a whole or left out as a whole. From the cables of the plan
downwards, the heaviest intents that can be had are found by what cannot be had together: the lightest intents that
touch every known conflict are left out; either the rest can be had, or there is a conflict among it that was not known
(J. Davies and F. Bacchus, "Solving MAXSAT by solving a sequence of simpler SAT instances", CP 2011; from memory).
What cannot be had together with so many cables cannot with fewer, so conflicts are kept on the way down.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from solver.asking import ask
from solver.jam.claims import Claim, claims, in_force, intent_of
from solver.jam.jam import Jam
from solver.jam.loosened import readings
from solver.outcome import Impossible, InternalError, Undecided
from solver.plans import Plan
from solver.reasons.trial import MOST_READINGS, NotDecidedError, OutOfTimeError, Tell, TooManyReadingsError, Trial
from solver.search.clock import Clock
from solver.search.planner import is_possible
from solver.whatif.lightest import Places, lightest_touching

READINGS = 256
"""In how many ways a choice of intents is read at most."""
EITHER = ("layer", "stereo", "program")
"""Intents that may hold or not where they are left out."""


class Point(NamedTuple):
    """The most that can be met with so many cables.

    Attributes:
        cables: How many cables the plan has.
        met: What the intents that are met weigh together.
        left_out: The places, counted from 0, of the intents that are not. Of several choices that weigh the same, the
            one that keeps the intents that come first in the file.
        plan: A plan of the jam without these intents.
        proved: Whether it is proved that no more can be met with so many cables, and not as much with fewer.
    """

    cables: int
    met: int
    left_out: tuple[int, ...]
    plan: Plan
    proved: bool


class Frontier(NamedTuple):
    """Points from few cables to many, each with more met than the one before.

    Attributes:
        points: None of them where the parts alone cannot be planned.
        total: What all intents weigh together.
        done: Whether there are no other points: the first has the fewest cables with which the parts can be had, the
            last the most that can be met with any number of cables.
    """

    points: tuple[Point, ...]
    total: int
    done: bool


def frontier(jam: Jam, clock: Clock, tell: Tell) -> Frontier:
    """Find the most that can be met with each number of cables.

    Args:
        jam: What is wished; it may be impossible.
        clock: How long it may take; when it is over, the points are those that are known, from many cables down.
        tell: Called before each step, to say how far the work is.

    Raises:
        InternalError: a plan breaks a rule, or two proofs disagree.
    """
    found: list[Point] = []
    total = sum(intent.weight for intent in jam.intents)
    try:
        for point in _Search(jam, clock, tell).downwards():
            if found and found[-1].met == point.met:
                found.pop()
            _settle_last(found)
            found.append(point)
        _settle_last(found)
    except NotDecidedError:
        return Frontier(tuple(reversed(found)), total, done=False)
    return Frontier(tuple(reversed(found)), total, done=True)


def _settle_last(found: list[Point]) -> None:
    """What comes after it is known now: less is met with fewer cables."""
    if found:
        found[-1] = found[-1]._replace(proved=True)


class _Search:
    """Looks for points from many cables to few."""

    def __init__(self, jam: Jam, clock: Clock, tell: Tell) -> None:
        self._jam = jam
        self._clock = clock
        self._tell = tell
        self._weights = [intent.weight for intent in jam.intents]
        self._all = frozenset(range(len(jam.intents)))
        stated = ((claim, intent_of(jam, claim)) for claim in claims(jam))
        self._claims = [(claim, None if intent is None else intent[0]) for claim, intent in stated]
        self._conflicts: list[Places] = []
        self._stopped = False

    def downwards(self) -> Iterator[Point]:
        """The heaviest intents for fewer and fewer cables; the same weight may come again with fewer.

        Raises:
            NotDecidedError: the time is up.
        """
        most: int | None = None
        plan = self._asked(self._jam)
        if plan is not None:
            fewest = plan.proof.get("cables", False)
            yield self._point(plan, frozenset(), fewest)
            most = len(plan.cables) - 1
            if fewest and most >= 0:
                self._conflicts.append(self._conflict(self._trial(most), self._all))
        while most is None or most >= 0:
            if self._stopped:
                raise OutOfTimeError
            trial = self._trial(most)
            left_out = self._lightest(trial)
            if left_out is None:
                return
            plan = self._planned(trial, left_out)
            yield self._point(plan, left_out)
            most = len(plan.cables) - 1

    def _trial(self, most: int | None) -> Trial:
        return Trial(self._jam, self._clock, most_cables=most, tell=self._tell)

    def _point(self, plan: Plan, left_out: Places, proved: bool = False) -> Point:
        met = sum(self._weights[place] for place in self._all - left_out)
        return Point(len(plan.cables), met, tuple(sorted(left_out)), plan, proved)

    def _kept(self, kept: Places) -> list[Claim]:
        """All that is given, and these intents."""
        return [claim for claim, place in self._claims if place is None or place in kept]

    def _lightest(self, trial: Trial) -> Places | None:
        """The lightest intents without which the others can be had; None where the parts alone cannot."""
        while True:
            left_out = lightest_touching(self._conflicts, self._weights, self._clock)
            if left_out is None:
                return None
            kept = self._all - left_out
            if not trial.fails(self._kept(kept), READINGS):
                return left_out
            self._conflicts.append(self._conflict(trial, kept))

    def _conflict(self, trial: Trial, kept: Places) -> Places:
        """Intents that cannot be had together, none too many: larger and smaller chunks are left out, last ones first.

        What can be read in two ways when it is left out is left out last. One too many may stay where there are too
        many of these ways to try them all.
        """
        needed, rest = list[int](), sorted(kept, key=lambda place: (self._jam.intents[place].kind not in EITHER, place))
        chunk = len(rest)
        while rest:
            chunk = min(chunk, len(rest))
            shorter = rest[: len(rest) - chunk]
            if self._surely_fails(trial, frozenset([*shorter, *needed])):
                rest, chunk = shorter, 2 * chunk
            elif chunk > 1:
                chunk //= 2
            else:
                needed.append(rest.pop())
        return frozenset(needed)

    def _surely_fails(self, trial: Trial, kept: Places) -> bool:
        """Whether that is proved; not tried where there are too many ways to read it, unless the parts are alone."""
        stated = in_force(self._kept(kept))
        many = 2 ** len(readings(self._jam, stated, trial.claims)) > MOST_READINGS
        try:
            return trial.fails(stated, READINGS if not kept else 0 if many else MOST_READINGS)
        except TooManyReadingsError:
            return False

    def _planned(self, trial: Trial, left_out: Places) -> Plan:
        """A plan without some intents that has no more cables than the trial allows."""
        for (jam,) in trial.jams(self._kept(self._all - left_out)):
            possible = is_possible(jam, self._clock, most_cables=trial.most_cables)
            plan = self._asked(jam) if possible else None
            if possible is None or (plan and trial.most_cables is not None and len(plan.cables) > trial.most_cables):
                raise OutOfTimeError
            if plan is not None:
                return plan
        raise InternalError("what one search has found possible, another has not")

    def _asked(self, jam: Jam) -> Plan | None:
        """The plan of a jam, in half of the time that is left, so that some is left for what comes next.

        Returns:
            None where it is proved that there is none.

        Raises:
            OutOfTimeError: neither a plan nor a proof was found in that time.
        """
        self._tell()
        share = None if self._clock.left is None else self._clock.left / 2
        outcome = ask(jam, 0, share, None)
        if isinstance(outcome, Undecided):
            raise OutOfTimeError
        if isinstance(outcome, Impossible):
            return None
        self._stopped = outcome.stopped and (share is None or outcome.seconds < share)
        return outcome.best
