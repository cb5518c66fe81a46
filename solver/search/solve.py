"""Runs of the solver on one piece, each going on from what is known by then, until its goals are met."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Literal

from ortools.sat.python import cp_model

from solver.search.clock import Clock, nothing
from solver.search.model import Lit
from solver.search.pieces import Piece
from solver.search.posed import Answer, Goal, Posed, Tell

__all__ = ["Goal", "Runs", "Tell", "Way"]

Way = Literal["groups", "slopes", "bare slopes", "plain", "shares"]
"""How a run raises its bound: by groups of choices that cannot all be spared, by linear relaxation with cuts or bare,
by neither, or by what each share of the goal costs at least when it is all that counts."""

TIDYING = 0.05
"""The effort, in deterministic time, that one search for a tidy answer may take."""


class Runs:
    """Consecutive runs on one piece, each going on from what is known by then.

    Attributes:
        values: The best answer so far, by choice; empty before there is one.
        bound: The least that the goal at hand can cost, as far as is proved.
        met: Whether it is proved that the best answer costs the least.
        impossible: Whether it is proved that there is no answer.
    """

    def __init__(self, piece: Piece, clock: Clock) -> None:
        self.values: Mapping[int, bool] = {}
        self.bound = 0
        self.met = False
        self.impossible = False
        self._clock = clock
        self._goal: Goal = ()
        self._first = True
        self._shares: Sequence[Goal] = ()
        self._posed = Posed(piece, clock)
        self._choices = piece.choices

    @property
    def cost(self) -> int | None:
        """What the best answer costs in the goal at hand; None before there is one."""
        if not self.values:
            return None
        return sum(cost for lit, cost in self._goal if self._holds(lit))

    def _holds(self, lit: Lit) -> bool:
        return self.values[abs(lit)] == (lit > 0)

    def _take(self, answer: Answer) -> None:
        self.values = dict(zip(self._choices, map(bool, answer.values), strict=True))

    def aim(self, goal: Goal, shares: Sequence[Goal] = ()) -> None:
        """Take up a goal, which may be the sum of shares; one that the best answer meets for nothing is met at once.

        The first run starts from nothing: the answer that met the last goal is mostly far from what meets this one.
        """
        self._goal = goal
        self._shares = [share for share in shares if share]
        self.bound = 0
        self.met = self.cost == 0
        self._first = True

    def hold(self) -> None:
        """From here on, the goal at hand costs what it costs in the best answer."""
        cost = self.cost
        assert cost is not None
        self._posed.keep(self._goal, cost, cost)

    def decide(self, presolve: bool = True) -> None:
        """Look for any answer."""
        if self._clock.over:
            return
        answer = self._posed.run(None, nothing, linearization_level=2, cp_model_presolve=presolve)
        self.impossible = answer.impossible
        self.met = answer.best

    def tidy(self, wishes: Iterable[Lit]) -> None:
        """Go on to the best answer that grants each wish in turn where goals and the wishes before it leave room.

        Where that takes long, what the last goal counts stays as it is in the best answer by now, which leaves room
        for fewer wishes. Nothing is asked for after that.
        """
        self._posed.wish(wishes)
        for pinned in ((), self._goal):
            self._posed.require(lit if self._holds(lit) else -lit for lit, _ in pinned)
            if self._clock.over:
                continue
            answer = self._posed.run(
                self.cost, nothing, TIDYING, search_branching=cp_model.FIXED_SEARCH, cp_model_presolve=False
            )
            if answer.best:
                self._take(answer)
                return

    def turn(self, way: Way, effort: float | None, tell: Tell) -> None:
        """Look for a better answer and a higher bound.

        Args:
            way: How the bound is raised.
            effort: Deterministic time to spend; None for as long as it takes.
            tell: Called about once a second with the best cost and the bound.
        """
        if way == "shares":
            self._raise_shares(effort, tell)
            return
        if self._clock.over:
            return
        answer = self._run(self._goal, way, effort, lambda best, bound: tell(best, max(self.bound, bound)))
        self._first = False
        if answer.values and (self.cost is None or answer.cost < self.cost):
            self._take(answer)
        self.met = answer.best
        self.impossible = answer.impossible
        if not self.impossible:
            self.bound = max(self.bound, answer.bound)

    def _raise_shares(self, effort: float | None, tell: Tell) -> None:
        """Hold each share of the goal to at least what it costs when it is all that counts."""
        for share in self._shares if len(self._shares) > 1 else ():
            bound = 0
            ways: tuple[Way, ...] = ("plain", "slopes")
            for way in ways:
                if self._clock.over:
                    return
                answer = self._run(share, way, effort, lambda best, bound: tell(self.cost, self.bound))
                if answer.impossible:
                    break
                bound = max(bound, answer.bound)
                if answer.best:
                    break
            self._posed.keep(share, bound, sum(cost for _, cost in share))

    def _run(self, goal: Goal, way: Way, effort: float | None, tell: Tell) -> Answer:
        self._posed.minimize(goal, {} if self._first else self.values)
        return self._posed.run(
            self.cost,
            tell,
            effort,
            optimize_with_core=way == "groups",
            linearization_level=2 if way in ("slopes", "bare slopes") else 1,
            cut_level=0 if way == "bare slopes" else 1,
        )
