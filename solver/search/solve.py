"""Runs CP-SAT: one worker, one seed, stoppable at any time, and the same answer on every run."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Literal

from ortools.sat.python import cp_model

from solver.outcome import Progress, Report
from solver.search.model import YES, Lit, Model

Verdict = Literal["optimal", "feasible", "impossible", "unknown"]
SEED = 1
TIDY_EFFORT = 5.0
"""How much deterministic time the last, cosmetic goal may take; the plan is right and proved before it begins."""


@dataclass(frozen=True)
class Answer:
    """What one run found: the verdict, and whether each literal holds (empty without a plan)."""

    verdict: Verdict
    values: Sequence[bool]

    def holds(self, lit: Lit) -> bool:
        """Whether a literal holds in what was found."""
        return self.values[lit] if lit > 0 else not self.values[-lit]

    def count(self, lits: Iterable[Lit]) -> int:
        """How many of these literals hold."""
        return sum(map(self.holds, lits))


class Clock:
    """Seconds since the start, and how many are left of those given."""

    def __init__(self, limit: float | None) -> None:
        self._start = time.monotonic()
        self._limit = limit
        self.stopped = False

    @property
    def spent(self) -> float:
        """Seconds since the start."""
        return time.monotonic() - self._start

    @property
    def left(self) -> float | None:
        """Seconds left, never below 0; None without a limit."""
        return None if self._limit is None else max(0.0, self._limit - self.spent)


class Runs:
    """Consecutive runs on one model, each under what the earlier ones settled."""

    def __init__(self, model: Model, clock: Clock, report: Report | None) -> None:
        self._model, self._variables = _compile(model)
        self._clock = clock
        self._report = report

    def _sum(self, lits: Iterable[Lit]) -> cp_model.LinearExpr:
        return cp_model.LinearExpr.sum([self._term(lit) for lit in lits])

    def _term(self, lit: Lit) -> cp_model.LiteralT:
        return self._variables[lit] if lit > 0 else ~self._variables[-lit]

    def settle(self, lits: Iterable[Lit], count: int) -> None:
        """From here on, just so many of these hold."""
        self._model.add(self._sum(lits) == count)

    def fewest(self, goal: str, lits: Sequence[Lit], start: Answer | None = None) -> Answer:
        """Find an answer in which as few of these as possible hold, beginning from an earlier answer."""
        self._model.minimize(self._sum(lits))
        self._model.clear_hints()
        if start is not None:
            for variable, value in zip(self._variables, start.values, strict=True):
                self._model.add_hint(variable, value)
        return self._run(goal, cp_model.CpSolver())

    def first(self, lits: Iterable[Lit]) -> Answer:
        """Find the answer that is first when each of these in turn holds where it can."""
        self._model.clear_objective()
        self._model.clear_hints()
        for positive, run in groupby((lit for lit in lits if abs(lit) != YES), key=lambda lit: lit > 0):
            choose = cp_model.SELECT_MAX_VALUE if positive else cp_model.SELECT_MIN_VALUE
            variables = [self._variables[abs(lit)] for lit in run]
            self._model.add_decision_strategy(variables, cp_model.CHOOSE_FIRST, choose)
        solver = cp_model.CpSolver()
        solver.parameters.search_branching = cp_model.FIXED_SEARCH
        solver.parameters.keep_all_feasible_solutions_in_presolve = True
        solver.parameters.symmetry_level = 0
        solver.parameters.max_deterministic_time = TIDY_EFFORT
        return self._run("tidy", solver)

    def _run(self, goal: str, solver: cp_model.CpSolver) -> Answer:
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = SEED
        solver.parameters.catch_sigint_signal = False
        if self._clock.stopped or self._clock.left == 0:
            return Answer("unknown", ())
        if self._clock.left is not None:
            solver.parameters.max_time_in_seconds = self._clock.left
        watcher = _Watcher()
        status: list[cp_model.CpSolverStatus] = []
        thread = threading.Thread(target=lambda: status.append(solver.solve(self._model, watcher)), daemon=True)
        thread.start()
        while thread.is_alive():
            try:
                thread.join(1.0)
                if thread.is_alive() and self._report is not None:
                    self._report(Progress(goal, watcher.best, watcher.bound, self._clock.spent))
            except KeyboardInterrupt:
                self._clock.stopped = True
                solver.stop_search()
        verdict = _VERDICTS[status[0]]
        found = verdict in ("optimal", "feasible")
        return Answer(verdict, [bool(solver.value(v)) for v in self._variables] if found else ())


def _compile(model: Model) -> tuple[cp_model.CpModel, list[cp_model.IntVar]]:
    """The CP-SAT model, and its variables by the number of their literal; number 0 is unused."""
    compiled = cp_model.CpModel()
    variables = [compiled.new_bool_var("") for _ in range(model.count + 1)]

    def term(lit: Lit) -> cp_model.LiteralT:
        return variables[lit] if lit > 0 else ~variables[-lit]

    compiled.add_bool_and(~variables[0], *map(term, sorted(model.settled, key=lambda lit: (abs(lit), lit))))
    for lits in model.clauses:
        compiled.add_bool_or([term(lit) for lit in lits])
    for lits in model.at_most_ones:
        compiled.add_at_most_one([term(lit) for lit in lits])
    for lits, limit in model.limits:
        compiled.add(cp_model.LinearExpr.sum([term(lit) for lit in lits]) <= limit)
    places = dict.fromkeys(name for lower, upper, _ in model.rises for name in (lower, upper))
    heights = {name: compiled.new_int_var(0, len(places), "") for name in places}
    for lower, upper, given in model.rises:
        compiled.add(heights[upper] >= heights[lower] + 1).only_enforce_if(term(given))
    return compiled, variables


_VERDICTS: dict[cp_model.CpSolverStatus, Verdict] = {
    cp_model.OPTIMAL: "optimal",
    cp_model.FEASIBLE: "feasible",
    cp_model.INFEASIBLE: "impossible",
    cp_model.UNKNOWN: "unknown",
}


class _Watcher(cp_model.CpSolverSolutionCallback):
    """Notes the best value and the bound as they come."""

    def __init__(self) -> None:
        super().__init__()
        self.best: int | None = None
        self.bound: int | None = None

    def on_solution_callback(self) -> None:
        """Called with every better answer."""
        self.best = round(self.objective_value)
        self.bound = round(self.best_objective_bound)
