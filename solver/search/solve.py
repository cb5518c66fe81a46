"""Runs CP-SAT on one piece of a model: one worker, one seed, stoppable at any time, the same answer on every run."""

import threading
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Literal

from ortools.sat.python import cp_model

from solver.search.clock import Clock, nothing
from solver.search.model import YES, Lit
from solver.search.pieces import Piece

Goal = Sequence[tuple[Lit, int]]
"""Literals, each with what it costs where it holds."""

Way = Literal["groups", "slopes", "bare slopes", "plain", "shares"]
"""How a run raises its bound: by groups of choices that cannot all be spared, by linear relaxation with cuts or bare,
by neither, or by what each share of the goal costs at least when it is all that counts."""

Tell = Callable[[int | None, int], None]
"""Is told the best cost so far, if there is an answer, and the bound."""

SEED = 1
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
        self._model = cp_model.CpModel()
        self._variables = {choice: self._model.new_bool_var("") for choice in piece.choices}
        for lits in piece.clauses:
            self._model.add_bool_or(self._terms(lits))
        for lits in piece.at_most_ones:
            self._model.add_at_most_one(self._terms(lits))
        for lits, least, most in piece.sums:
            self._model.add_linear_constraint(cp_model.LinearExpr.sum(self._terms(lits)), least, most)
        places = dict.fromkeys(name for lower, upper, _ in piece.rises for name in (lower, upper))
        heights = {name: self._model.new_int_var(0, len(places), "") for name in places}
        for lower, upper, given in piece.rises:
            rise = self._model.add(heights[upper] >= heights[lower] + 1)
            if given != YES:
                rise.only_enforce_if(*self._terms([given]))

    def _terms(self, lits: Iterable[Lit]) -> list[cp_model.LiteralT]:
        return [self._variables[lit] if lit > 0 else ~self._variables[-lit] for lit in lits]

    def _sum(self, goal: Goal) -> cp_model.LinearExprT:
        terms = self._terms(lit for lit, _ in goal)
        return cp_model.LinearExpr.weighted_sum(terms, [cost for _, cost in goal])

    @property
    def cost(self) -> int | None:
        """What the best answer costs in the goal at hand; None before there is one."""
        if not self.values:
            return None
        return sum(cost for lit, cost in self._goal if self._holds(lit))

    def _holds(self, lit: Lit) -> bool:
        return self.values[abs(lit)] == (lit > 0)

    def _take(self, solver: cp_model.CpSolver) -> None:
        self.values = {choice: bool(solver.value(variable)) for choice, variable in self._variables.items()}

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
        self._model.add_linear_constraint(self._sum(self._goal), cost, cost)

    def decide(self, presolve: bool = True) -> None:
        """Look for any answer."""
        if self._clock.over:
            return
        solver = self._solver(None)
        solver.parameters.linearization_level = 2
        solver.parameters.cp_model_presolve = presolve
        status = self._wait(solver, nothing)
        self.impossible = status == cp_model.INFEASIBLE
        self.met = status == cp_model.OPTIMAL

    def tidy(self, wishes: Iterable[Lit]) -> None:
        """Go on to the best answer that grants each wish in turn where goals and the wishes before it leave room.

        Where that takes long, what the last goal counts stays as it is in the best answer by now, which leaves room
        for fewer wishes. Nothing is asked for after that.
        """
        self._model.clear_objective()  # type: ignore[no-untyped-call]
        for lit in wishes:
            first = cp_model.SELECT_MAX_VALUE if lit > 0 else cp_model.SELECT_MIN_VALUE
            self._model.add_decision_strategy([self._variables[abs(lit)]], cp_model.CHOOSE_FIRST, first)
        solver = self._solver(TIDYING)
        solver.parameters.search_branching = cp_model.FIXED_SEARCH
        solver.parameters.cp_model_presolve = False
        for pinned in ((), self._goal):
            self._model.add_bool_and(self._terms(lit if self._holds(lit) else -lit for lit, _ in pinned))
            if not self._clock.over and self._wait(solver, nothing) == cp_model.OPTIMAL:
                self._take(solver)
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
        status, solver = self._run(self._goal, way, effort, tell)
        self._first = False
        found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
        if found and (self.cost is None or round(solver.objective_value) < self.cost):
            self._take(solver)
        self.met = status == cp_model.OPTIMAL
        self.impossible = status == cp_model.INFEASIBLE
        if not self.impossible:
            self.bound = max(self.bound, round(solver.best_objective_bound))

    def _raise_shares(self, effort: float | None, tell: Tell) -> None:
        """Hold each share of the goal to at least what it costs when it is all that counts."""
        for share in self._shares if len(self._shares) > 1 else ():
            bound = 0
            ways: tuple[Way, ...] = ("plain", "slopes")
            for way in ways:
                if self._clock.over:
                    return
                status, solver = self._run(share, way, effort, lambda best, bound: tell(self.cost, self.bound))
                if status in (cp_model.OPTIMAL, cp_model.FEASIBLE, cp_model.UNKNOWN):
                    bound = max(bound, round(solver.best_objective_bound))
                if status in (cp_model.OPTIMAL, cp_model.INFEASIBLE):
                    break
            self._model.add_linear_constraint(self._sum(share), bound, sum(cost for _, cost in share))

    def _run(
        self, goal: Goal, way: Way, effort: float | None, tell: Tell
    ) -> tuple[cp_model.CpSolverStatus, cp_model.CpSolver]:
        self._model.minimize(self._sum(goal))
        self._model.clear_hints()  # type: ignore[no-untyped-call]
        for choice, value in () if self._first else self.values.items():
            self._model.add_hint(self._variables[choice], value)
        solver = self._solver(effort)
        solver.parameters.optimize_with_core = way == "groups"
        solver.parameters.linearization_level = 2 if way in ("slopes", "bare slopes") else 1
        solver.parameters.cut_level = 0 if way == "bare slopes" else 1
        return self._wait(solver, tell), solver

    def _solver(self, effort: float | None) -> cp_model.CpSolver:
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = SEED
        solver.parameters.catch_sigint_signal = False
        if effort is not None:
            solver.parameters.max_deterministic_time = effort
        if self._clock.left is not None:
            solver.parameters.max_time_in_seconds = self._clock.left
        return solver

    def _wait(self, solver: cp_model.CpSolver, tell: Tell) -> cp_model.CpSolverStatus:
        """Solve in a thread of its own, so that this one can tell how far it is and heed the user."""
        watcher = _Watcher(self.cost)
        solver.best_bound_callback = watcher.on_bound
        status: list[cp_model.CpSolverStatus] = []
        thread = threading.Thread(target=lambda: status.append(solver.solve(self._model, watcher)), daemon=True)
        thread.start()
        with self._clock.halting(solver.stop_search):
            while thread.is_alive():
                thread.join(1.0)
                if thread.is_alive():
                    tell(watcher.best, max(self.bound, watcher.bound))
        return status[0]


class _Watcher(cp_model.CpSolverSolutionCallback):
    """Notes the best cost and the bound as they come."""

    def __init__(self, best: int | None) -> None:
        super().__init__()
        self.best = best
        self.bound = 0

    def on_solution_callback(self) -> None:
        """Called with every answer that is better than those before in this run."""
        cost = round(self.objective_value)
        self.best = cost if self.best is None else min(self.best, cost)

    def on_bound(self, bound: float) -> None:
        """Called with every higher bound."""
        self.bound = round(bound)
